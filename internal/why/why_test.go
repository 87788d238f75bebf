package why_test

import (
	"testing"

	"bench/internal/batch"
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
