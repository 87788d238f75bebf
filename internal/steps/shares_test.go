package steps_test

import (
	"fmt"
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/steps"
)

// TestUnequalLoavesAreToldTheirOwn: each loaf's task names its own weight and pour
// line, and a loaf that gets less lies lower.
func TestUnequalLoavesAreToldTheirOwn(t *testing.T) {
	c := harbour()
	c.Recipe.LoafShares = []int64{5, 4, 5}
	p := steps.Of(batch.State{Control: c})
	for _, l := range p.Layers {
		if l.Loaves[1].Surface >= l.Loaves[0].Surface-quantity.Millimetre || l.Loaves[2].Surface < l.Loaves[1].Surface+quantity.Millimetre {
			t.Errorf("%s lies at %s, %s and %s", l.Name, l.Loaves[0].Surface, l.Loaves[1].Surface, l.Loaves[2].Surface)
		}
		for i, loaf := range l.Loaves {
			task, _, ok := p.Task(fmt.Sprintf("%s/%s/loaf %d/pour", l.Batter, l.Name, i+1))
			line := loaf.PourLine.RoundTo(quantity.Millimetre / 2).String()
			if !ok || !strings.Contains(task.Title, "to "+line) || !strings.Contains(task.Hint, loaf.Mass.At(quantity.Gram)+" g") {
				t.Errorf("%s, loaf %d gets %s g up to %s: %s. %s", l.Name, i+1, loaf.Mass.At(quantity.Gram), line, task.Title, task.Hint)
			}
		}
	}
}
