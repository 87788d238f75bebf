package judge

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"bench/internal/batch"
	"bench/internal/next"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/rest"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/work"
)

// Allows says why a fact cannot be added now, in words, or nil. It refuses what
// is impossible or unsafe; what is merely unwise is left to the maker.
func Allows(p steps.Plan, f batch.Fact, now timer.Moment) error {
	if p.Closed && !batch.Late(f) && !endsNow(p, f) {
		return errors.New("the batch is closed: only notes, complaints and where bars went can be added")
	}
	switch f := f.(type) {
	case batch.Started:
		return errors.New("the batch has begun already")
	case batch.Weighed:
		return allowsWeighed(p, f)
	case batch.Grossed:
		return allowsGross(p, f)
	case batch.Ticked:
		t, st, _ := p.Task(f.Task)
		return cmp.Or(tickable(t, st, f.Mass), allowsTick(p, f, now))
	case batch.TemperatureTaken:
		return allowsTemperature(p, f)
	case batch.Skipped:
		return allowsSkip(p, f)
	case batch.TimerSeen:
		return allowsTimer(p, f.Timer)
	case batch.TimerPutOff:
		if f.For <= 0 {
			return errors.New("a timer is put off for some time: say for how long")
		}
		return allowsTimer(p, f.Timer)
	case batch.Noted:
		if strings.TrimSpace(f.Text) == "" {
			return errors.New("the note is empty")
		}
		return nil
	case batch.Decided:
		return allowsDecision(p, f)
	case batch.WarningSeen:
		return allowsWarning(p, f)
	case batch.PotWeighed:
		return allowsPot(p, f)
	case batch.PotAnswered:
		return allowsPotAnswer(p, f)
	case batch.VesselReplaced:
		return allowsReplaced(p, f)
	case batch.SharedAnswered:
		if strings.TrimSpace(f.Answer) == "" {
			return errors.New("say how it stands")
		}
		return nil
	case batch.GelLooked, batch.UnmouldPutOff, batch.BarsCut, batch.BarsWeighed, batch.SetAside, batch.Marked, batch.WeighedIn,
		batch.Tested, batch.Released, batch.Held, batch.Reworks, batch.LimitStated, batch.Complained, batch.BarsWent:
		return allowsAfter(p, f, now)
	case batch.Corrected:
		return allowsCorrection(p, f, now)
	case batch.Withdrawn:
		return allowsWithdrawal(p, f, now)
	case batch.Closed:
		if since := p.Since(); len(since) > 0 {
			return fmt.Errorf("not before a word on the bars (release, key s): %s", strings.Join(since, "; "))
		}
		return allowsClosed(p, f)
	case batch.Stopped:
		return allowsStopped(p, f)
	}
	return fmt.Errorf("a fact of kind %q is not known", batch.Kind(f))
}

// open finds a task that asks for this kind of answer and can be done now.
func open(p steps.Plan, id string, does ...work.Do) (work.Task, error) {
	t, _, ok := p.Task(id)
	if !ok {
		return work.Task{}, fmt.Errorf("there is no task %q in this batch", id)
	}
	fits := false
	for _, d := range does {
		fits = fits || t.Do == d
	}
	switch {
	case !fits:
		return work.Task{}, fmt.Errorf("%s: this asks for another kind of answer", t.Title)
	case t.Done && t.At.IsZero(): // What passed by was closed by no fact.
		return work.Task{}, fmt.Errorf("%s: %s", t.Title, cmp.Or(t.Skipped, "done already"))
	case t.Done:
		return work.Task{}, fmt.Errorf("%s: done already, %s; correct it instead", t.Title, t.At.Wall.Format(dayAndTime))
	case !t.Open:
		return work.Task{}, fmt.Errorf("%s: %s", t.Title, t.Waits)
	}
	return t, nil
}

// tickable checks the weight that comes with a tick. What a vessel holds is known from
// many weighings, so a fiftieth more can have come out of it (a judgement, no source).
func tickable(t work.Task, st work.Stage, m quantity.Mass) error {
	switch {
	case m < 0 || m > 0 && !st.TakesWeight(t):
		return errors.New("only a loaf that leaves its mould, or what goes into one, is weighed with a tick")
	case t.Poured() && m > t.SoFar+max(t.SoFar/50, 2*t.Reads):
		return fmt.Errorf("%s g is more than there was to pour (%s g): tare the scale under the mould, so that it shows this layer alone", m.At(t.Reads), t.SoFar.At(t.Reads))
	}
	return nil
}

