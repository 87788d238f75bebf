package ui

import (
	"bench/internal/reply"
	"bench/internal/timer"
	"bench/internal/ui/after"
	"bench/internal/ui/alarm"
	"bench/internal/ui/aside"
	"bench/internal/ui/home"
	"bench/internal/ui/intent"

	tea "github.com/charmbracelet/bubbletea"
)

// perform turns an action into a change of screen and a command.
func (m Model) perform(act intent.Action, at timer.Moment) (Model, tea.Cmd) {
	if m.onlyReads(act) {
		return m, nil
	}
	switch act := act.(type) {
	case nil:
		return m, nil
	case intent.Quit:
		return m.quit()
	case intent.Back:
		return m.back()
	case intent.Overlay:
		if act.Page == intent.PageFace {
			m.below = m.page
			return m.show(act.Page), nil
		}
		if act.Page == intent.PageTimers {
			m.timers = alarm.Page{From: m.page}
			return m.show(act.Page), nil
		}
		if m.page != intent.PageKeys { // First aid above the keys goes back to what was below both.
			m.under = m.page
		}
		return m.show(act.Page), nil
	case intent.Prepare:
		m.setup = home.NewSetup(act.Item, m.besides())
		return m.show(intent.PageSetup), nil
	case intent.Reply:
		return m.answer(act.Act, at)
	case intent.Correct:
		m.record = aside.NewRecord(m.bench.Code, m.bench.State, m.bench.Plan, m.deps.Location)
		return m.show(intent.PageRecord), nil
	case intent.Decide, intent.WeighPot:
		return m.look(act), nil
	case intent.Choose:
		m.choose = after.NewChoices(m.bench.Code, m.bench.Plan, act)
		return m.show(intent.PageChoices), nil
	case intent.Rack:
		return m.toRack(act.Words)
	case intent.Word:
		return m.say(act.Text), nil
	case intent.Speed:
		return m, m.turnCmd()
	case intent.Forward:
		return m, m.forwardCmd()
	case intent.PutOff:
		m.offer = act
		return m, nil
	case intent.SwitchBatch:
		return m.switchBatch(at)
	case intent.Start, intent.Open, intent.Follow:
		return m.send(act, at)
	}
	return m, nil
}

// look opens a page that is worked out from the plan, once the plan has all that
// was said.
func (m Model) look(act intent.Action) Model {
	if m.flight != "" {
		return m.say("Still " + m.flight + ": press it again.")
	}
	if pot, ok := act.(intent.WeighPot); ok {
		m.pot = aside.NewPot(m.bench.Code, m.bench.Plan, pot.Vessel)
		return m.show(intent.PagePot)
	}
	m.ways = aside.NewWays(m.bench.Code, m.bench.Plan)
	return m.show(intent.PageWays)
}

// send hands work to the store, one piece at a time.
func (m Model) send(act intent.Action, at timer.Moment) (Model, tea.Cmd) {
	if m.flight != "" {
		return m.say("Still " + m.flight + ": press it again."), nil
	}
	switch act := act.(type) {
	case intent.Start:
		m.flight = "beginning the batch"
		return m, m.startCmd(act, at)
	case intent.Open:
		m.flight = "opening the batch"
		return m, m.openCmd(act, at)
	case intent.Follow:
		m.flight = reading
		return m, m.followCmd(act.Code)
	default:
		return m, nil
	}
}

// answer sends a fact off, one at a time, or asks for a line of text.
func (m Model) answer(act reply.Act, at timer.Moment) (Model, tea.Cmd) {
	switch act := act.(type) {
	case reply.Question:
		if m.page == intent.PageAsk {
			m.ask = m.ask.About(act)
		} else {
			m.ask = aside.NewAsk(act)
		}
		return m.show(intent.PageAsk), nil
	case reply.Keep:
		if m.flight != "" {
			return m.say("Still " + m.flight + ": press it again."), nil
		}
		return m.keep(act, at)
	}
	return m, nil
}

// keep sends a fact off. What was typed for it leaves the field, so that keys
// which come before the answer belong to what follows.
func (m Model) keep(act reply.Keep, at timer.Moment) (Model, tea.Cmd) {
	if act.At.IsZero() {
		act.At = at
	}
	m.from = m.page
	m.still = m.page == intent.PageBench && act.Code == m.bench.Code
	if m.page == intent.PageAsk || m.page == intent.PageRecord || m.page == intent.PageWays || m.page == intent.PagePot || m.page == intent.PageChoices {
		m = m.show(intent.PageBench)
	}
	m.flight = "saving the last entry"
	if act.Code != m.bench.Code {
		return m, m.appendElsewhereCmd(act)
	}
	m.bench = m.bench.Sent(act)
	m.ahead = m.foresee(act)
	return m, m.appendCmd(act)
}

// show changes the screen and remembers when, so that a key already on its way
// makes no fact on a screen it was not meant for.
func (m Model) show(p intent.Page) Model {
	m.page = p
	m.guard.Arrived = m.now
	return m
}

// arrive shows a screen that an answer of the store leads to; first aid is not
// taken away for it.
func (m Model) arrive(p intent.Page) Model {
	if m.page == intent.PageAid {
		m.under = p
		return m
	}
	if m.page == p {
		return m // Nothing changes that a key on its way could not know.
	}
	return m.show(p)
}

// say shows a quiet word where the person is looking.
func (m Model) say(text string) Model {
	switch m.page {
	case intent.PageHome:
		m.home.Word = text
	case intent.PageSetup:
		m.setup.Word = text
	case intent.PageRecord:
		m.record.Word = text
	case intent.PageWays:
		m.ways.Word = text
	case intent.PagePot:
		m.pot.Word = text
	case intent.PageAsk:
		m.ask.Word = text
	case intent.PageChoices:
		m.choose.Word = text
	case intent.PageRack:
		m.rack.Word = text
	case intent.PageTimers:
		m.timers.Word = text
	case intent.PageBench, intent.PageAid, intent.PageKeys, intent.PageFace:
		m.bench.Word = text
	}
	return m
}
