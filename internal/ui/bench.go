package ui

import (
	"slices"
	"time"

	"bench/internal/batch"
	"bench/internal/steps"
	"bench/internal/timer"
)

// maxFigures keeps a typed number within what the large figures can show.
const maxFigures = 7

// bench is one batch at work: one thing is next, and everything else is quiet.
type bench struct {
	code  string
	state batch.State
	plan  steps.Plan
	at    *time.Location

	next     string   // next was next when it came into sight; time alone does not change it.
	cursor   string   // cursor is a task that the person moved to; "" is what is next.
	typed    string   // typed is the number so far.
	doubt    *doubted // doubt is a value that must be typed a second time.
	sending  string   // sending is the task of the fact in flight, or "".
	unsaved  *notSaved
	word     string
	reopened bool         // reopened shows where the person was, until the first key.
	jumped   timer.Moment // jumped is when another stage came into sight by itself.
}

// doubted is a proposed fact that looks like a slip.
type doubted struct {
	fact  batch.Fact
	words string
}

// notSaved is a fact that the store could not keep, and why.
type notSaved struct {
	keep keep
	why  string
}

func newBench(code string, s batch.State, at *time.Location, reopened bool, now timer.Moment) bench {
	return bench{code: code, state: s, plan: steps.Of(s), at: at, reopened: reopened}.settled(now)
}

// underWay gives the batch as the first screen lists it.
func (b bench) underWay() underWay {
	return underWay{BatchItem{Code: b.code, State: b.state}, b.plan}
}

// settled takes up what is next. It is called when something was said, never
// because time has passed: an alarm must not put another task under a hand that
// is on its way to a key.
func (b bench) settled(now timer.Moment) bench {
	b.next, _ = b.plan.Next(now)
	b.cursor = ""
	return b
}

// sent notes that a fact is on its way to the store.
func (b bench) sent(k keep) bench {
	b.sending = batch.Task(k.fact)
	b.word, b.unsaved = "", nil
	if b.sending != "" { // A note or an alarm takes no figures away.
		b.typed, b.doubt = "", nil
	}
	return b
}

// refused keeps a fact that was not saved, to be tried again.
func (b bench) refused(msg appendedMsg) bench {
	b.sending, b.typed = "", ""
	b.unsaved = &notSaved{msg.keep, msg.err.Error()}
	return b
}

// entered applies a fact that is durable, and plans anew. A number that is
// being typed stays with its task.
func (b bench) entered(e batch.Entry, now timer.Moment) bench {
	at := b.cursor
	_, before, _ := b.current(now)
	b.sending = ""
	b.state = b.state.Apply(e)
	b.plan = steps.Of(b.state)
	task := batch.Task(e.Fact)
	if pot, ok := e.Fact.(batch.PotWeighed); ok {
		b.word = clean(pot.Vessel + ": " + pot.Finding + ".")
	}
	switch {
	case task == "" && (b.typed != "" || b.doubt != nil || at != ""):
	case at != "" && at != task:
	default:
		b = b.settled(now)
		if at != "" {
			b.cursor = b.openAfter(task)
		}
	}
	if _, after, ok := b.current(now); ok && after.ID != before.ID {
		b.jumped = now
	}
	return b
}

// openAfter gives the task itself while it is open (another container follows),
// or the next open one of its stage, or "" to go on with what is next.
func (b bench) openAfter(task string) string {
	t, stage, _ := b.plan.Task(task)
	if t.Open {
		return task
	}
	at := slices.IndexFunc(stage.Tasks, func(t steps.Task) bool { return t.ID == task })
	for i := range stage.Tasks {
		if t := stage.Tasks[(at+1+i)%len(stage.Tasks)]; t.Open {
			return t.ID
		}
	}
	return ""
}

// current gives the task that the keys are about.
func (b bench) current(now timer.Moment) (steps.Task, steps.Stage, bool) {
	if t, s, ok := b.plan.Task(b.cursor); ok {
		return t, s, true
	}
	if t, s, ok := b.plan.Task(b.next); ok && t.Open {
		return t, s, true
	}
	next, ok := b.plan.Next(now)
	if !ok {
		return steps.Task{}, steps.Stage{}, false
	}
	return b.plan.Task(next)
}

// away says that what is at hand is not what is next.
func (b bench) away(now timer.Moment) bool {
	next, ok := b.plan.Next(now)
	return b.cursor != "" && b.cursor != next || ok && b.cursor == "" && b.next != next
}

// update takes one key. Figures go first, so that nothing that has come up
// meanwhile can take a half-typed number.
func (b bench) update(p press) (bench, action) {
	if b.reopened {
		b.reopened = false
		if answers(p) {
			return b, nil // The first key confirms what was read; it ticks nothing.
		}
	}
	b.word = ""
	if r, ok := figure(p); ok {
		return b.figure(r, p.at), nil
	}
	if b.unsaved != nil {
		return b.updateUnsaved(p)
	}
	if answers(p) {
		return b.answer(p)
	}
	return b.move(p)
}

// answers says that the key answers the current task.
func answers(p press) bool { return matches(p, keys.Tick, keys.Accept, keys.More, keys.ByEye) }

// updateUnsaved offers to save again, or to let go; nothing overtakes a fact
// that is not saved.
func (b bench) updateUnsaved(p press) (bench, action) {
	switch {
	case matches(p, keys.Retry):
		return b, b.unsaved.keep
	case matches(p, keys.Back):
		b.unsaved = nil
		b.word = "Let go: it is not in the record."
	case !p.held:
		b.word = "First: r saves it again, esc lets it go."
	}
	return b, nil
}
