package steps_test

import (
	"testing"

	"bench/internal/calc"
	"bench/internal/near"
	"bench/internal/quantity"
	"bench/internal/recipe"
)

// TestDryAlkaliToAPellet: dry alkali is right within 0.2 g where its share of the quarter
// point is less, since nobody weighs a part of a pellet (common practice, no source); and
// within a quarter point of superfat where that is less still. A stock solution has no
// pellets, and a batch of before goes on as it began.
func TestDryAlkaliToAPellet(t *testing.T) {
	const id = "sea/sodium hydroxide"
	full := harbour()
	share := calc.AlkaliTolerance(koh(574.1, 382.8, 191.4, 127.6), calc.MolarMassNaOH, 1, 5)
	if share > 0.1 {
		t.Fatalf("a fifth of a quarter point is %v g, more than one reading", share)
	}
	before := harbour()
	before.PlanVersion = 4
	coarse := harbour()
	coarse.Scales = coarse.Scales[:1]
	small := harbour()
	small.Loaves, small.Mould.Length = 1, 100*mm
	small.Scales[1].Max = 60 * g // Only the fine scale carries a cup.
	stock := harbour()
	stock.Materials[0].Stock = 50 * quantity.Percent
	for _, c := range []struct {
		name string
		of   recipe.Control
		want quantity.Mass
	}{{"full", full, 200}, {"begun before", before, 100}, {"on a scale that reads to 1 g", coarse, 1000}, {"stock", stock, quantity.FromGrams(2 * share)}} {
		b := begin(c.of)
		b.workTo(t, id)
		if got := b.task(t, id); got.Tolerance != c.want {
			t.Errorf("%s: ± %v of %v on a scale that reads to %v, not ± %v", c.name, got.Tolerance, got.Target, got.Reads, c.want)
		}
	}

	b := begin(small)
	b.workTo(t, id)
	task := b.task(t, id)
	near.To(t, "a small batch, in g", task.Tolerance.Grams(), task.Target.Grams()/0.95*0.0025, 0.001)
	b.typed(t, id, (task.Target + task.Tolerance.FloorTo(task.Reads)).At(task.Reads))
	if p := b.plan(); len(p.Deviations) > 0 || p.Batters[0].Superfat.Percent < 4.74 {
		t.Errorf("%v over: superfat %.3f %%, %v", task.Tolerance, p.Batters[0].Superfat.Percent, p.Deviations)
	}

	for over, off := range map[quantity.Mass]int{200: 0, -200: 0, 300: 1, -300: 1} {
		b := begin(full)
		b.workTo(t, id)
		task := b.task(t, id)
		b.typed(t, id, (task.Target + over).At(task.Reads))
		if got := b.plan().Deviations; len(got) != off {
			t.Errorf("%v over: %v", over, got)
		}
	}
}
