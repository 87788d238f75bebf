// Package bench is the screen of a batch at work: one thing is next, large, and
// everything else is quiet.
//
// The rule: a key becomes a proposed fact; nothing shows as done before the
// store has handed it back.
package bench

import (
	"sync"
	"time"

	"bench/internal/batch"
	"bench/internal/reply"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/ui/ink"
	"bench/internal/ui/intent"
	"bench/internal/ui/keys"
	"bench/internal/ui/loaf"
	"bench/internal/uses"
	"bench/internal/work"
)

// Screen is one batch at work: one thing is next, and everything else is quiet.
type Screen struct {
	Code  string
	State batch.State
	Plan  steps.Plan
	at    *time.Location

	beside []uses.Occupied // beside are the vessels that hold something of other batches.

	next     string         // next was next when it came into sight; time alone does not change it.
	cursor   string         // cursor is a task that the person moved to; "" is what is next.
	Typed    string         // typed is the number so far.
	anew     bool           // anew says that Typed was asked about or refused: the next figure begins another number.
	doubt    *reply.Doubted // doubt is a value that must be typed a second time.
	sending  string         // sending is the task of the fact in flight, or "".
	Unsaved  *notSaved
	Word     string
	Along    Along
	reopened bool // reopened shows where the person was, until that was confirmed.
	picture  *loaf.Picture
	kept     *kept
	flung    timer.Moment // flung is when an answer out of turn led to another stage.
	jumped   timer.Moment // jumped is when another stage, or a pause point, came into sight by itself.
}

// notSaved is a fact that the store could not keep, and why.
type notSaved struct {
	keep reply.Keep
	why  string
}

// New opens a batch at the task that is next; reopened says that it was left before.
func New(code string, s batch.State, at *time.Location, reopened bool, now timer.Moment) Screen {
	plan := steps.Of(s)
	reopened = reopened && !plan.Closed // Nothing goes on.
	return Screen{Code: code, State: s, Plan: plan, at: at, reopened: reopened, picture: new(loaf.Picture), kept: new(kept)}.settled(now)
}

// Beside gives the screen that knows which vessels other batches have.
func (b Screen) Beside(others []uses.Occupied) Screen {
	b.beside = others
	return b
}

// settled takes up what is next. It is called when something was said, never
// because time has passed: an alarm must not put another task under a hand that
// is on its way to a key.
func (b Screen) settled(now timer.Moment) Screen {
	b.next, _ = b.Plan.Next(now)
	b.cursor = ""
	return b
}

// Sent notes that a fact is on its way to the store.
func (b Screen) Sent(k reply.Keep) Screen {
	b.sending = batch.Task(k.Fact)
	b.Word, b.Unsaved = "", nil
	if b.sending != "" || changesAsked(k.Fact) { // A note or an alarm takes no figures away.
		b.Typed, b.doubt = "", nil
	}
	return b
}

// changesAsked says that a fact about no task changes what tasks ask for: figures that
// were typed before it were meant for what was asked then.
func changesAsked(f batch.Fact) bool {
	switch f.(type) {
	case batch.Withdrawn, batch.Decided:
		return true
	default:
		return false
	}
}

// Refused gives the screen after a fact that cannot be: nothing is on its way any more.
func (b Screen) Refused() Screen {
	b.sending = ""
	return b
}

// NotSaved keeps a fact that was not saved, to be tried again.
func (b Screen) NotSaved(k reply.Keep, why error) Screen {
	b.sending, b.Typed = "", ""
	b.Unsaved = &notSaved{k, why.Error()}
	return b
}

// Outcome is what a fact leads to.
type Outcome struct {
	State batch.State
	Plan  steps.Plan
}

// After gives what a fact leads to. It is worked out once, when it is asked for
// first, which may be while the fact is still on its way to the disk.
func (b Screen) After(e batch.Entry) func() Outcome {
	before := b.State
	return sync.OnceValue(func() Outcome {
		s := before.Apply(e)
		return Outcome{s, steps.Of(s)}
	})
}

