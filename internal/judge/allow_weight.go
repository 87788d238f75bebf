package judge

import (
	"cmp"
	"fmt"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/steps"
	"bench/internal/work"
)

func allowsWeighed(p steps.Plan, f batch.Weighed) error {
	t, err := open(p, f.Task, work.Weigh, work.Portion)
	if err != nil {
		return err
	}
	if _, st, _ := p.Task(f.Task); st.Kind == work.LyeIntoOils { // Part of the lye solution goes into the oils.
		if err := named(t, metHot(p, st.Batter), potUnanswered(p, st.Batter)); err != nil {
			return err
		}
	}
	return cmp.Or(weighable(t, f), pourable(p, t, f.Mass))
}

// pourable refuses to pour more over than there is where it comes out of.
func pourable(p steps.Plan, t work.Task, m quantity.Mass) error {
	if most, ok := p.Gives(t.ID); ok && m > most {
		return fmt.Errorf("%s: %s g is more than there is to pour out of (%s g)", t.Title, m.At(t.Reads), most.At(t.Reads))
	}
	return nil
}

// weighable checks a weight against its task, whenever it was weighed.
func weighable(t work.Task, f batch.Weighed) error {
	switch {
	case t.MustType && f.How != batch.Typed:
		return fmt.Errorf("%s: it burns, so it is never ticked unseen: type what the scale says", t.Title)
	case f.Mass < 0:
		return fmt.Errorf("%s: a weight is not below zero", t.Title)
	case f.Mass == 0 && f.More:
		return fmt.Errorf("%s: a container that brings nothing needs no weighing", t.Title)
	case t.Do == work.Portion && f.Mass > inVessel(t):
		return fmt.Errorf("%s: %s g is more than the vessel holds", t.Title, f.Mass.At(t.Reads))
	case t.Do == work.Weigh && f.How == batch.Typed && t.Parts <= 1 && t.Max > 0 && onScale(t)+f.Mass > t.Max:
		return fmt.Errorf("%s: %s is more than the %s carries (%s)", t.Title, withVessel(t, f.Mass), t.Scale, t.Max)
	}
	return nil
}

// inVessel gives what a portion may come out of: what stands on the scale, less
// the vessel and what was poured out for this portion before.
func inVessel(t work.Task) quantity.Mass {
	if t.Done { // A correction replaces what was poured out.
		return t.SoFar - t.Tare
	}
	return t.SoFar - t.Tare - t.Mass
}

// onScale gives what a weighing comes on top of. What is in the vessel by now
// says nothing of what was in it when a weight is corrected, and what goes in out of
// its cup is what is in it.
func onScale(t work.Task) quantity.Mass {
	if t.Done || t.FromCup {
		return t.Tare
	}
	return t.Tare + t.SoFar
}

// withVessel says a weight with all that it comes on top of, which may have been tared
// away and was not typed.
func withVessel(t work.Task, m quantity.Mass) string {
	switch below := onScale(t); {
	case below <= 0:
		return m.Reading(t.Reads)
	case below > t.Tare:
		return fmt.Sprintf("%s g with %s and what is in it (%s g)", m.At(t.Reads), t.Vessel, below.At(t.Reads))
	default:
		return fmt.Sprintf("%s g with %s (%s g)", m.At(t.Reads), t.Vessel, below.At(t.Reads))
	}
}

func allowsGross(p steps.Plan, f batch.Grossed) error {
	t, err := open(p, f.Task, work.Gross)
	if err != nil {
		return err
	}
	return grossable(p, t, f)
}

func grossable(p steps.Plan, t work.Task, f batch.Grossed) error {
	if most, ok := p.MostLye(t.ID); ok && f.Gross-t.Tare > most+t.Tolerance && f.Gross > f.Tare {
		nearer := ""
		if other, ok := lookAlike(p, t, f.Gross); ok {
			nearer = " That is nearer to " + other + "."
		}
		steam := ""
		if off := f.Gross - t.Target; off > f.Gross-t.Tare-most+t.Reads {
			steam = fmt.Sprintf(", and %s g more than is left after the steam", off.At(t.Reads))
		}
		return fmt.Errorf("%s g is %s g more than went into %s%s.%s Another vessel: say which (i). More went in: correct that first (u)",
			f.Gross.At(t.Reads), (f.Gross - t.Tare - most).At(t.Reads), t.Vessel, steam, nearer)
	}
	if f.Gross <= f.Tare {
		return fmt.Errorf("%s: %s g is no more than the empty vessel (%s g); type the whole weight, vessel included",
			t.Title, f.Gross.At(t.Reads), f.Tare.At(t.Reads))
	}
	return nil
}
