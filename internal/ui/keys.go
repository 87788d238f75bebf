package ui

import "github.com/charmbracelet/bubbles/key"

// keyMap holds every key of the program. Help lines, the page of keys and the
// README's table derive from it.
type keyMap struct {
	Tick, Accept, More, ByEye     key.Binding
	Up, Down, Left, Right         key.Binding
	PageUp, PageDown, Back, Erase key.Binding
	Note, Correct, LeaveOut, End  key.Binding
	Seen, PutOff, Longer, Retry   key.Binding
	Aid, AidAnywhere, Keys        key.Binding
	Ways, Decide, WeighPot        key.Binding
	Switch, Quit, Break           key.Binding
	Figures, Open, Start, Confirm key.Binding
}

func bind(name, does string, ks ...string) key.Binding {
	return key.NewBinding(key.WithKeys(ks...), key.WithHelp(name, does))
}

// keys is never changed; it is a variable because a struct cannot be constant.
var keys = keyMap{ //nolint:gochecknoglobals // A table.
	Tick:    bind("space", "tick", " "),
	Accept:  bind("enter", "what it weighs", "enter"),
	More:    bind("+", "this much, more to come", "+"),
	ByEye:   bind("b", "by eye, not weighed", "b"),
	Figures: bind("0-9", "weigh", "0", "1", "2", "3", "4", "5", "6", "7", "8", "9", ".", ","),
	Erase:   bind("backspace", "erase", "backspace"),

	Up:    bind("↑", "up", "up", "k"),
	Down:  bind("↓", "down", "down", "j"),
	Left:  bind("←", "stage before", "left", "pgup", "h"),
	Right: bind("→", "stage after", "right", "pgdown", "l"),
	Back:  bind("esc", "back", "esc"),

	PageUp:   bind("pgup", "page back", "pgup"),
	PageDown: bind("pgdn", "page on", "pgdown", " "),

	Note:     bind("n", "note", "n"),
	Correct:  bind("u", "correct", "u"),
	LeaveOut: bind("x", "leave out", "x"),
	End:      bind("e", "end the batch", "e"),
	Retry:    bind("r", "save again", "r"),

	Ways:     bind("d", "how to go on", "d"),
	Decide:   bind("enter", "take this way", "enter"),
	WeighPot: bind("w", "weigh the pot", "w"),

	Seen:   bind("a", "alarm seen", "a"),
	PutOff: bind("z", "alarm later", "z"),
	Longer: bind("c", "alarm much later", "c"),

	Aid:         bind("!", "first aid", "!"),
	AidAnywhere: bind("F1", "first aid", "f1"),
	Keys:        bind("?", "keys", "?"),
	Switch:      bind("tab", "other batch", "tab"),
	Quit:        bind("q", "leave", "q"),
	Break:       bind("ctrl+c", "leave", "ctrl+c"),

	Open:    bind("enter", "open", "enter"),
	Start:   bind("enter", "start the batch", "enter"),
	Confirm: bind("enter", "keep", "enter"),
}

// shown gives words for several keys at once, for a help line only.
func shown(name, does string) key.Binding { return bind(name, does, name) }

// off gives a binding that is shown but does not work now, with why.
func off(b key.Binding, why string) key.Binding {
	b.SetHelp(b.Help().Key, why)
	b.SetEnabled(false)
	return b
}

// says gives a binding with other words for the moment.
func says(b key.Binding, does string) key.Binding {
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
			says(keys.Tick, "done, or: the scale shows what was asked"),
			says(keys.Figures, "type what it weighs, then enter"),
			says(keys.More, "instead of enter: this much, more to come from another container"),
			says(keys.ByEye, "by eye, not weighed; the figure typed before it is kept"), says(keys.LeaveOut, "leave a task out, with the reason"), keys.Retry,
			shown("d  w", "a weight was off: the ways to go on; weigh the pot: is all in, once?"),
		}},
		{"Move", []key.Binding{
			shown("↑ ↓  k j", "tasks of the stage"),
			shown("← →  pgup pgdn", "stages, those that may be done meanwhile too"),
			says(keys.Back, "back: what was typed, what is next, the first screen"), keys.Switch,
		}},
		{"Say", []key.Binding{
			shown("n  u", "note; correct an earlier entry"),
			keys.Seen, says(keys.PutOff, "alarm later; z, x or c then says how much later"), says(keys.End, "end or abandon the batch"),
		}},
		{"Always", []key.Binding{
			says(keys.Aid, "first aid and spills; F1 where text is typed"),
			keys.Keys, says(keys.Quit, "leave; the batch stays open (ctrl+c too)"),
		}},
	}
}
