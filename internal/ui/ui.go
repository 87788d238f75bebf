// Package ui shows the batch and asks for what happened: the full-screen
// companion, on Bubble Tea.
//
// The rule: it computes nothing of the trade, keeps nothing and never asks what
// time it is. A key press becomes an action with a proposed fact; only the root
// turns actions into commands; a fact shows as done when the store has handed
// it back, and not before. Text from outside passes clean where it enters a
// view.
package ui

import (
	"time"

	"bench/internal/front"
	"bench/internal/recipe"
	"bench/internal/timer"
	"bench/internal/ui/after"
	"bench/internal/ui/alarm"
	"bench/internal/ui/aside"
	"bench/internal/ui/bench"
	"bench/internal/ui/home"
	"bench/internal/ui/ink"
	"bench/internal/ui/intent"
	"bench/internal/ui/keys"
	"bench/internal/watch"

	tea "github.com/charmbracelet/bubbletea"
)

// Deps are what the screens stand on.
type Deps struct {
	Theme    ink.Theme
	Location *time.Location
	Now      func() timer.Moment       // Now stamps messages as they enter; no view calls it.
	Recipes  func() []front.RecipeItem // Recipes is read, in a command, when the home screen opens.
	Store    front.Store
	Home     string               // Home is the data folder, shown in words.
	Manner   func() recipe.Manner // Manner is read with the recipes; nil is none stated.
	Practice front.Practice
	Speed    func() float64 // Speed is how many times as fast as time Now runs; nil is once.
	Outside  Outside
}

// Outside is what reaches the maker beside the screen. Any of it may be nil.
type Outside struct {
	Bell   func() tea.Msg
	Notify func(what, of string) tea.Cmd
	Mouse  func() tea.Msg // Mouse has clicks reported.
}

// reading is the work of the store that no leave needs to wait for.
const reading = "reading the batches"

// Model is the root, and the only tea.Model. Its zero value is of no use.
type Model struct {
	deps          Deps
	width, height int
	now           timer.Moment // now is when the last message came in.

	page   intent.Page
	under  intent.Page // under is where an overlay goes back to.
	from   intent.Page // from is where the fact in flight was said.
	below  intent.Page // below is where the cut face does, which overlays may lie on.
	home   home.Screen
	setup  home.Setup
	bench  bench.Screen
	record aside.Record
	ways   aside.Ways
	pot    aside.Pot
	ask    aside.Ask
	choose after.Choices
	rack   after.Rack
	timers alarm.Page

	guard    keys.Guard
	unsure   unsure // unsure is a press that may be a repeat.
	manner   recipe.Manner
	settled  bool // settled says that the manner has been read.
	ear      watch.Ear
	offer    intent.PutOff    // offer waits for how long an alarm is to be put off; zero is none.
	ahead    ahead            // ahead is what the fact in flight will lead to.
	still    bool             // still says that the screen stays as it is for a moment.
	drawn    string           // drawn is the view, where it is known already.
	steady   *steady          // steady is what seconds do not change of it.
	left     map[string]leave // left are the batches that were left for another.
	flight   string           // flight says what the store is at work on, or "".
	quitting bool             // quitting waits for the flight to land.
	ticks    ticks
}

// New gives the root, which has read nothing yet.
func New(d Deps) Model {
	return Model{
		deps:   d,
		home:   home.Screen{At: d.Location, Folder: d.Home, Loading: true},
		ticks:  ticks{after: paced(d.Speed), truly: tea.Tick},
		flight: reading, // Init sends for them.
	}
}

// Busy says that the store is at work: the program must not end yet, and a
// tea.QuitMsg that a signal brings is to be held back (tea.WithFilter).
func (m Model) Busy() bool { return m.flight != "" && m.flight != reading }

// Init reads the batches and the recipes.
func (m Model) Init() tea.Cmd { return m.loadCmd("") }

// Update takes one message: it stamps it, hands it on, and sees to the next
// tick.
func (m Model) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	still := m.still
	m.now, m.still, m.drawn = m.deps.Now(), false, ""
	next, cmd := m.handle(msg)
	if landed, ok := msg.(appendedMsg); ok && still {
		next.drawn = m.ahead.drawn(landed, m.now)
	}
	timers := next.board().Timers(next.now)
	if _, passes := msg.(tickMsg); !passes || !next.steady.holds(next.now) {
		next.steady = next.seconds(timers)
	}
	sound := next.listen(timers)
	tick := next.schedule(timers)
	return next, tea.Batch(cmd, sound, tick)
}

// handle routes a message; every kind has one place where it is taken.
func (m Model) handle(msg tea.Msg) (Model, tea.Cmd) {
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		m.width, m.height = msg.Width, msg.Height
	case tea.KeyMsg:
		return m.keyed(msg)
	case tea.MouseMsg:
		return m.clicked(msg)
	case settledMsg:
		return m.settle(msg)
	case tickMsg:
		m.ticks = m.ticks.fired(msg)
	case loadedMsg:
		return m.loaded(msg)
	case closedMsg:
		return m.shelved(msg)
	case listedMsg:
		return m, m.recipesCmd()
	case recipesMsg:
		m.home = m.home.Offered(msg.recipes)
		m.manner, m.settled = msg.manner, true
		if m.manner.Mouse == recipe.On && m.deps.Outside.Mouse != nil {
			return m, m.deps.Outside.Mouse
		}
	case startedMsg:
		return m.started(msg)
	case openedMsg:
		return m.opened(msg)
	case appendedMsg:
		return m.appended(msg)
	case followedMsg:
		return m.followed(msg)
	case glanceMsg:
		return m.glanced(msg)
	case turnedMsg:
		m.ticks.due = timer.Moment{} // The tick on its way was meant for another speed.
	case StopMsg:
		return m.quit()
	}
	return m, nil
}

// StopMsg asks the program to end, whatever is on the screen: a signal came or
// the terminal is gone. A fact in flight lands first.
type StopMsg struct{}

func (m Model) small() bool { return m.width < ink.MinWidth || m.height < ink.MinHeight }
