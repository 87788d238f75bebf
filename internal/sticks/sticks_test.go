package sticks

import (
	"math"
	"testing"

	"bench/internal/calc"
	"bench/internal/cut"
	"bench/internal/quantity"
	"bench/internal/recipe"
)

const mm = quantity.Millimetre

// control is a loaf with one moon in a sea.
func control(mould recipe.Mould) recipe.Control {
	return recipe.Control{
		Loaves: 3, Mould: mould,
		Recipe: recipe.Recipe{
			Name:    "Moon over the mole",
			Batters: []recipe.Batter{{Name: "sea", Oils: []recipe.OilShare{{Oil: "olive", Share: quantity.Whole}}, Water: recipe.DefaultWater(), Alkali: recipe.DefaultAlkali()}},
			Layers: []recipe.Layer{{Name: "sea", Batter: "sea", Surface: 50 * mm, Embeds: []recipe.Embed{
				{Name: "moon", Shape: recipe.Circle, Width: 20 * mm, Height: 20 * mm, Across: 35 * mm, Sink: 35 * mm, Dough: "moon dough"},
			}}},
		},
		Oils:      []recipe.OilUse{{Key: "olive", SV: calc.Interval{Low: 190, Nominal: 190, High: 190}, Density: 0.915}},
		Materials: []recipe.Material{{Name: "moon dough", Kind: recipe.DoughMaterial, Lot: "D-4"}, {Name: recipe.SodiumHydroxide, Kind: recipe.AlkaliMaterial}},
		Extruder:  recipe.Extruder{Capacity: 400 * quantity.Gram, Stays: 60 * quantity.Gram, Stick: 320 * mm, Trim: 10 * mm, Density: 1.1},
	}
}

func box() recipe.Mould {
	return recipe.Mould{Name: "harbour loaf", Length: 220 * mm, Width: 70 * mm, Height: 65 * mm}
}

func TestABarWeighsWhatLiesBetweenItsCuts(t *testing.T) {
	c := control(box())
	w := Of(c)
	if len(w.Bars) != 8 || w.Bars[0].From != 5*mm || w.Loaf.Rest() != 15*mm {
		t.Fatalf("%+v", w)
	}
	moon := math.Pi * 100
	want := 25 * ((70*50-moon)*c.Mixture(0).GramsPerML + moon*1.1) / 1000
	for _, b := range w.Bars {
		if math.Abs(b.Fresh.Grams()-want) > 0.01 {
			t.Errorf("bar %d weighs %s, not %.3f g", b.N, b.Fresh, want)
		}
	}
}

// TestBarsOfALeaningMouldAddUp cuts a mould whose ends lean without any trim:
// its bars weigh what its whole volume weighs, those at the ends least.
func TestBarsOfALeaningMouldAddUp(t *testing.T) {
	m := box()
	m.Length, m.FloorLength, m.FloorWidth = 225*mm, 195*mm, 60*mm
	c := control(m)
	c.Recipe.Layers[0].Embeds = nil
	none := quantity.Length(0)
	c.Cutting = recipe.Cutting{Near: &none}
	sum := 0.0
	list := Of(c).Bars
	for _, b := range list {
		sum += b.Fresh.Grams()
	}
	want := c.Fills()[0].Volume * c.Mixture(0).GramsPerML / 1000
	if len(list) != 9 || math.Abs(sum-want) > want/2000 {
		t.Errorf("%d bars weigh %.1f g, and the loaf %.1f g", len(list), sum, want)
	}
	if list[0].Fresh >= list[4].Fresh || list[0].Fresh != list[8].Fresh {
		t.Errorf("%+v", list)
	}
	if least, most := Of(c).Spread(); least != list[0].Fresh || most != list[4].Fresh {
		t.Errorf("%s to %s", least, most)
	}
}

func TestDoughForNewSticks(t *testing.T) {
	c := control(box())
	c.Sticks = []recipe.StickPlan{{Stick: "moon", Embeds: []recipe.StickEmbed{{Layer: "sea", Embed: "moon"}}, Plan: cut.Plan{Fresh: 4}}}
	d := Of(c).Dough
	// π × 10² mm² × 4 × (320 + 10) mm × 1.1 g/mL, and 60 g in the extruder.
	want := math.Pi*100*4*330*1.1/1000 + 60
	if len(d) != 1 || d[0].Name != "moon dough" || d[0].Lot != "D-4" || math.Abs(d[0].Mass.Grams()-want) > 0.01 || d[0].Loads != 2 {
		t.Errorf("%+v, not %.3f g", d, want)
	}
	c.Sticks[0].Plan.Fresh = 0
	if d := Of(c).Dough; len(d) != 0 {
		t.Errorf("%+v", d)
	}
}
