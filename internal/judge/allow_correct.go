package judge

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"bench/internal/batch"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/work"
)

// allowsCorrection checks a corrected value, and that it is said of the right
// fact.
func allowsCorrection(p steps.Plan, f batch.Corrected, now timer.Moment) error {
	first, err := about(p, f.Seq, "a correction", f.Reason)
	if err != nil {
		return err
	}
	if !batch.Alike(f.With, first.Fact) {
		return errors.New("a correction is of the same kind as the fact that it corrects, and about the same thing")
	}
	id := batch.Task(f.With)
	t, st, ok := p.Task(id)
	if id != "" && !ok {
		return fmt.Errorf("there is no task %q in this batch", id)
	}
	switch with := f.With.(type) {
	case batch.Weighed:
		return cmp.Or(weighable(t, with), pourable(p, t, with.Mass))
	case batch.Grossed:
		return grossable(p, t, with)
	case batch.VesselReplaced:
		use, _ := p.Uses().Of(with.By)
		return tareable(p, with, use)
	case batch.Ticked:
		if err := tickable(t, st, with.Mass); err != nil {
			return err
		}
		switch began := p.State().Entries[0].At.Wall.Truncate(time.Minute); {
		case with.When.IsZero() && with.Mass > 0: // Its weight is what was corrected.
		case with.When.After(now.Wall):
			return errors.New("that time is still to come")
		case with.When.Before(began):
			return errors.New("that was before the batch began")
		}
		if st.Kind == work.Unmould && !with.When.IsZero() {
			if err := inOrder(p, with, with.When); err != nil {
				return err
			}
		}
	default:
		if err := cmp.Or(possibleDay(p, with, now), possibleMass(p, with)); err != nil {
			return err
		}
	}
	return stillInOrder(p, p.With(f, now), f.Seq)
}

// about gives the fact of that number, for what is said of it with a reason.
func about(p steps.Plan, seq int, what, reason string) (batch.Entry, error) {
	entries := p.State().Entries
	switch {
	case strings.TrimSpace(reason) == "":
		return batch.Entry{}, errors.New(what + " needs its reason")
	case seq < 1 || seq > len(entries):
		return batch.Entry{}, fmt.Errorf("there is no fact %d", seq)
	}
	return entries[seq-1], nil
}

// allowsWithdrawal refuses to take back what can never be, and what others were
// built on: they are taken back first, from the last.
func allowsWithdrawal(p steps.Plan, f batch.Withdrawn, now timer.Moment) error {
	first, err := about(p, f.Seq, "taking back", f.Reason)
	if err != nil {
		return err
	}
	if why := batch.Withdrawable(first.Fact); why != "" {
		return errors.New(why)
	}
	s := p.State()
	if s.Withdrawn(f.Seq) {
		return errors.New("this was taken back already")
	}
	if taken, ok := first.Fact.(batch.VesselReplaced); ok && (usedSince(s, f.Seq, taken.By) || usedSince(s, f.Seq, taken.Vessel)) {
		return fmt.Errorf("%s was used since: say which vessel was taken for it, instead of taking this back (key i)", taken.By)
	}
	after := p.With(f, now)
	already := outOfOrder(p)
	for id, title := range outOfOrder(after) {
		if _, before := already[id]; !before {
			return fmt.Errorf("%q was done after it: take that back first", title)
		}
	}
	for _, e := range batch.Standing(s.Entries) {
		id := batch.Task(e.Fact)
		if _, _, known := p.Task(id); !known || e.Seq == f.Seq {
			continue
		}
		if _, _, known := after.Task(id); !known {
			return fmt.Errorf("%q follows from it: take that back first", p.Title(id))
		}
	}
	return nil
}

// usedSince says that something was weighed in a vessel after the fact of that number,
// or that it was replaced itself.
func usedSince(s batch.State, seq int, vessel string) bool {
	return slices.ContainsFunc(batch.Standing(s.Entries), func(e batch.Entry) bool {
		used := ""
		switch f := e.Fact.(type) {
		case batch.Weighed:
			used = f.Vessel
		case batch.Grossed:
			used = f.Vessel
		case batch.VesselReplaced:
			used = f.Vessel
		default: // Nothing else is weighed in a vessel.
		}
		return e.Seq > seq && used == vessel
	})
}

// outOfOrder gives the tasks that are done although something before them is not,
// by their titles.
func outOfOrder(p steps.Plan) map[string]string {
	list := map[string]string{}
	for _, st := range p.Stages {
		open := st.Blocked != ""
		for _, t := range st.Tasks {
			if t.Done && t.Seq > 0 && (open || t.Waits != "") {
				list[t.ID] = t.Title
			}
			open = open || st.Ordered && !t.Done
		}
	}
	return list
}
