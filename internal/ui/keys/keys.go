package keys

import "github.com/charmbracelet/bubbles/key"

func bind(name, does string, ks ...string) key.Binding {
	return key.NewBinding(key.WithKeys(ks...), key.WithHelp(name, does))
}

// Every key of the program, with what it usually does. Help lines, the page of
// keys and the README's table derive from these; none is ever changed.
//
//nolint:gochecknoglobals // A table; a struct cannot be constant.
var (
	Tick    = bind("space", "tick", " ")
	Accept  = bind("enter", "what it weighs", "enter")
	More    = bind("+", "this much, more to come", "+")
	ByEye   = bind("b", "by eye, not weighed", "b")
	Figures = bind("0-9", "weigh", "0", "1", "2", "3", "4", "5", "6", "7", "8", "9", ".", ",")
	Erase   = bind("backspace", "erase", "backspace")

	Up    = bind("↑", "up", "up", "k")
	Down  = bind("↓", "down", "down", "j")
	Left  = bind("←", "stage before", "left", "pgup", "h")
	Right = bind("→", "stage after", "right", "pgdown", "l")
	Back  = bind("esc", "back", "esc")

	PageUp   = bind("pgup", "page back", "pgup")
	PageDown = bind("pgdn", "page on", "pgdown")
	First    = bind("home", "to the first", "home")
	Last     = bind("end", "to the last", "end")

	Note     = bind("n", "note", "n")
	Correct  = bind("u", "correct", "u")
	LeaveOut = bind("x", "leave out", "x")
	TakeBack = bind("x", "take it back", "x")
	End      = bind("e", "end the batch", "e")
	Retry    = bind("r", "save again", "r")

	Ways     = bind("d", "how to go on", "d")
	Decide   = bind("enter", "take this way", "enter")
	WeighPot = bind("w", "weigh the pot", "w")
	Instead  = bind("i", "another vessel", "i")

	Face    = bind("f", "cut face", "f")
	Answers = bind("s", "other answers", "s")
	InWords = bind("t", "type it in words", "t")
	Take    = bind("enter", "take this answer", "enter")
	Later   = bind("c", "complaint, where bars went", "c")
	Rack    = bind("r", "curing rack", "r")
	Find    = bind("/", "find", "/")

	Timers = bind("m", "all timers", "m")
	Seen   = bind("a", "alarm seen", "a")
	PutOff = bind("z", "alarm later", "z")
	Longer = bind("c", "alarm much later", "c")

	Aid         = bind("!", "first aid", "!")
	AidAnywhere = bind("F1", "first aid", "f1")
	Keys        = bind("?", "keys", "?")
	Switch      = bind("tab", "other batch", "tab")
	Quit        = bind("q", "leave", "q")
	Break       = bind("ctrl+c", "leave", "ctrl+c")

	// Speed and Forward work in practice only, and the mark of practice says so.
	Speed   = bind("v", "speed", "v")
	Forward = bind("V", "to what is due next", "V")

	Open    = bind("enter", "open", "enter")
	Start   = bind("enter", "start the batch", "enter")
	Confirm = bind("enter", "keep", "enter")
)

// Shown gives words for several keys at once, for a help line only.
func Shown(name, does string) key.Binding { return bind(name, does, name) }

// Off gives a binding that is shown but does not work now, with why.
func Off(b key.Binding, why string) key.Binding {
	b.SetHelp(b.Help().Key, why)
	b.SetEnabled(false)
	return b
}

// Says gives a binding with other words for the moment.
func Says(b key.Binding, does string) key.Binding {
	b.SetHelp(b.Help().Key, does)
	return b
}

// keyGroup is a heading of the page of keys.
type keyGroup struct {
	title string
	keys  []key.Binding
}

// allKeys lists every key once, for the page of keys.
func allKeys() []keyGroup {
	return []keyGroup{
		{"Weigh and tick", []key.Binding{
			Says(Tick, "done, or: the scale shows what was asked"),
			Says(Figures, "type what it weighs, then enter"),
			Says(More, "this much, and more to come from another container"),
			Says(ByEye, "by eye, not weighed; the figure typed before it is kept"), Says(LeaveOut, "leave a task out, with the reason"),
			Shown("s  t", "too soft, or before its time; in words (several bars, a day)"),
			Shown("d  w  i", "how to go on; is all in the pot? another vessel was taken"),
		}},
		{"Move", []key.Binding{
			Shown("↑ ↓  home end", "tasks of the stage (k j, too); in lists pgup pgdn"),
			Shown("← →  pgup pgdn", "stages, those that may be done meanwhile too"),
			Says(Back, "back: what was typed, what is next, the first screen"), Switch,
			Says(Face, "the loaf's cut face, as large as the window"),
		}},
		{"Say", []key.Binding{
			Shown("n  u  c", "note; correct an entry; complaint, where bars went"),
			Shown("r  /", "the curing rack (first screen), find in it; else save again"),
			Shown("a  z  m", "alarm seen, its task stays; later (then z x c); all timers"), Says(End, "end or abandon the batch"),
		}},
		{"Always", []key.Binding{
			Says(Aid, "first aid and spills; F1 where text is typed"),
			Shown("?  q", "this page; leave, the batch stays open (ctrl+c too)"),
		}},
	}
}
