package ui

import (
	"reflect"
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/front"
	"bench/internal/memory"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/reply"
	"bench/internal/timer"
	"bench/internal/ui/ink"
	"bench/internal/work"

	tea "github.com/charmbracelet/bubbletea"
)

const tenthOfAGram = quantity.Gram / 10

var morning = time.Date(2026, time.November, 25, 9, 0, 0, 0, time.UTC)

// person is someone at the bench: presses keys, looks, waits. Commands run
// inline unless they are held back; ticks never run.
type person struct {
	t     testing.TB
	m     Model
	store *memory.Store
	clock time.Time
	skew  time.Duration // skew is how far the wall clock has been set off.
	// holdBack keeps commands from running until let is called, as a slow disk
	// does.
	holdBack bool
	waiting  []tea.Cmd
	ticks    int
	again    int  // again counts looks at the screen some seconds later.
	left     bool // left says that the program has ended.
	bells    int  // bells is how often the bell rang.
	notices  []string
	mice     int // mice is how often clicks were asked for.
	manner   recipe.Manner
}

func arrives(t testing.TB, s *memory.Store) *person {
	t.Helper()
	return (&person{t: t, store: s, clock: morning}).comesIn()
}

// comesIn opens bench anew.
func (p *person) comesIn() *person {
	p.t.Helper()
	p.m = New(Deps{
		Theme: ink.NewTheme(ink.Bare, ink.Unknown), Location: time.UTC, Now: p.moment,
		Recipes: func() []front.RecipeItem { return builtin(p.t) }, Store: p.store, Home: "~/harbour",
		Manner: func() recipe.Manner { return p.manner },
		Outside: Outside{
			Bell:   func() tea.Msg { p.bells++; return nil },
			Mouse:  func() tea.Msg { p.mice++; return nil },
			Notify: func(what, of string) tea.Cmd { p.notices = append(p.notices, what+" ("+of+")"); return nil },
		},
	})
	p.m.ticks.after = func(time.Duration, func(time.Time) tea.Msg) tea.Cmd {
		p.ticks++
		return nil
	}
	p.m.ticks.truly = func(time.Duration, func(time.Time) tea.Msg) tea.Cmd { return nil }
	p.run(p.m.Init())
	return p.sized(80, 24)
}

func (p *person) moment() timer.Moment { return p.at(p.clock) }

func (p *person) at(clock time.Time) timer.Moment {
	return timer.Moment{Wall: clock.Add(p.skew), Boot: "boot-1", SinceBoot: clock.Sub(morning) + time.Hour}
}

func (p *person) sized(w, h int) *person {
	return p.gets(tea.WindowSizeMsg{Width: w, Height: h})
}

// gets hands the program a message.
func (p *person) gets(msg tea.Msg) *person {
	p.t.Helper()
	next, cmd := p.m.Update(msg)
	p.m = next.(Model)
	p.drawnAsForeseen()
	p.steadyThroughSeconds()
	if p.holdBack && cmd != nil {
		p.waiting = append(p.waiting, cmd)
		return p
	}
	p.run(cmd)
	return p
}

// drawnAsForeseen demands that a screen which was worked out ahead is the one that
// would be drawn now.
func (p *person) drawnAsForeseen() {
	p.t.Helper()
	anew := p.m
	anew.drawn = ""
	if p.m.drawn == "" || p.m.drawn == anew.View() {
		return
	}
	p.t.Errorf("foreseen was\n%s\nand it is\n%s", p.m.drawn, anew.View())
}

// steadyThroughSeconds demands that what is kept of a screen while seconds pass is
// what would be drawn anew.
func (p *person) steadyThroughSeconds() {
	p.t.Helper()
	if p.again++; p.m.steady == nil || p.again%3 > 0 {
		return
	}
	p.m.View()
	later := p.m
	later.now, later.drawn = p.at(p.clock.Add(time.Duration(p.again%59+1)*time.Second)), ""
	kept := later.View()
	later.steady = nil
	if anew := later.View(); kept != anew {
		p.t.Fatalf("at %s the screen is\n%s\nand was kept as\n%s", later.now.Wall, anew, kept)
	}
}

func (p *person) run(cmd tea.Cmd) {
	p.t.Helper()
	if cmd == nil {
		return
	}
	switch msg := cmd().(type) {
	case nil:
	case tea.QuitMsg:
		p.left = true
	case tea.BatchMsg:
		for _, c := range msg {
			p.run(c)
		}
	default:
		p.gets(msg)
	}
}

// let runs what was held back.
func (p *person) let() *person {
	p.t.Helper()
	p.holdBack = false
	waiting := p.waiting
	p.waiting = nil
	for _, cmd := range waiting {
		p.run(cmd)
	}
	return p
}

var named = map[string]tea.KeyType{
	"enter": tea.KeyEnter, "esc": tea.KeyEsc, "tab": tea.KeyTab, "up": tea.KeyUp, "down": tea.KeyDown,
	"left": tea.KeyLeft, "right": tea.KeyRight, "backspace": tea.KeyBackspace, "space": tea.KeySpace,
	"ctrl+c": tea.KeyCtrlC, "f1": tea.KeyF1,
	"pgdown": tea.KeyPgDown, "pgup": tea.KeyPgUp, "home": tea.KeyHome, "end": tea.KeyEnd,
}

