package steps

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/timer"
)

// Allows says why a fact cannot be added now, in words, or nil. It refuses what
// is impossible or unsafe; what is merely unwise is left to the maker.
func (p Plan) Allows(f batch.Fact, now timer.Moment) error {
	if p.Closed && !batch.Late(f) {
		return errors.New("the batch is closed: only notes, complaints and where bars went can be added")
	}
	switch f := f.(type) {
	case batch.Started:
		return errors.New("the batch has begun already")
	case batch.Weighed:
		return p.allowsWeighed(f)
	case batch.Grossed:
		return p.allowsGross(f)
	case batch.Ticked:
		return p.allowsTick(f.Task, now)
	case batch.TemperatureTaken:
		return p.allowsTemperature(f)
	case batch.Skipped:
		return p.allowsSkip(f)
	case batch.TimerSeen:
		return p.allowsTimer(f.Timer)
	case batch.TimerPutOff:
		if f.For <= 0 {
			return errors.New("a timer is put off for some time: say for how long")
		}
		return p.allowsTimer(f.Timer)
	case batch.Noted:
		if strings.TrimSpace(f.Text) == "" {
			return errors.New("the note is empty")
		}
		return nil
	case batch.Decided:
		return p.allowsDecision(f)
	case batch.WarningSeen:
		return p.allowsWarning(f)
	case batch.PotWeighed:
		return p.allowsPot(f)
	case batch.GelLooked, batch.UnmouldPutOff, batch.BarsCut, batch.BarsWeighed, batch.SetAside, batch.Marked, batch.WeighedIn,
		batch.Tested, batch.Released, batch.Held, batch.Reworks, batch.LimitStated, batch.Complained, batch.BarsWent:
		return p.allowsAfter(f, now)
	case batch.Corrected:
		return p.allowsCorrection(f, now)
	case batch.Withdrawn:
		return p.allowsWithdrawal(f, now)
	case batch.Closed:
		if !p.Finished() && strings.TrimSpace(f.Reason) == "" {
			return errors.New("tasks are still open: say why the batch ends here")
		}
		return nil
	}
	return fmt.Errorf("a fact of kind %q is not known", batch.Kind(f))
}

// open finds a task that asks for this kind of answer and can be done now.
func (p Plan) open(id string, does ...Do) (Task, error) {
	t, _, ok := p.Task(id)
	if !ok {
		return Task{}, fmt.Errorf("there is no task %q in this batch", id)
	}
	fits := false
	for _, d := range does {
		fits = fits || t.Do == d
	}
	switch {
	case !fits:
		return Task{}, fmt.Errorf("%s: this asks for another kind of answer", t.Title)
	case t.Done:
		return Task{}, fmt.Errorf("%s: done already at %s; correct it instead", t.Title, t.At.Wall.Format("15:04"))
	case !t.Open:
		return Task{}, fmt.Errorf("%s: %s", t.Title, t.Waits)
	}
	return t, nil
}

func (p Plan) allowsWeighed(f batch.Weighed) error {
	t, err := p.open(f.Task, Weigh, Portion)
	if err != nil {
		return err
	}
	return weighable(t, f)
}

// weighable checks a weight against its task, whenever it was weighed.
func weighable(t Task, f batch.Weighed) error {
	switch {
	case t.MustType && f.How != batch.Typed:
		return fmt.Errorf("%s burns, so it is never ticked unseen: type what the scale says", t.Title)
	case f.Mass < 0:
		return fmt.Errorf("%s: a weight is not below zero", t.Title)
	case f.Mass == 0 && f.More:
		return fmt.Errorf("%s: a container that brings nothing needs no weighing", t.Title)
	case t.Do == Portion && f.Mass > inVessel(t):
		return fmt.Errorf("%s: %s g is more than the vessel holds", t.Title, f.Mass.At(t.Reads))
	case t.Do == Weigh && f.How == batch.Typed && t.Parts <= 1 && t.Max > 0 && onScale(t)+f.Mass > t.Max:
		return fmt.Errorf("%s: %s g is more than the %s carries (%s)", t.Title, (onScale(t) + f.Mass).At(t.Reads), t.Scale, t.Max)
	}
	return nil
}

// inVessel gives what a portion may come out of: what stands on the scale, less
// the vessel and what was poured out for this portion before.
func inVessel(t Task) quantity.Mass {
	if t.Done { // A correction replaces what was poured out.
		return t.SoFar - t.Tare
	}
	return t.SoFar - t.Tare - t.Mass
}

// onScale gives what a weighing comes on top of. What is in the vessel by now
// says nothing of what was in it when a weight is corrected.
func onScale(t Task) quantity.Mass {
	if t.Done {
		return t.Tare
	}
	return t.Tare + t.SoFar
}

