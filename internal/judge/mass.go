package judge

import (
	"fmt"
	"slices"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/steps"
)

// possibleMass refuses what no bar can weigh: more than its scale carries, or than the loaf
// that it was cut from; and second outputs of more than the whole batch.
func possibleMass(p steps.Plan, f batch.Fact) error {
	switch f := f.(type) {
	case batch.WeighedIn:
		return possibleBar(p, f.Task, 0, f.Mass, f.Mass)
	case batch.BarsWeighed:
		if f.Count < 1 {
			return nil
		}
		together := quantity.Mass(0) // Many bars may have stood on the scale by turns.
		if f.Count == 1 {
			together = f.Mass
		}
		return possibleBar(p, f.Task, f.Loaf, f.Mass/quantity.Mass(f.Count), together)
	case batch.SetAside:
		if all := p.Poured().All; all > 0 && f.Mass > all {
			return fmt.Errorf("%s g is more than the whole batch (%s g)", f.Mass.At(quantity.Gram), all.At(quantity.Gram))
		}
	default:
	}
	return nil
}

// possibleBar holds one bar to the scale and to its loaf, or for loaf 0 to the largest.
func possibleBar(p steps.Plan, task string, loaf int, bar, onScale quantity.Mass) error {
	t, _, ok := p.Task(task)
	loaves := p.Poured().Loaves
	if !ok || len(loaves) == 0 {
		return nil
	}
	held := slices.Max(loaves)
	if loaf > 0 && loaf <= len(loaves) {
		held = loaves[loaf-1]
	}
	switch {
	case t.Max > 0 && onScale > t.Max:
		return fmt.Errorf("%s g is more than the %s carries (%s)", onScale.At(t.Reads), t.Scale, t.Max)
	case bar > held+held/20: // What the loaf holds is known from pots, to some parts in a hundred.
		return fmt.Errorf("a bar of %s g is heavier than the loaf, which held %s g", bar.At(t.Reads), held.At(quantity.Gram))
	}
	return nil
}