func keyOf(name string) tea.KeyMsg {
	if name == "space" {
		return tea.KeyMsg{Type: tea.KeySpace, Runes: []rune{' '}}
	}
	if k, ok := named[name]; ok {
		return tea.KeyMsg{Type: k}
	}
	return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(name)}
}

// press presses keys one after the other, a second apart.
func (p *person) press(names ...string) *person {
	p.t.Helper()
	for _, name := range names {
		p.waits(time.Second)
		p.gets(keyOf(name))
	}
	return p
}

// types enters figures or text, quickly.
func (p *person) types(text string) *person {
	p.t.Helper()
	for _, r := range text {
		p.clock = p.clock.Add(80 * time.Millisecond)
		if r == ' ' {
			p.gets(keyOf("space"))
		} else {
			p.gets(keyOf(string(r)))
		}
	}
	return p
}

func (p *person) waits(d time.Duration) *person {
	p.clock = p.clock.Add(d)
	return p
}

// looks moves the clock and lets the tick come that was asked for.
func (p *person) looks(d time.Duration) *person {
	p.t.Helper()
	p.waits(d)
	return p.gets(tickMsg{p.m.ticks.id})
}

func (p *person) sees(texts ...string) *person {
	p.t.Helper()
	for _, text := range texts {
		if !strings.Contains(p.m.View(), text) {
			p.t.Fatalf("the screen does not say %q:\n%s", text, p.m.View())
		}
	}
	return p
}

func (p *person) seesNot(texts ...string) *person {
	p.t.Helper()
	for _, text := range texts {
		if strings.Contains(p.m.View(), text) {
			p.t.Fatalf("the screen says %q:\n%s", text, p.m.View())
		}
	}
	return p
}

// last gives the last fact of the batch on the bench.
func (p *person) last() batch.Fact {
	p.t.Helper()
	facts := p.store.Facts(p.m.bench.Code)
	if len(facts) == 0 {
		return nil
	}
	return facts[len(facts)-1]
}

// recorded demands that so many facts were kept after the first.
func (p *person) recorded(n int) *person {
	p.t.Helper()
	if got := len(p.store.Facts(p.m.bench.Code)); got != n {
		p.t.Fatalf("%d facts were kept, not %d:\n%s", got, n, p.m.View())
	}
	return p
}

// records demands a fact, whose words of the plan of that time are not told again here.
func (p *person) records(f batch.Fact) *person {
	p.t.Helper()
	got := p.last()
	switch said := got.(type) {
	case batch.Ticked:
		said.Asked = ""
		got = said
	case batch.Skipped:
		said.Asked = ""
		got = said
	default:
	}
	if !reflect.DeepEqual(got, f) {
		p.t.Fatalf("kept %+v, not %+v:\n%s", got, f, p.m.View())
	}
	return p
}

// task gives the id of the task at hand.
func (p *person) task() string {
	t, _, _ := p.m.bench.Current(p.moment())
	return t.ID
}

// starts begins a batch of the first recipe.
func (p *person) starts() *person {
	p.t.Helper()
	return p.press("enter", "enter").sees("batch 26K25")
}

// works does task after task, as asked, until the task of that id is at hand;
// "" is until nothing is left to do for now.
func (p *person) works(until string) *person {
	p.t.Helper()
	for range 400 {
		t, _, ok := p.m.bench.Current(p.moment())
		if t.ID == until || !ok {
			if !ok && until != "" {
				p.t.Fatalf("%q never came up", until)
			}
			return p
		}
		p.doesOne()
	}
	p.t.Fatalf("%q never came up", until)
	return p
}

// doesOne does the task at hand as asked.
func (p *person) doesOne() *person {
	p.t.Helper()
	t := p.taskAtHand()
	number := p.asked()
	at := p.m.bench
	if _, shared := reply.AskShared(at.Code, at.Plan, t, front.Occupied(p.m.home.Batches, at.Code)); shared {
		p.press("space").types("free by now").press("enter")
	}
	before := len(p.store.Facts(p.m.bench.Code))
	if t.Numeric() && t.Do != work.Aside {
		p.types(number).press("enter")
		if t.Do == work.Temperature && len(p.store.Facts(p.m.bench.Code)) == before {
			for _, r := range number { // No lye solution cools that fast: the same again, in no time.
				p.gets(keyOf(string(r)))
			}
			p.gets(keyOf("enter"))
		}
	} else if t.Do == work.Confirm {
		p.press("enter")
	} else {
		p.press("space")
	}
	if len(p.store.Facts(p.m.bench.Code)) != before+1 {
		p.t.Fatalf("%s was not answered:\n%s", t.ID, p.m.View())
	}
	return p
}

func (p *person) taskAtHand() work.Task {
	t, _, _ := p.m.bench.Current(p.moment())
	return t
}

// asked gives the number that the task at hand asks for, or "".
func (p *person) asked() string {
	t, stage, _ := p.m.bench.Current(p.moment())
	number, _ := reply.Asked(t, stage)
	return number
}
