package judge

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/rest"
	"bench/internal/steps"
	"bench/internal/tell"
	"bench/internal/timer"
	"bench/internal/work"
)

// allowsAfter says why a fact that follows the pour cannot be added, or nil.
func allowsAfter(p steps.Plan, f batch.Fact, now timer.Moment) error {
	said := batch.SaidOf(f)
	if err := possibleDay(p, f, now); err != nil {
		return err
	}
	if err := possibleMass(p, f); err != nil {
		return err
	}
	if doubt := DoubtNow(p, f, now); doubt != "" && strings.TrimSpace(said.Answer) == "" {
		return fmt.Errorf("%s: say how that came, and it is kept with the answer", doubt)
	}
	switch f := f.(type) {
	case batch.GelLooked:
		return allowsLook(p, f)
	case batch.UnmouldPutOff:
		if f.For <= 0 {
			return errors.New("say for how long it is put off")
		}
		return allowsTask(p, f.Task, work.Tick, work.Count)
	case batch.BarsCut:
		if f.Bars < 0 {
			return errors.New("a number of bars is not below zero")
		}
		return allowsTask(p, f.Task, work.Count)
	case batch.BarsWeighed:
		if f.Count < 1 || f.Mass <= 0 {
			return errors.New("bars are counted from 1, and weigh something")
		}
		if t, st, ok := p.Task(f.Task); ok && st.Kind == work.ReleaseTest && t.Done && t.Skipped == "" {
			return nil // Others may be weighed later, one by one.
		}
		return allowsTask(p, f.Task, work.Bars)
	case batch.SetAside:
		if f.Mass < 0 || f.Count < 0 {
			return errors.New("a weight is not below zero")
		}
		return allowsTask(p, f.Task, work.Aside)
	case batch.WeighedIn:
		if f.Mass <= 0 {
			return errors.New("a bar weighs something")
		}
		return allowsTask(p, f.Task, work.WeighIn)
	case batch.Tested:
		switch {
		case measurable(f) != nil:
			return measurable(f)
		case f.Passed && (f.Test == batch.PHTest || f.Test == batch.FreeAlkaliTest) && !rest.Passes(f.Test, f.Value):
			return fmt.Errorf("%s: that does not pass", tell.Test(f))
		}
		if t, st, ok := p.Task(f.Task); ok && st.Kind == work.ReleaseTest && t.Done && t.Skipped == "" {
			return nil // A test is made again as often as one likes; the last counts.
		}
		return allowsTask(p, f.Task, work.Measure, work.Choose)
	case batch.Released:
		return allowsRelease(p, f)
	case batch.Held:
		return allowsHold(p, f)
	case batch.Marked, batch.Reworks, batch.LimitStated, batch.Complained, batch.BarsWent:
		return allowsWords(f)
	default:
		return fmt.Errorf("a fact of kind %q is not known here", batch.Kind(f))
	}
}

// allowsLook wants a look at loaves that there are and of which nothing was said yet.
func allowsLook(p steps.Plan, f batch.GelLooked) error {
	for _, loaf := range f.Loaves {
		if loaf < 1 || loaf > p.Loaves {
			return fmt.Errorf("there is no loaf %d", loaf)
		}
		if said := p.GelSaid(f.Task, loaf); said != "" {
			return fmt.Errorf("loaf %d was looked at already: %s; correct it instead", loaf, said)
		}
	}
	return allowsTask(p, f.Task, work.Choose)
}

// allowsWords wants what was said to say something.
func allowsWords(f batch.Fact) error {
	empty := func(s string) bool { return strings.TrimSpace(s) == "" }
	switch f := f.(type) {
	case batch.Marked:
		if empty(f.On) || empty(f.Code) {
			return errors.New("say what is marked, and with which code")
		}
	case batch.Reworks:
		if empty(f.Batch) || empty(f.Reason) {
			return errors.New("say which batch is made anew, and why")
		}
	case batch.LimitStated:
		if f.Limit <= 0 || f.Limit > quantity.Whole || empty(f.Reference) {
			return errors.New("say the limit, above 0 % and up to 100 %, and the certificate that states it")
		}
	case batch.Complained:
		if empty(f.Words) {
			return errors.New("say what the complaint is")
		}
	case batch.BarsWent:
		if empty(f.Where) {
			return errors.New("say where the bars went")
		}
	default:
	}
	return nil
}

func allowsTask(p steps.Plan, id string, does ...work.Do) error {
	_, err := open(p, id, does...)
	return err
}

// allowsRelease wants a reason for every release over an open warning, and the
// warnings in the fact, so that the record shows them.
func allowsRelease(p steps.Plan, f batch.Released) error {
	if err := allowsTask(p, f.Task, work.Choose); err != nil && (!p.Closed || f.Task != rest.DecideID || len(p.Since()) == 0) {
		return err
	}
	open := p.Open()
	switch {
	case !slices.Equal(open, f.Open):
		return errors.New("the open warnings have changed: read them again")
	case len(open) > 0 && strings.TrimSpace(f.Reason) == "":
		return fmt.Errorf("not without a reason: %s", strings.Join(open, "; "))
	}
	return nil
}

// allowsHold lets bars be held from the cut on, also after they were released.
func allowsHold(p steps.Plan, f batch.Held) error {
	t, _, ok := p.Task(f.Task)
	switch {
	case !ok || t.ID != rest.DecideID:
		return fmt.Errorf("there is no task %q in this batch", f.Task)
	case strings.TrimSpace(f.Reason) == "":
		return errors.New("say why the bars are held")
	case p.Curing().Cut.IsZero():
		return errors.New("there are no bars yet: end the batch instead")
	}
	return nil
}

// allowsWholeCure holds to the shortest cure by the calendar.
func allowsWholeCure(p steps.Plan, now timer.Moment) error {
	c := p.Curing()
	gone, cut := c.Dry(now)
	switch {
	case !cut:
		return errors.New("nothing is cut yet")
	case gone < c.Rules.Least:
		return fmt.Errorf("the shortest cure is %s from the cut, %s to go; leave it out (x) with the reason to test earlier",
			timer.Words(c.Rules.Least), timer.Words(c.Rules.Least-gone))
	}
	return nil
}