func allowsTick(p steps.Plan, f batch.Ticked, now timer.Moment) error {
	id := f.Task
	t, err := open(p, id, work.Tick, work.Look, work.Confirm, work.Bars)
	if err != nil {
		return err
	}
	_, st, _ := p.Task(id)
	if t.Do == work.Bars && t.Counted == 0 {
		return fmt.Errorf("%s: weigh one at least, or leave it out (x) with the reason", t.Title)
	}
	if id == rest.WholeCure {
		return allowsWholeCure(p, now)
	}
	if err := cmp.Or(allowsMeeting(p, t, st, f.Why, now), named(t, unreadScent(p, t, st))); err != nil {
		return err
	}
	if st.Kind == work.Unmould && strings.TrimSpace(f.Why) == "" {
		return named(t, next.TooEarly(p.Timers, p.State(), id, now))
	}
	return nil
}

// allowsMeeting holds a batter's lye solution to what must be so at each tick that brings
// it nearer to the oils.
func allowsMeeting(p steps.Plan, t work.Task, st work.Stage, why string, now timer.Moment) error {
	b := st.Batter
	switch t.ID {
	case steps.DissolveID(b):
		return named(t, lyeHeavy(p, b))
	case steps.MeetID(b):
		return cmp.Or(named(t, potUnanswered(p, b)), stale(st, now), meetsHot(p, st, why), named(t, unreadFor(p, b)))
	case steps.CombineID(b):
		return named(t, lyeHeavy(p, b), potUnanswered(p, b), metHot(p, b), unreadFor(p, b))
	}
	return nil
}

// named gives the first of several errors with the task that it is about, or nil.
func named(t work.Task, errs ...error) error {
	if err := cmp.Or(errs...); err != nil {
		return fmt.Errorf("%s: %w", t.Title, err)
	}
	return nil
}

// lyeHeavy says that a batter's alkali is more than its oils can take. It is
// refused where the harm would be done: soap with free alkali burns.
func lyeHeavy(p steps.Plan, batter string) error {
	for _, b := range p.Batters {
		if b.Name != batter || b.Superfat.Percent >= 0 {
			continue
		}
		over := quantity.Mass(0)
		for _, a := range b.Alkali {
			over += a.Mass - a.Target
		}
		return fmt.Errorf("more alkali than the oils can take (superfat %.1f %%); it was to be %s g less. While it is dry, take that out of the cup and correct its weight; otherwise add oils",
			b.Superfat.Percent, max(0, over).At(quantity.Gram/100))
	}
	return nil
}

func allowsTemperature(p steps.Plan, f batch.TemperatureTaken) error {
	if t, _, ok := p.Task(f.Task); ok && t.Again {
		return nil // What cools is read again and again, until lye solution and oils have met.
	}
	_, err := open(p, f.Task, work.Temperature)
	return err
}

func allowsSkip(p steps.Plan, f batch.Skipped) error {
	t, err := open(p, f.Task, work.Tick, work.Look, work.Weigh, work.Temperature, work.Gross, work.Choose, work.Count, work.Bars, work.Aside, work.WeighIn, work.Measure)
	_, st, _ := p.Task(f.Task)
	switch {
	case err != nil:
		return err
	case t.Do == work.Gross && st.Kind == work.LyeIntoOils:
		return fmt.Errorf("%s: it cannot be left out, because it tells the right jug from the others", t.Title)
	case t.Do == work.Weigh && (t.MustType || t.Material == recipe.Water):
		return fmt.Errorf("%s cannot be left out", t.Title)
	case f.Task == rest.DecideID:
		return fmt.Errorf("%s: say one or the other", t.Title)
	case slices.Contains(steps.Dissolving(st.Batter), f.Task) || f.Task == steps.CombineID(st.Batter):
		return fmt.Errorf("%s: it cannot be left out; end the batch instead", t.Title)
	case strings.TrimSpace(f.Reason) == "":
		return errors.New("say why it is left out")
	}
	return nil
}

func allowsTimer(p steps.Plan, id string) error {
	for _, t := range p.Timers {
		if t.ID == id {
			return nil
		}
	}
	return fmt.Errorf("there is no timer %q", id)
}
