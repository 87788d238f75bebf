package steps_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/sample"
	"bench/internal/steps"
)

// TestScentOfBatter: a rate of the batter counts the scent itself, in the pot
// and portion by portion, and beside another scent of the oils.
func TestScentOfBatter(t *testing.T) {
	for _, place := range []recipe.Place{recipe.InPot, recipe.InPortions} {
		c := scented(recipe.Behaves, false, recipe.Light, place)
		c.Materials = append(c.Materials, recipe.Material{Name: "calm", Kind: recipe.EssentialMaterial})
		c.Recipe.Layers[0].Scents = []recipe.Scent{
			{Material: "harbour rope", Rate: 2 * quantity.Percent, Of: recipe.OfBatter, Where: place},
			{Material: "calm", Rate: quantity.Percent, Of: recipe.OfOils, Where: place},
		}
		l, in := steps.Of(batch.State{Control: c}).Layers[0], 1.0
		if place == recipe.InPortions { // What stays in the pot is not scented.
			in = 1 - l.Left.Grams()/(l.Mass-l.Scents[0].Mass-l.Scents[1].Mass).Grams()
		}
		if got := l.Scents[0].Mass.Grams() / l.Mass.Grams() / in; math.Abs(got-0.02) > 2e-5 {
			t.Errorf("%s: %.5f of the batter", place, got)
		}
		if got := l.Scents[1].Mass.Grams() / l.Oils.Grams() / in; math.Abs(got-0.01) > 2e-5 {
			t.Errorf("%s: %.5f of the oils", place, got)
		}
	}
}

// TestScentToleranceEndsAtTheLimit: no more may be weighed than the certificate
// allows once the bar has dried, however small that leaves the tolerance.
func TestScentToleranceEndsAtTheLimit(t *testing.T) {
	c := scented(recipe.Behaves, false, recipe.Light, recipe.InPot)
	rate := steps.Of(batch.State{Control: c}).Layers[0]
	share := rate.Scents[0].Mass.Grams() / (rate.Mass.Grams() * (1 - recipe.CureLoss))
	for _, f := range []struct {
		limit float64 // limit is of the share that the recipe makes when cured.
		most  float64 // most is the tolerance over the weight.
	}{{2, 0.05}, {1.02, 0.0205}, {1.0, 0.001}} {
		for i := range c.Materials {
			if c.Materials[i].Name == "harbour rope" {
				c.Materials[i].Limit = quantity.FromFraction(share * f.limit)
			}
		}
		task, _, _ := steps.Of(batch.State{Control: c}).Task("sea/sea/harbour rope")
		if got := task.Tolerance.Grams() / task.Target.Grams(); got <= 0 || got > f.most*1.01 {
			t.Errorf("at %.2f of the limit: ±%.4f of the weight, want %.4f", f.limit, got, f.most)
		}
	}
}

// TestAcidUsesUpAlkali: citric acid, C6H8O7 with 192.12 g/mol, takes three
// hydroxides: 3 × 56.105 / 192.12 = 876 mg KOH a gram, on top of the oils'
// (molar masses from CIAAW atomic weights; domain of the recipe: acids react
// whole and the superfat withholds alkali from the oils only).
func TestAcidUsesUpAlkali(t *testing.T) {
	c := harbour()
	c.Materials = append(c.Materials, recipe.Material{Name: "citric acid", Kind: recipe.AdditiveMaterial, Acid: quantity.FromFraction(3 * 56.105 / 192.12)})
	c.Recipe.Batters[0].Additives = []recipe.Additive{{Material: "citric acid", Rate: 2 * quantity.Percent, In: recipe.InLyeWater}}
	p := steps.Of(batch.State{Control: c})
	b := p.Batters[0]
	var grams [4]float64 // shea, coconut, olive, castor: in the order of weighing
	for i, o := range b.Oils {
		grams[i] = o.Mass.Grams()
	}
	oils := grams[0] + grams[1] + grams[2] + grams[3]
	want := (koh(grams[2], grams[1], grams[0], grams[3])*0.95 + 0.02*oils*3*56.105/192.12) * naohPerKOH
	if got := b.Alkali[0].Mass.Grams(); math.Abs(got-want) > 0.051 {
		t.Errorf("alkali %.2f g, by hand %.3f g", got, want)
	}
	if math.Abs(b.Superfat.Percent-5) > 0.05 {
		t.Errorf("superfat %.3f %%", b.Superfat.Percent)
	}
	s, _ := p.Stage("lye/sea")
	var ids []string
	for _, task := range s.Tasks {
		ids = append(ids, task.ID)
	}
	if want := []string{"sea/water", "sea/citric acid", "sea/sodium hydroxide", "sea/dissolve", "sea/lye jug/dissolved", "lye/sea/read back"}; !slices.Equal(ids, want) {
		t.Errorf("%v, want %v", ids, want)
	}
}

// TestTraceStopsAtTheThinnest that any layer of a pot wants.
func TestTraceStopsAtTheThinnest(t *testing.T) {
	for _, c := range []struct {
		layers [3]recipe.Trace
		want   []string
	}{
		{[3]recipe.Trace{recipe.Light, recipe.MediumTr, recipe.Thick}, []string{"emulsion", "light"}},
		{[3]recipe.Trace{recipe.Thick, recipe.Emulsion, recipe.Light}, []string{"emulsion"}},
		{[3]recipe.Trace{recipe.Thick, recipe.Thick, recipe.MediumTr}, []string{"emulsion", "light", "medium"}},
	} {
		control := sample.Control(t, "tide-lines.yaml", 2)
		for i, trace := range c.layers {
			control.Recipe.Layers[i].Trace = trace
		}
		s, _ := steps.Of(batch.State{Control: control}).Stage("trace/tide")
		var got []string
		for _, task := range s.Tasks {
			got = append(got, task.ID[len("tide/trace/"):])
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%v: %v, want %v", c.layers, got, c.want)
		}
	}
}

// TestEveryLoafGetsAsMuch: a batch of n loaves is n batches of one but for what
// stays in vessels, which only n jugs more can tell apart.
func TestEveryLoafGetsAsMuch(t *testing.T) {
	for name, design := range designs(t) {
		one := steps.Of(batch.State{Control: design(1)})
		for loaves := 2; loaves <= 3; loaves++ {
			many := steps.Of(batch.State{Control: design(loaves)})
			for i, l := range many.Layers {
				for loaf, f := range l.Loaves {
					what := fmt.Sprintf("%s, %s, loaf %d of %d", name, l.Name, loaf+1, loaves)
					alone := one.Layers[i].Loaves[0]
					if math.Abs(f.Mass.Grams()-alone.Mass.Grams()) > 0.006*alone.Mass.Grams() {
						t.Errorf("%s: %v, and %v alone", what, f.Mass, alone.Mass)
					}
					if math.Abs((f.Surface - alone.Surface).Millimetres()) > 0.2 {
						t.Errorf("%s: up to %v, and %v alone", what, f.Surface, alone.Surface)
					}
				}
			}
		}
	}
}