// Entered takes up what a fact led to that is durable now. A number that is
// being typed stays with its task.
func (b Screen) Entered(e batch.Entry, o Outcome, now timer.Moment) Screen {
	at := b.cursor
	was, before, _ := b.Current(now)
	b.sending = ""
	b.State, b.Plan = o.State, o.Plan
	task := batch.Task(e.Fact)
	switch f := e.Fact.(type) {
	case batch.PotWeighed:
		b.Word = ink.Clean(f.Vessel + ": " + f.Finding + ".")
	case batch.VesselReplaced:
		b.Word = ink.Clean(f.By + " stands for " + f.Vessel + " now.")
	default:
	}
	switch {
	case task == "" && (b.Typed != "" || b.doubt != nil || at != ""):
	case at != "" && at != task:
	default:
		b = b.settled(now)
		if at != "" {
			b.cursor = reply.OpenAfter(b.Plan, task)
		}
	}
	is, after, ok := b.Current(now)
	if b.doubt != nil && batch.Task(b.doubt.Fact) != is.ID { // A way was taken, and another task is next.
		b.doubt = nil
	}
	if ok && (after.ID != before.ID || is.Do == work.Confirm && is.ID != was.ID) {
		b.jumped = now
		if at != "" {
			b.flung = now
		}
	}
	return b
}

// Steady says that the screen counts no time itself: a task is at hand that can be
// done now, and no temperature that was read grows old.
func (b Screen) Steady(now timer.Moment) bool {
	t, stage, ok := b.Current(now)
	return ok && t.Open && !b.reopened && b.Unsaved == nil && !rests(stage.Kind) && stage.Kind != work.Gate
}

// Current gives the task that the keys are about.
func (b Screen) Current(now timer.Moment) (work.Task, work.Stage, bool) {
	if t, s, ok := b.Plan.Task(b.cursor); ok {
		return t, s, true
	}
	if t, s, ok := b.Plan.Task(b.next); ok && t.Open {
		return t, s, true
	}
	next, ok := b.Plan.Next(now)
	if !ok {
		return work.Task{}, work.Stage{}, false
	}
	return b.Plan.Task(next)
}

// away says that what is at hand is not what is next.
func (b Screen) away(now timer.Moment) bool {
	next, ok := b.Plan.Next(now)
	return b.cursor != "" && b.cursor != next || ok && b.cursor == "" && b.next != next
}

// Update takes one key. Figures go first, so that nothing that has come up
// meanwhile can take a half-typed number.
func (b Screen) Update(p keys.Press) (Screen, intent.Action) {
	if b.reopened {
		return b.resume(p)
	}
	b.Word = ""
	if _, figure := keys.Figure(p); b.Along.On && (figure || answers(p)) {
		return b, nil // Who writes it stands below.
	}
	if r, ok := keys.Figure(p); ok {
		return b.figure(r, p), nil
	}
	if b.Unsaved != nil {
		return b.updateUnsaved(p)
	}
	if answers(p) {
		return b.answer(p)
	}
	return b.move(p)
}

// answers says that the key answers the current task.
func answers(p keys.Press) bool {
	return keys.Matches(p, keys.Tick, keys.Accept, keys.More, keys.ByEye)
}

// updateUnsaved offers to save again, or to let go; nothing overtakes a fact
// that is not saved.
func (b Screen) updateUnsaved(p keys.Press) (Screen, intent.Action) {
	switch {
	case keys.Matches(p, keys.Retry):
		return b, intent.Of(b.Unsaved.keep)
	case keys.Matches(p, keys.Back):
		b.Unsaved = nil
		b.Word = "Let go: it is not in the record."
	case !p.Held:
		b.Word = "First: r saves it again, esc lets it go."
	}
	return b, nil
}
