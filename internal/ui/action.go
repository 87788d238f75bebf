package ui

import (
	"bench/internal/batch"
	"bench/internal/recipe"
	"bench/internal/timer"

	tea "github.com/charmbracelet/bubbletea"
)

// action is what a screen asks of the root: plain data, or nil for nothing.
//
//sumtype:decl
type action interface{ action() }

type (
	// quit ends the program once the store is idle.
	quit struct{}
	// back leaves an overlay, or goes to the home screen.
	back struct{}
	// overlay opens a page above the present one.
	overlay struct{ page page }
	// prepare opens the set-up of a recipe.
	prepare struct{ item RecipeItem }
	// start begins a batch.
	start struct{ control recipe.Control }
	// open takes a batch to the bench; release, if set, is let go first.
	open struct{ code, release string }
	// switchBatch goes to the next batch that is under way.
	switchBatch struct{}
	// keep proposes a fact. at is zero for now, or when it was first said.
	keep struct {
		code string
		fact batch.Fact
		at   timer.Moment
	}
	// question opens one line of text.
	question struct{ ask ask }
	// decide opens the ways to go on; weighPot the look into a vessel.
	decide   struct{}
	weighPot struct{ vessel string }
	// correct opens the record of the batch.
	correct struct{}
	// word shows a quiet word.
	word struct{ text string }
)

func (quit) action()        {}
func (back) action()        {}
func (overlay) action()     {}
func (prepare) action()     {}
func (start) action()       {}
func (open) action()        {}
func (switchBatch) action() {}
func (keep) action()        {}
func (question) action()    {}
func (correct) action()     {}
func (decide) action()      {}
func (weighPot) action()    {}
func (word) action()        {}
func (putOffer) action()    {}

// perform turns an action into a change of screen and a command.
func (m Model) perform(act action, at timer.Moment) (Model, tea.Cmd) {
	switch act := act.(type) {
	case nil:
		return m, nil
	case quit:
		return m.quit()
	case back:
		return m.back()
	case overlay:
		if m.page != pageKeys { // First aid above the keys goes back to what was below both.
			m.under = m.page
		}
		return m.show(act.page), nil
	case prepare:
		m.setup = newSetup(act.item)
		return m.show(pageSetup), nil
	case question:
		m.ask = act.ask
		return m.show(pageAsk), nil
	case correct:
		m.record = newRecord(m.bench, m.deps.Location)
		return m.show(pageRecord), nil
	case decide, weighPot:
		return m.look(act), nil
	case word:
		return m.say(act.text), nil
	case putOffer:
		m.offer = act
		return m, nil
	case switchBatch:
		return m.switchBatch(at)
	case start, open, keep:
		return m.send(act, at)
	}
	return m, nil
}

// look opens a page that is worked out from the plan, once the plan has all that
// was said.
func (m Model) look(act action) Model {
	if m.flight != "" {
		return m.say("Still " + m.flight + ": press it again.")
	}
	if pot, ok := act.(weighPot); ok {
		m.pot = newPotCheck(m.bench, pot.vessel)
		return m.show(pagePot)
	}
	m.ways = newWays(m.bench)
	return m.show(pageWays)
}

// send hands work to the store, one piece at a time.
func (m Model) send(act action, at timer.Moment) (Model, tea.Cmd) {
	if m.flight != "" {
		return m.say("Still " + m.flight + ": press it again."), nil
	}
	switch act := act.(type) {
	case start:
		m.flight = "beginning the batch"
		return m, m.startCmd(act, at)
	case open:
		m.flight = "opening the batch"
		return m, m.openCmd(act, at)
	case keep:
		return m.keep(act, at)
	default:
		return m, nil
	}
}

// keep sends a fact off. What was typed for it leaves the field, so that keys
// which come before the answer belong to what follows.
func (m Model) keep(act keep, at timer.Moment) (Model, tea.Cmd) {
	if act.at.IsZero() {
		act.at = at
	}
	if m.page == pageAsk || m.page == pageRecord || m.page == pageWays || m.page == pagePot {
		m = m.show(pageBench)
	}
	held := act.code == m.bench.code
	if held {
		m.bench = m.bench.sent(act)
	}
	m.flight = "saving the last entry"
	return m, m.appendCmd(act, held)
}

// show changes the screen and remembers when, so that a key already on its way
// makes no fact on a screen it was not meant for.
func (m Model) show(p page) Model {
	m.page = p
	m.guard.arrived = m.now
	return m
}

// arrive shows a screen that an answer of the store leads to; first aid is not
// taken away for it.
func (m Model) arrive(p page) Model {
	if m.page == pageAid {
		m.under = p
		return m
	}
	if m.page == p {
		return m // Nothing changes that a key on its way could not know.
	}
	return m.show(p)
}

// back leaves an overlay for what lies below it; from a screen it goes home, and
// the batch is let go, so that another bench may take it.
func (m Model) back() (Model, tea.Cmd) {
	switch m.page {
	case pageAid, pageKeys:
		if m.under == pageHome && m.flight == "" {
			m.page = pageHome
			return m.back()
		}
		return m.show(m.under), nil
	case pageAsk, pageRecord, pageWays, pagePot:
		return m.show(pageBench), nil
	case pageHome, pageSetup, pageBench:
		if m.flight != "" {
			return m.say("Still " + m.flight + ": press it again."), nil
		}
		m = m.show(pageHome)
		m.home.loading, m.flight = true, reading
		release := m.bench.code
		if release != "" {
			m.home = m.home.on(release)
		}
		m.bench = bench{}
		return m, m.loadCmd(release)
	}
	return m, nil
}

// say shows a quiet word where the person is looking.
func (m Model) say(text string) Model {
	switch m.page {
	case pageHome:
		m.home.word = text
	case pageSetup:
		m.setup.word = text
	case pageRecord:
		m.record.word = text
	case pageWays:
		m.ways.word = text
	case pagePot:
		m.pot.word = text
	case pageAsk:
		m.ask.word = text
	case pageBench, pageAid, pageKeys:
		m.bench.word = text
	}
	return m
}

// leave quits, unless a fact that could not be saved would be lost unseen.
func (m Model) leave() action {
	if m.bench.unsaved != nil {
		return word{"The last entry is not saved. r saves it again, esc lets it go."}
	}
	return quit{}
}

// quit waits for a fact in flight: a command that is dropped at the end of the
// program would be a fact that the person saw and nobody kept.
func (m Model) quit() (Model, tea.Cmd) {
	if m.Busy() {
		m.quitting = true
		return m.say("Leaving: still " + m.flight + "."), nil
	}
	return m, m.quitCmd()
}

// switchBatch goes round the batches under way, in the order of the first screen.
func (m Model) switchBatch(at timer.Moment) (Model, tea.Cmd) {
	next, ok := m.home.after(m.bench.code)
	if !ok {
		return m.say("No other batch is under way."), nil
	}
	return m.send(open{code: next, release: m.bench.code}, at)
}