func (p Plan) allowsGross(f batch.Grossed) error {
	t, err := p.open(f.Task, Gross)
	if err != nil {
		return err
	}
	return grossable(t, f)
}

func grossable(t Task, f batch.Grossed) error {
	if f.Gross <= f.Tare {
		return fmt.Errorf("%s: %s g is no more than the empty vessel (%s g); type the whole weight, vessel included",
			t.Title, f.Gross.At(t.Reads), f.Tare.At(t.Reads))
	}
	return nil
}

func (p Plan) allowsTick(id string, now timer.Moment) error {
	t, err := p.open(id, Tick, Look, Confirm, Bars)
	if err != nil {
		return err
	}
	_, st, _ := p.Task(id)
	if t.Do == Bars && t.Counted == 0 {
		return fmt.Errorf("%s: weigh one at least, or leave it out with the reason", t.Title)
	}
	if id == wholeCure {
		return p.allowsWholeCure(now)
	}
	if id == dissolveID(st.Batter) || id == combineID(st.Batter) {
		if err := p.lyeHeavy(st.Batter); err != nil {
			return fmt.Errorf("%s: %w", t.Title, err)
		}
	}
	if id == meetID(st.Batter) {
		return stale(t, st, now)
	}
	if id == combineID(st.Batter) {
		if err := p.unreadFor(st.Batter); err != nil {
			return fmt.Errorf("%s: %w", t.Title, err)
		}
	}
	if st.Kind == Unmould {
		if err := p.tooEarly(now); err != nil {
			return fmt.Errorf("%s: %w", t.Title, err)
		}
	}
	return nil
}

// warmFor is how long a temperature holds for the gate: a litre of lye solution
// loses some degrees in that time (common practice, no source).
const warmFor = 30 * time.Minute

// stale says that a temperature of the gate was read too long ago to count.
func stale(meet Task, gate Stage, now timer.Moment) error {
	for _, t := range gate.Tasks {
		if t.Do != Temperature || !t.Done || t.Skipped != "" {
			continue
		}
		if old, _ := now.Since(t.At); old > warmFor {
			return fmt.Errorf("%s: it was read %s ago; read both again (up, and type)", meet.Title, timer.Words(old))
		}
	}
	return nil
}

// lyeHeavy says that a batter's alkali is more than its oils can take. It is
// refused where the harm would be done: soap with free alkali burns.
func (p Plan) lyeHeavy(batter string) error {
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

// tooEarly says that the unmould timer has neither fallen due nor been
// acknowledged before its time by a maker who knows better.
func (p Plan) tooEarly(now timer.Moment) error {
	for _, t := range p.Timers {
		if t.ID != UnmouldDue {
			continue
		}
		switch t.State(now) {
		case timer.Running:
			return fmt.Errorf("due %s; acknowledge the timer to unmould early", t.Say(now))
		case timer.PutOff:
			return fmt.Errorf("%s; acknowledge the timer to unmould all the same", t.Say(now))
		case timer.Due, timer.Acknowledged:
		}
	}
	return nil
}

func (p Plan) allowsTemperature(f batch.TemperatureTaken) error {
	t, st, ok := p.Task(f.Task)
	if ok && t.Do == Temperature && t.Done && t.Skipped == "" && !st.Done && !p.Closed {
		return nil // What cools is read again and again, until the gate is passed.
	}
	_, err := p.open(f.Task, Temperature)
	return err
}

func (p Plan) allowsSkip(f batch.Skipped) error {
	t, err := p.open(f.Task, Tick, Look, Weigh, Temperature, Gross, Choose, Count, Bars, Aside, WeighIn, Measure)
	_, st, _ := p.Task(f.Task)
	switch {
	case err != nil:
		return err
	case t.Do == Gross && st.Kind == LyeIntoOils:
		return fmt.Errorf("%s: it cannot be left out, because it tells the right jug from the others", t.Title)
	case t.Do == Weigh && (t.MustType || t.Material == recipe.Water):
		return fmt.Errorf("%s cannot be left out", t.Title)
	case f.Task == decideID:
		return fmt.Errorf("%s: say one or the other", t.Title)
	case f.Task == dissolveID(st.Batter) || f.Task == combineID(st.Batter):
		return fmt.Errorf("%s: it cannot be left out; end the batch instead", t.Title)
	case strings.TrimSpace(f.Reason) == "":
		return errors.New("say why it is left out")
	}
	return nil
}

func (p Plan) allowsTimer(id string) error {
	for _, t := range p.Timers {
		if t.ID == id {
			return nil
		}
	}
	return fmt.Errorf("there is no timer %q", id)
}
