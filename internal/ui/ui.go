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

	"bench/internal/batch"
	"bench/internal/recipe"
	"bench/internal/timer"

	tea "github.com/charmbracelet/bubbletea"
)

// The smallest window that the screens are laid out for.
const (
	minWidth  = 80
	minHeight = 24
)

// Deps are what the screens stand on.
type Deps struct {
	Theme    Theme
	Location *time.Location
	Now      func() timer.Moment // Now stamps messages as they enter; no view calls it.
	Recipes  func() []RecipeItem // Recipes is read, in a command, when the home screen opens.
	Store    Store
	Home     string // Home is the data folder, shown in words.
}

// RecipeItem is a recipe that the maker can choose.
type RecipeItem struct {
	Name     string
	About    string
	File     string
	Loaves   int
	BuiltIn  bool
	Problems []string // Problems, when there are any, keep a batch from being started.
	Resolve  func(loaves int) (recipe.Control, []string)
}

// BatchItem is a batch in the store. HeldBy says, in words, who else writes it.
type BatchItem struct {
	Code   string
	State  batch.State
	HeldBy string
}

// Store keeps facts. It is called in commands only, one call at a time.
type Store interface {
	// Batches gives the batches that are not closed.
	Batches() ([]BatchItem, error)
	// Start begins a batch, takes hold of it and gives its first entry.
	Start(c recipe.Control, at timer.Moment) (code string, first batch.Entry, err error)
	// Open takes hold of a batch; it fails, in words, when another bench has it.
	Open(code string, at timer.Moment) ([]batch.Entry, error)
	// Append keeps a fact; the fact is durable when it returns.
	Append(code string, f batch.Fact, at timer.Moment) (batch.Entry, error)
	// Release lets go of a batch.
	Release(code string) error
}

// reading is the work of the store that no leave needs to wait for.
const reading = "reading the batches"

// page says which screen has the keys.
type page int

const (
	pageHome page = iota
	pageSetup
	pageBench
	pageRecord
	pageWays
	pagePot
	pageAsk
	pageAid
	pageKeys
)

// Model is the root, and the only tea.Model. Its zero value is of no use.
type Model struct {
	deps          Deps
	width, height int
	now           timer.Moment // now is when the last message came in.

	page   page
	under  page // under is where an overlay goes back to.
	home   home
	setup  setup
	bench  bench
	record record
	ways   ways
	pot    potCheck
	ask    ask

	guard    guard
	offer    putOffer // offer waits for how long an alarm is to be put off; zero is none.
	flight   string   // flight says what the store is at work on, or "".
	quitting bool     // quitting waits for the flight to land.
	ticks    ticks
}

// New gives the root, which has read nothing yet.
func New(d Deps) Model {
	return Model{
		deps:   d,
		home:   home{at: d.Location, folder: d.Home, loading: true},
		ticks:  ticks{after: tea.Tick},
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
	m.now = m.deps.Now()
	next, cmd := m.handle(msg)
	tick := next.schedule()
	return next, tea.Batch(cmd, tick)
}

// handle routes a message; every kind has one place where it is taken.
func (m Model) handle(msg tea.Msg) (Model, tea.Cmd) {
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		m.width, m.height = msg.Width, msg.Height
	case tea.KeyMsg:
		return m.keyed(msg)
	case tickMsg:
		m.ticks = m.ticks.fired(msg)
	case loadedMsg:
		return m.loaded(msg)
	case recipesMsg:
		m.home = m.home.offered(msg)
	case startedMsg:
		return m.started(msg)
	case openedMsg:
		return m.opened(msg)
	case appendedMsg:
		return m.appended(msg)
	case StopMsg:
		return m.quit()
	}
	return m, nil
}

// StopMsg asks the program to end, whatever is on the screen: a signal came or
// the terminal is gone. A fact in flight lands first.
type StopMsg struct{}

// keyed splits what came in into single presses and hands on each.
func (m Model) keyed(msg tea.KeyMsg) (Model, tea.Cmd) {
	if msg.Paste {
		m.pasted(string(msg.Runes))
		return m, nil
	}
	var cmds []tea.Cmd
	for _, k := range split(msg) {
		var p press
		var cmd tea.Cmd
		m.guard, p = m.guard.press(k, m.now)
		m, cmd = m.pressed(p)
		cmds = append(cmds, cmd)
	}
	return m, tea.Batch(cmds...)
}

// pasted puts pasted text into the line that is being written; anywhere else a
// paste does nothing.
func (m *Model) pasted(text string) {
	if m.small() {
		return
	}
	switch m.page {
	case pageAsk:
		m.ask.line = m.ask.line.insert(clean(text))
	case pageRecord:
		m.record = m.record.pasted(clean(text))
	case pageHome, pageSetup, pageBench, pageWays, pagePot, pageAid, pageKeys:
	}
}

// pressed hands a key to the screen that has the keys.
func (m Model) pressed(p press) (Model, tea.Cmd) {
	m, act, taken := m.answerOffer(p)
	if taken {
		return m.perform(act, p.at)
	}
	if act, ok := m.everywhere(p); ok {
		return m.perform(act, p.at)
	}
	switch m.page {
	case pageHome:
		m.home, act = m.home.update(p)
	case pageSetup:
		m.setup, act = m.setup.update(p)
		m.setup = m.setup.within(m.deps.Theme, m.width, m.height-1)
	case pageBench:
		m.bench, act = m.bench.update(p)
	case pageRecord:
		m.record, act = m.record.update(p)
	case pageWays:
		m.ways, act = m.ways.update(p)
	case pagePot:
		m.pot, act = m.pot.update(p)
	case pageAsk:
		m.ask, act = m.ask.update(p)
	case pageAid, pageKeys:
		if !p.held {
			act = back{}
		}
	}
	return m.perform(act, p.at)
}

// everywhere answers the keys that mean the same on every screen. A window too
// small to read takes no key that could be answered blind.
func (m Model) everywhere(p press) (action, bool) {
	text := m.writing()
	switch {
	case matches(p, keys.Break):
		return quit{}, true
	case matches(p, keys.AidAnywhere), !text && matches(p, keys.Aid):
		if m.page == pageAid {
			return nil, false
		}
		return overlay{pageAid}, true
	case m.page == pageAid:
		return nil, false
	case !text && matches(p, keys.Quit):
		return m.leave(), true
	case m.small():
		return nil, true
	case text || m.page == pageKeys:
		return nil, false
	case matches(p, keys.Keys):
		return overlay{pageKeys}, true
	case matches(p, keys.Seen):
		return m.answerAlarm(p, false), true
	case matches(p, keys.PutOff):
		return m.answerAlarm(p, true), true
	}
	return nil, false
}

// writing says that keys are text just now.
func (m Model) writing() bool {
	return m.page == pageAsk || m.page == pageRecord && m.record.writing()
}

func (m Model) small() bool { return m.width < minWidth || m.height < minHeight }
