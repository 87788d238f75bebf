package ui

import (
	"errors"

	"bench/internal/batch"
	"bench/internal/front"
	"bench/internal/phrase"
	"bench/internal/recipe"
	"bench/internal/reply"
	"bench/internal/ui/bench"
	"bench/internal/ui/ink"
	"bench/internal/ui/intent"
	"bench/internal/uses"

	tea "github.com/charmbracelet/bubbletea"
)

type (
	// loadedMsg brings the batches under way.
	loadedMsg struct {
		batches []front.BatchItem
		fresh   bool // fresh says that no batch was ever begun.
		err     error
		remark  string
	}
	// closedMsg brings batches that are closed.
	closedMsg struct {
		past front.Past
		err  error
	}
	// listedMsg comes when the batches under way have been drawn.
	listedMsg struct{}
	// recipesMsg brings the recipes, and how the screen is to behave.
	recipesMsg struct {
		recipes []front.RecipeItem
		manner  recipe.Manner
	}
	// startedMsg brings the first entry of a new batch.
	startedMsg struct {
		code  string
		first batch.Entry
		err   error
	}
	// openedMsg brings a batch to the bench.
	openedMsg struct {
		code    string
		entries []batch.Entry
		err     error
		let     error // let says why the batch before was not let go.
	}
	// appendedMsg answers a proposed fact.
	appendedMsg struct {
		keep   reply.Keep
		entry  batch.Entry
		err    error
		let    error // let says why the batch was not let go; the entry is kept all the same.
		remark string
	}
)

// shelved brings the closed batches to the rack.
func (m Model) shelved(msg closedMsg) (Model, tea.Cmd) {
	m.flight = ""
	m.rack = m.rack.Loaded(msg.past, msg.err)
	return m.land()
}

// loaded brings the batches on the first screen up to date.
func (m Model) loaded(msg loadedMsg) (Model, tea.Cmd) {
	m.flight = ""
	m.home = m.home.Loaded(msg.batches, msg.fresh && !m.deps.Practice.On(), msg.err)
	m, cmd := m.remarked(msg.remark).land()
	return m, tea.Batch(cmd, func() tea.Msg { return listedMsg{} })
}

// started goes to the bench with a new batch; there is nothing yet to restate.
func (m Model) started(msg startedMsg) (Model, tea.Cmd) {
	m.flight = ""
	if msg.err != nil {
		return m.stay("The batch was not started: " + msg.err.Error()), nil
	}
	return m.toBench(msg.code, []batch.Entry{msg.first}, false)
}

// opened goes to the bench and restates where the person was.
func (m Model) opened(msg openedMsg) (Model, tea.Cmd) {
	m.flight = ""
	if msg.err != nil {
		return m.stay("Batch " + ink.Clean(msg.code) + " was not opened: " + msg.err.Error()), nil
	}
	m, cmd := m.cameTo(msg)
	return m.notLetGo(msg.let), cmd
}

func (m Model) toBench(code string, entries []batch.Entry, reopened bool) (Model, tea.Cmd) {
	m.bench = bench.New(code, batch.Fold(entries), m.deps.Location, reopened, m.now)
	m.home = m.home.With(m.underWay())
	m.bench = m.bench.Beside(front.Occupied(m.home.Batches, code))
	return m.arrive(intent.PageBench).land()
}

// appended applies the fact that is now durable, or shows what was not saved.
func (m Model) appended(msg appendedMsg) (Model, tea.Cmd) {
	m.flight = ""
	var refused *front.RefusedError
	if errors.As(msg.err, &refused) {
		return m.refused(refused.Why), nil
	}
	if msg.keep.Code != m.bench.Code {
		if msg.err != nil {
			return m.stay("Not saved in batch " + ink.Clean(msg.keep.Code) + ": " + msg.err.Error()), nil
		}
		m.home = m.home.Entered(msg.keep.Code, msg.entry)
		return m.remarked(msg.remark).notLetGo(msg.let).land()
	}
	if msg.err != nil {
		m.bench = m.bench.NotSaved(msg.keep, msg.err)
		m = m.arrive(intent.PageBench)
		return m.stay(""), nil
	}
	m.bench = m.bench.Entered(msg.entry, m.ahead.outcome(m.bench, msg.entry), m.now)
	m.home = m.home.With(m.underWay())
	return m.remarked(msg.remark).land()
}

// refused says why a fact cannot be, where it was said: words that were typed for it are
// there again.
func (m Model) refused(why error) Model {
	m.bench = m.bench.Refused()
	if m.page == intent.PageBench {
		m = m.arrive(m.from)
	}
	return m.stay(phrase.Sentence(why))
}

// notLetGo says that a batch is still held: no fact is lost by it, but another
// bench will be refused.
func (m Model) notLetGo(err error) Model {
	if err == nil {
		return m
	}
	return m.say("A batch was not let go: " + ink.Clean(err.Error()))
}

// remarked shows what the store had to say beside the fact.
func (m Model) remarked(text string) Model {
	if text == "" {
		return m
	}
	return m.say(ink.Clean(text))
}

// stay shows a word and calls off a leave that was waiting: nobody is sent away
// before they could read what went wrong.
func (m Model) stay(text string) Model {
	m.quitting = false
	return m.say(ink.Clean(text))
}

// land goes on with a leave that waited for the store.
func (m Model) land() (Model, tea.Cmd) {
	if m.quitting {
		return m, m.quitCmd()
	}
	return m, nil
}

// besides are the vessels and moulds that a new batch finds in use. A practice has the
// bench to itself.
func (m Model) besides() []uses.Occupied {
	if m.deps.Practice.On() {
		return nil
	}
	return front.Occupied(m.home.Batches, "")
}

// underWay gives the batch on the bench as the first screen lists it.
func (m Model) underWay() front.UnderWay {
	return front.UnderWay{BatchItem: front.BatchItem{Code: m.bench.Code, State: m.bench.State, HeldBy: m.bench.Along.HeldBy}, Plan: m.bench.Plan}
}
