package why_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/sample"
	"bench/internal/steps"
	"bench/internal/why"
)

// Every weight of the plan can be asked why, and each reason has a source.
func TestEveryFigureHasItsReason(t *testing.T) {
	for _, file := range []string{"wharf-puck.yaml", "tide-lines.yaml", "lighthouse-at-dusk.yaml"} {
		s := batch.State{Control: sample.Control(t, file, 0)}
		have := map[string]string{}
		for _, r := range why.Of(s) {
			if r.Value == "" || r.Formula == "" || len(r.Numbers) == 0 || len(r.Sources) == 0 {
				t.Errorf("%s: %+v lacks something", file, r)
			}
			have[r.Figure] = r.Value
		}
		plan := steps.Of(s)
		for _, b := range plan.Batters {
			for _, list := range [][]steps.Amount{b.Oils, b.Alkali, {b.Water}, b.Additives} {
				for _, a := range list {
					if have[b.Name+"/"+a.Name] != a.Mass.String() {
						t.Errorf("%s: %s %s is explained as %q", b.Name, a.Name, a.Mass, have[b.Name+"/"+a.Name])
					}
				}
			}
		}
		for _, l := range plan.Layers {
			for _, a := range l.Colours {
				if have[l.Name+"/"+a.Name] != a.Mass.String() {
					t.Errorf("%s: %s %s is explained as %q", l.Name, a.Name, a.Mass, have[l.Name+"/"+a.Name])
				}
			}
		}
	}
}

// TestWhyAfterATopUp: olive oil 45.7 g over, everything brought up after the alkali was
// dissolved: what is asked of the alkali is what the formula gives, the water fits it, and
// the heat is that of all of it. By hand for lye of 33 %: water = 67/33 × the alkali.
func TestWhyAfterATopUp(t *testing.T) {
	b := sample.Begin(sample.Control(t, "lighthouse-at-dusk.yaml", 3))
	b.WorkTo(t, "sea/olive")
	olive, _, _ := b.Plan().Task("sea/olive")
	before := reasonOf(t, b.State, "sea/peak").Value
	b.Put(batch.Weighed{
		Task: olive.ID, Material: olive.Material, Target: olive.Target, Mass: 390 * quantity.Gram, How: batch.Typed,
		Scale: olive.Scale, Reads: olive.Reads, Vessel: olive.Vessel, Tare: olive.Tare,
	})
	for _, d := range b.Plan().Deviations {
		for _, w := range b.Plan().Ways(d) {
			if w.Fact.Way == batch.InProportion {
				b.Put(w.Fact)
			}
		}
	}
	b.WorkTo(t, "sea/meet")
	alkali, water := reasonOf(t, b.State, "sea/sodium hydroxide"), reasonOf(t, b.State, "sea/water")
	var all, had, ends, from float64
	for _, a := range b.Plan().Batters[0].Alkali {
		all += a.Mass.Grams()
	}
	if len(b.Plan().Batters[0].Alkali) != 2 {
		t.Fatalf("nothing came on top: %+v", b.Plan().Batters[0].Alkali)
	}
	if _, err := fmt.Sscanf(alkali.Value, "%f g (", &had); err != nil || math.Abs(had-all) > 0.02 {
		t.Errorf("%q, weighed %.2f g", alkali.Value, all)
	}
	last := alkali.Numbers[len(alkali.Numbers)-1]
	if _, err := fmt.Sscanf(last[strings.LastIndex(last, "= ")+2:], "%f g", &ends); err != nil || math.Abs(ends-had) > 0.15 {
		t.Errorf("%q under %q", last, alkali.Value)
	}
	w := b.Plan().Batters[0].Water.Mass.Grams()
	if _, err := fmt.Sscanf(water.Numbers[0], "%f g", &from); err != nil || math.Abs(from-all) > 0.01 || math.Abs(from*67/33-w) > 1 {
		t.Errorf("%q for %.1f g of water", water.Numbers[0], w)
	}
	if peak := reasonOf(t, b.State, "sea/peak"); peak.Value != before || !strings.HasPrefix(peak.Numbers[0], fmt.Sprintf("%.2f g NaOH", all)) {
		t.Errorf("peak %s from %q; of the same strength it was %s", peak.Value, peak.Numbers[0], before)
	}
}

func reasonOf(t *testing.T, s batch.State, figure string) why.Reason {
	t.Helper()
	for _, r := range why.Of(s) {
		if r.Figure == figure {
			return r
		}
	}
	t.Fatalf("no reason for %s", figure)
	return why.Reason{}
}
