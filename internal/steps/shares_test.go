package steps_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/steps"
	"bench/internal/work"
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

// TestCupsAreWipedOut: a cup that held something else before says so and what; of no cup
// is it said that held nothing else. Every portion and every pour says which vessel
// it comes out of.
func TestCupsAreWipedOut(t *testing.T) {
	for name, design := range designs(t) {
		for loaves := 1; loaves <= 2; loaves++ {
			c := design(loaves)
			held, wiped := map[string]string{}, 0
			for _, st := range steps.Of(batch.State{Control: c}).Stages {
				for _, task := range st.Tasks {
					cup := slices.ContainsFunc(c.Vessels, func(v recipe.Vessel) bool { return v.Kind == recipe.Cup && v.Name == task.Vessel })
					switch {
					case task.Do == work.Tick && task.PourLine > 0:
						if !strings.HasPrefix(task.Hint, "Out of ") {
							t.Errorf("%s: %q says not out of what", name, task.Hint)
						}
					case task.Do == work.Portion && (task.Vessel == "" || task.Into == ""):
						t.Errorf("%s: %s is poured out of %q into %q", name, task.ID, task.Vessel, task.Into)
					case task.Do != work.Weigh || !cup || task.FromCup || task.MustType:
					default:
						was := held[task.Vessel]
						out := map[bool]string{false: "out", true: "out and dry it"}[st.Kind == work.LyeSolution]
						asks := strings.HasPrefix(task.Hint, "Wipe "+task.Vessel+" "+out+" first: "+was+" was in it.")
						if asks != (was != "" && was != task.Material) {
							t.Errorf("%s: %s into %s, where %q was: %q", name, task.Material, task.Vessel, was, task.Hint)
						}
						if asks {
							wiped++
						}
						held[task.Vessel] = task.Material
					}
				}
			}
			if name == "lighthouse" && wiped < 2 {
				t.Errorf("%s: only %d cups are wiped out", name, wiped)
			}
		}
	}
}
