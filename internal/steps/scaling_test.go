package steps_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/sample"
	"bench/internal/steps"
	"bench/internal/work"
)

// TestScalingScalesEveryWeight: k times the oils are k times of everything, before
// a scale rounds: all is weighed to a milligram here, and nothing stays in a
// vessel, because that does not grow with the batch.
func TestScalingScalesEveryWeight(t *testing.T) {
	for _, file := range []string{"lighthouse-at-dusk.yaml", "tide-lines.yaml", "wharf-puck.yaml"} {
		c := sample.Control(t, file, 1)
		c.Scales, c.LeftInVessel = []recipe.Scale{{Name: "fine scale", Reads: quantity.Milligram, Max: quantity.MaxMass}}, 0
		rapid.Check(t, func(r *rapid.T) {
			k := rapid.Float64Range(0.2, 8).Draw(r, "k")
			oils := quantity.FromGrams(rapid.Float64Range(300, 3000).Draw(r, "oils"))
			once, more := weightsOf(c, oils), weightsOf(c, quantity.FromGrams(k*oils.Grams()))
			if len(once) < 8 {
				r.Fatalf("%s: only %d weights", file, len(once))
			}
			for id, m := range once {
				if want := k * m.Grams(); math.Abs(more[id].Grams()-want) > 0.004*(1+k) {
					r.Fatalf("%s, %s: %s became %s, want %.3f g (k = %g)", file, id, m, more[id], want, k)
				}
			}
		})
	}
}

// weightsOf gives what is to be weighed for so much oil a batter.
func weightsOf(c recipe.Control, oils quantity.Mass) map[string]quantity.Mass {
	c.Recipe.Batters = append([]recipe.Batter(nil), c.Recipe.Batters...)
	for i := range c.Recipe.Batters {
		c.Recipe.Batters[i].OilWeight = oils
	}
	weights := map[string]quantity.Mass{}
	for _, st := range steps.Of(batch.State{Control: c}).Stages {
		for _, task := range st.Tasks {
			if task.Do == work.Weigh && st.Kind != work.Texture {
				weights[task.ID] = task.Target
			}
		}
	}
	return weights
}
