package sample

import (
	"fmt"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/recipe"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/work"
)

// Batch is a batch at work, with a fact every half minute.
type Batch struct {
	State batch.State
	Now   timer.Moment
}

// Begin begins a batch on a morning.
func Begin(c recipe.Control) *Batch {
	b := &Batch{Now: timer.Moment{Wall: time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)}}
	b.Put(batch.Started{Control: c})
	return b
}

// Put adds a fact, whatever the rules say.
func (b *Batch) Put(f batch.Fact) {
	b.Wait(30 * time.Second)
	b.State = b.State.With(f, b.Now)
}

// Wait lets time pass.
func (b *Batch) Wait(d time.Duration) { b.Now.Wall = b.Now.Wall.Add(d) }

// Plan gives the plan as it stands.
func (b *Batch) Plan() steps.Plan { return steps.Of(b.State) }

// Say adds the fact of an answer, if the rules let it.
func (b *Batch) Say(f batch.Fact) error {
	if err := judge.Allows(b.Plan(), f, b.Now); err != nil {
		return err
	}
	b.Put(f)
	return nil
}

// WorkTo answers what is next as it is asked, until that is the task of that id.
// Where nothing is next an hour passes.
func (b *Batch) WorkTo(tb testing.TB, task string) {
	tb.Helper()
	for range 5000 {
		p := b.Plan()
		id, ok := p.Next(b.Now)
		switch {
		case id == task:
			return
		case !ok:
			b.Wait(time.Hour)
			continue
		}
		f, err := AsAsked(p, id)
		if err == nil {
			err = b.Say(f)
		}
		if err != nil {
			tb.Fatalf("%s: %v", id, err)
		}
	}
	tb.Fatalf("the work never came to %s", task)
}

// AsAsked gives the fact of a task that is done just as it asks; of several answers
// the first.
func AsAsked(p steps.Plan, id string) (batch.Fact, error) {
	t, _, ok := p.Task(id)
	switch {
	case !ok:
		return nil, fmt.Errorf("there is no task %q", id)
	case t.Do == work.Choose:
		return judge.Choices(p, id, "")[0].With("so it is")
	}
	return judge.Fact(p, id, Answer(t))
}

// Answer is what is said to a task that is done just as it asks.
func Answer(t work.Task) judge.Answer {
	text := ""
	switch {
	case t.Do == work.Temperature:
		text = fmt.Sprint(t.Wanted.Celsius())
	case t.Do == work.Portion && t.MustType:
		text = t.StopAt.At(t.Reads)
	case t.Do == work.Bars && t.Count == 0 && t.Counted > 0: // One was enough.
	case t.Do == work.Gross, t.Do == work.WeighIn, t.Do == work.Bars:
		text = t.Target.At(t.Reads)
	case t.Do == work.Measure:
		text = "9.6"
	case t.MustType:
		text = t.Remaining().At(t.Reads)
	}
	if text == "" {
		return judge.Answer{How: batch.AtTarget}
	}
	return judge.Answer{How: batch.Typed, Text: text}
}
