package steps

import (
	"fmt"

	"bench/internal/batch"
	"bench/internal/calc"
	"bench/internal/curing"
	"bench/internal/recipe"
)

// What a release test may give. The pH is common practice, no source; free
// alkali is that of a combination toilet bar, ASTM D2179-65 (1990),
// second-hand.
const (
	highestPH      = 10.5
	mostFreeAlkali = 0.05 // % as NaOH
)

// Open gives the warnings that keep bars from being released without a reason:
// a superfat band below zero, a scent over its limit, a test that failed or was
// left out, a cure cut short, a skin reaction.
func (p Plan) Open() []string {
	var list []string
	for _, b := range p.Batters {
		if b.Superfat.Low < 0 {
			list = append(list, fmt.Sprintf("%s: the superfat may be as low as %.1f %%: free alkali cannot be ruled out", b.Name, b.Superfat.Low))
		}
	}
	if p.planner == nil {
		return list
	}
	list = append(list, p.planner.overLimit()...)
	return append(list, p.planner.untested()...)
}

// overLimit names the scents that are over their limit as they were weighed, in
// the worst loaf, once the bar has dried.
func (p *planner) overLimit() []string {
	loss := max(recipe.CureLoss, curing.Of(p.s).Lost())
	var list []string
	for _, r := range p.pours {
		worst := map[string]float64{}
		for _, s := range r.layer.Scents {
			worst[s.Name] += p.worstShare(r, s, loss)
		}
		used, named := 0.0, false
		for _, s := range r.recipe.Scents {
			m, _ := p.c.Material(s.Material)
			if m.Limit == 0 {
				continue
			}
			share := worst[s.Material]
			used += share / m.Limit.Fraction()
			if share > m.Limit.Fraction()*overByRounding {
				named = true
				list = append(list, fmt.Sprintf("%s: %s is %.2f %% of the bar once it has lost %.0f %%, and its limit is %s",
					r.recipe.Name, s.Material, 100*share, 100*loss, m.Limit))
			}
		}
		if used > overByRounding && !named {
			list = append(list, fmt.Sprintf("%s: together its scents use %.0f %% of their limits", r.recipe.Name, 100*used))
		}
	}
	return list
}

// overByRounding lets a scent that was planned at its limit be weighed to what
// a scale reads to.
const overByRounding = 1.005

// worstShare is a scent's greatest share of any loaf's layer.
func (p *planner) worstShare(r pour, s Scent, loss float64) float64 {
	if s.Place != recipe.InPortions {
		return calc.ScentShareCured(s.Mass.Grams(), r.layer.Mass.Grams(), loss)
	}
	worst := 0.0
	for loaf, m := range s.Portions {
		if loaf < len(r.layer.Loaves) {
			whole := r.layer.Loaves[loaf].Mass + p.c.LeftInVessel // The scent is in what stays in the jug, too.
			worst = max(worst, calc.ScentShareCured(m.Grams(), whole.Grams(), loss))
		}
	}
	return worst
}

// untested names tests that failed or were left out, a cure that was cut short
// and skin reactions.
func (p *planner) untested() []string {
	var list []string
	last := map[batch.Test]batch.Tested{}
	for _, t := range batch.All[batch.Tested](p.s) {
		last[kindOf(t.Fact.Test)] = t.Fact
	}
	for _, test := range []batch.Test{batch.PHTest, batch.LookTest} {
		if t, ok := last[test]; ok && !t.Passed {
			list = append(list, "failed: "+sayTested(t))
		}
	}
	for _, id := range []string{alkaliTest, lookTest, wholeCure} {
		if d, ok := p.s.Done(id); ok && d.Skipped != "" {
			list = append(list, leftOut(id)+": "+d.Skipped)
		}
	}
	for _, c := range batch.All[batch.Complained](p.s) {
		if c.Fact.About == batch.SkinReaction {
			list = append(list, "skin reaction: "+c.Fact.Words)
		}
	}
	return list
}

// kindOf takes pH and free alkali for one test: the later answers for both.
func kindOf(t batch.Test) batch.Test {
	if t == batch.FreeAlkaliTest {
		return batch.PHTest
	}
	return t
}

func leftOut(id string) string {
	switch id {
	case alkaliTest:
		return "not tested for alkali"
	case lookTest:
		return "not looked over"
	}
	return "the cure was cut short"
}
