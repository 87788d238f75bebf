package check

import (
	"encoding/json"
	"math"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"bench/internal/calc"
	"bench/internal/quantity"
	"bench/internal/recipe"
)

const mm = quantity.Millimetre

func harbour() recipe.Workshop {
	return recipe.Workshop{
		Scales:  []recipe.Scale{{Name: "bench scale", Reads: quantity.Gram / 10, Max: 3 * quantity.Kilogram}},
		Vessels: []recipe.Vessel{{Name: "pot", Kind: recipe.Pot, Tare: 600 * quantity.Gram}},
		Moulds: []recipe.Mould{
			{Name: "harbour loaf", Length: 220 * mm, Width: 70 * mm, Height: 65 * mm, Count: 3},
			{Name: "quay loaf", Length: 300 * mm, Width: 80 * mm, Height: 75 * mm},
		},
		Materials: []recipe.Material{
			{Name: "sodium hydroxide", Kind: recipe.AlkaliMaterial, Lot: "n1"},
			{Name: "Olive oil", Kind: recipe.OilMaterial, Oil: "olive", Lot: "o1"},
			{Name: "sea mica", Kind: recipe.ColourMaterial, Looks: "#2a6f7d"},
			{Name: "white", Kind: recipe.ColourMaterial, Looks: "#f7f5ef"},
			{Name: "sea air", Kind: recipe.FragranceMaterial, Limit: 8 * quantity.Percent},
			{Name: "rope", Kind: recipe.FragranceMaterial, Limit: 8 * quantity.Percent, Does: []recipe.Behaviour{recipe.Discolours}, Becomes: "brown"},
			{Name: "citric acid", Kind: recipe.AdditiveMaterial, Acid: 876 * quantity.GramPerKilo},
		},
	}
}

func wall() recipe.Recipe {
	return recipe.Recipe{
		Name: "Harbour wall", Loaves: 2,
		Batters: []recipe.Batter{{
			Name: "sea", Superfat: recipe.DefaultSuperfat, MixAt: recipe.DefaultMixAt,
			Oils: []recipe.OilShare{{Oil: "olive", Share: 70 * quantity.Percent}, {Oil: "Coconut Oil", Share: 30 * quantity.Percent}},
		}},
		Layers: []recipe.Layer{
			{Name: "base", Surface: 30 * mm, Colours: []recipe.Colour{{Material: "Sea-Mica", Rate: 4 * quantity.GramPerKilo}}},
			{Name: "sky", Surface: 60 * mm, Scents: []recipe.Scent{{Material: "SEA AIR", Rate: 3 * quantity.Percent}}},
		},
	}
}

// TestResolve holds a control recipe to the workshop's own names, to the
// defaults and to the values it freezes.
func TestResolve(t *testing.T) {
	master := wall()
	c, problems := Resolve(master, "text", harbour(), 0)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	if !reflect.DeepEqual(master, wall()) {
		t.Error("resolving has changed the recipe that it was given")
	}
	// SHA-256 of "text", from sha256sum (GNU coreutils).
	if want := "982d9e3eb996f559e633f4d194def3761d909f5a3b647d1a851fead67c32c9d1"; c.Hash != want {
		t.Errorf("hash %s", c.Hash)
	}
	r := c.Recipe
	if c.Loaves != 2 || r.Mould != "harbour loaf" || c.Mould.Length != 220*mm || r.Gel != recipe.GelLeft || r.Unmould != recipe.DefaultUnmould || c.LeftInVessel != 20*quantity.Gram {
		t.Errorf("%+v", c)
	}
	if b := r.Batters[0]; b.Oils[1].Oil != "coconut" || b.Alkali[0].Material != "sodium hydroxide" || b.Water != recipe.DefaultWater() {
		t.Errorf("batter %+v", b)
	}
	if l := r.Layers[0]; l.Batter != "sea" || l.Trace != recipe.Light || l.Colours[0].Material != "sea mica" || l.Colours[0].In != recipe.InBatter {
		t.Errorf("base %+v", l)
	}
	if s := r.Layers[1].Scents[0]; s.Material != "sea air" || s.Of != recipe.OfOils || s.Where != recipe.PlaceDerived {
		t.Errorf("scent %+v", s)
	}
	// Saponification value of olive oil 184 to 196 (Codex CXS 33, from memory).
	if o, _ := c.Oil("olive"); o.Name != "Olive oil" || o.Lot != "o1" || o.SV != (calc.Interval{Low: 184, Nominal: 190, High: 196}) || o.Hard {
		t.Errorf("olive %+v", o)
	}
	if o, _ := c.Oil("coconut"); o.Name != "Coconut oil" || o.Lot != "" || !o.Hard || o.Melts < 23 {
		t.Errorf("coconut %+v", o)
	}
	for _, name := range []string{"sodium hydroxide", "water", "sea mica", "sea air", "Olive oil"} {
		if _, ok := c.Material(name); !ok {
			t.Errorf("%q is not among the materials %+v", name, c.Materials)
		}
	}
	if _, ok := c.Material("rope"); ok || len(c.Materials) != 5 {
		t.Errorf("materials %+v", c.Materials)
	}
}

func TestResolveRefuses(t *testing.T) {
	c, problems := Resolve(wall(), "text", harbour(), 4)
	if len(problems) != 1 || !strings.Contains(problems[0].Text, "4 loaves need 4 moulds") || !reflect.DeepEqual(c, recipe.Control{}) {
		t.Errorf("four loaves in three moulds: %v, %+v", problems, c)
	}
	r := wall()
	r.Mould = "Quay Loaf"
	if c, problems := Resolve(r, "text", harbour(), 4); len(problems) != 1 || !problems[0].Warning || len(c.Warnings) != 1 || c.Loaves != 4 {
		t.Errorf("uncounted moulds: %v, %+v", problems, c)
	}
	if _, problems := Resolve(wall(), "\xff", harbour(), 0); len(problems) != 1 {
		t.Errorf("a text that JSON cannot hold: %v", problems)
	}
	if _, problems := Resolve(wall(), "text", harbour(), -1); len(problems) != 1 {
		t.Errorf("-1 loaves: %v", problems)
	}
	if problems := Recipe(recipe.Recipe{}, recipe.Workshop{}); len(problems) < 3 {
		t.Errorf("nothing at all: %v", problems)
	}
}

// TestOilWeight holds a fixed oil weight to the loaves that are made, and the
// height of shared layers to what the oils fill.
func TestOilWeight(t *testing.T) {
	r := wall()
	r.Layers[0].Surface, r.Layers[0].Share = 0, 40*quantity.Percent
	r.Layers[1].Surface, r.Layers[1].Share = 0, 60*quantity.Percent
	full, problems := Resolve(r, "", harbour(), 0)
	if len(problems) > 0 || full.Recipe.Height != 0 || full.Recipe.Layers[0].Surface != 26*mm || full.Recipe.Layers[1].Surface != 65*mm {
		t.Fatalf("shares of the mould's height: %v, %+v", problems, full.Recipe.Layers)
	}
	r.Batters[0].OilWeight = quantity.Kilogram
	var heights []quantity.Length
	for _, loaves := range []int{1, 2, 3} {
		c, problems := Resolve(r, "", harbour(), loaves)
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		if want := quantity.Kilogram * quantity.Mass(loaves) / 2; c.Recipe.Batters[0].OilWeight != want {
			t.Errorf("%d loaves: %v of oils, want %v", loaves, c.Recipe.Batters[0].OilWeight, want)
		}
		heights = append(heights, c.Recipe.Height)
	}
	// 500 g of oils a loaf make about 730 g of batter. Of two layers one loaf
	// leaves 3 × 20 g behind, two leave 7 × 20 g and three leave 9 × 20 g; the
	// rest stands on 15 400 mm².
	for i, left := range []float64{60, 70, 60} {
		if h := heights[i].Millimetres(); math.Abs(h-(730-left)/1.01/15.4) > 1 {
			t.Errorf("%d loaves: %v high", i+1, heights[i])
		}
	}
	r.Batters[0].OilWeight = 3 * quantity.Kilogram
	if problems := Recipe(r, harbour()); len(problems) != 1 || !strings.Contains(problems[0].Text, "more than 2 moulds") {
		t.Errorf("overfull: %v", problems)
	}
	r.Batters[0].OilWeight = 20 * quantity.Gram
	if problems := Recipe(r, harbour()); len(problems) != 1 || !strings.Contains(problems[0].Text, "too little") {
		t.Errorf("hardly any: %v", problems)
	}
}

// TestMixture holds the make-up of batter to figures of the trade.
func TestMixture(t *testing.T) {
	r := wall()
	r.Batters[0].Oils = []recipe.OilShare{{Oil: "olive", Share: 45 * quantity.Percent}, {Oil: "coconut", Share: 28 * quantity.Percent}, {Oil: "shea", Share: 20 * quantity.Percent}, {Oil: "castor", Share: 7 * quantity.Percent}}
	c := newChecker(r, harbour())
	c.run(2)
	if len(c.problems) > 0 {
		t.Fatal(c.problems)
	}
	m := c.control(2).Mixture(1)
	// Common practice, no source: 3 % of oils is 2.05 % of a usual fresh bar and
	// 2.33 % after 12 % loss.
	if got := 100 * calc.ScentShare(m.Scents[0], m.Total); math.Abs(got-2.05) > 0.03 {
		t.Errorf("fresh: %.3f %%", got)
	}
	if got := 100 * calc.ScentShareCured(m.Scents[0], m.Total, 0.12); math.Abs(got-2.33) > 0.03 {
		t.Errorf("cured: %.3f %%", got)
	}
	// Common practice, no source: 0.40 oz of oils in a cubic inch of mould,
	// within 5 %. 1 oz = 28.3495 g and 1 in³ = 16.3871 mL (16 CFR 500.19).
	ounces := m.GramsPerML / m.Total * 16.3871 / 28.3495
	if math.Abs(ounces/0.40-1) > 0.05 {
		t.Errorf("%.3f oz of oils in a cubic inch", ounces)
	}
}

// TestAcid holds citric acid to the alkali it uses up: 3 KOH for one molecule,
// 3 × 56.105 / 192.12 = 0.876 g of KOH a gram, which is 0.6245 g of NaOH.
func TestAcid(t *testing.T) {
	plain, sour := wall(), wall()
	sour.Batters[0].Additives = []recipe.Additive{{Material: "citric acid", Rate: 2 * quantity.Percent, In: recipe.InLyeWater}}
	a, b := newChecker(plain, harbour()), newChecker(sour, harbour())
	a.run(2)
	b.run(2)
	if got := b.control(2).Mixture(0).Alkali - a.control(2).Mixture(0).Alkali; math.Abs(got-0.02*0.6245) > 1e-5 {
		t.Errorf("2 %% of citric acid take %.5f g of sodium hydroxide a gram of oils", got)
	}
}

// TestScentLimit holds the rate that is offered as a remedy to being one, and
// the next hundredth of a per cent to being none.
func TestScentLimit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, r := harbour(), wall()
		limit := quantity.Ratio(rapid.IntRange(1, 60).Draw(t, "limit")) * quantity.Percent / 10
		w.Materials[4].Limit = limit
		s := &r.Layers[1].Scents[0]
		s.Of = rapid.SampledFrom([]recipe.RateOf{recipe.OfOils, recipe.OfBatter}).Draw(t, "of")
		s.Rate = 30 * quantity.Percent
		problems := Recipe(r, w)
		if len(problems) != 1 || problems[0].Warning {
			t.Fatal(problems)
		}
		_, most, _ := strings.Cut(problems[0].Text, "lower the rate to ")
		most, _, _ = strings.Cut(most, " of ")
		rate, err := quantity.ParseRatio(most)
		if err != nil {
			t.Fatal(err)
		}
		s.Rate = rate
		if problems := Recipe(r, w); rate > 0 && len(problems) > 0 {
			t.Fatalf("at %v: %v", rate, problems)
		}
		s.Rate = rate + quantity.Percent/100
		if problems := Recipe(r, w); len(problems) != 1 {
			t.Fatalf("at %v: %v", s.Rate, problems)
		}
	})
}

// TestBleeding warns beside what is pale, and only there.
func TestBleeding(t *testing.T) {
	for _, c := range []struct {
		base []recipe.Colour
		warn bool
	}{
		{nil, true},
		{[]recipe.Colour{{Material: "white", Rate: quantity.GramPerKilo}}, true},
		{[]recipe.Colour{{Material: "sea mica", Rate: quantity.GramPerKilo}}, false},
	} {
		r := wall()
		r.Layers[0].Colours = c.base
		r.Layers[1].Scents[0].Material = "rope"
		problems := Recipe(r, harbour())
		if got := len(problems) == 1 && problems[0].Warning && strings.Contains(problems[0].Text, "to brown"); got != c.warn {
			t.Errorf("%v: %v", c.base, problems)
		}
	}
}

// TestShares holds "add up" to the last millionth.
func TestShares(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := quantity.Ratio(rapid.Int64Range(1, int64(quantity.Whole)-1).Draw(t, "a"))
		off := quantity.Ratio(rapid.Int64Range(-2, 2).Draw(t, "off"))
		b := quantity.Whole - a + off
		if b <= 0 {
			t.Skip()
		}
		r := wall()
		r.Batters[0].Oils[0].Share, r.Batters[0].Oils[1].Share = a, b
		failed := false
		for _, p := range Recipe(r, harbour()) {
			failed = failed || p.Path == "batters[0].oils"
		}
		if failed != (off != 0) {
			t.Fatalf("%v + %v: failed is %v", a, b, failed)
		}
	})
}

// TestControlJSON holds a control recipe to coming out of the store as it went
// in, whatever the numbers in it.
func TestControlJSON(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := wall()
		a := quantity.Ratio(rapid.Int64Range(1, int64(quantity.Whole)-1).Draw(t, "a"))
		r.Batters[0].Oils[0].Share, r.Batters[0].Oils[1].Share = a, quantity.Whole-a
		r.Batters[0].Water.Value = rapid.Float64Range(0.26, 0.39).Draw(t, "water")
		r.Batters[0].MixAt = quantity.Temperature(rapid.Int64Range(20_000, 60_000).Draw(t, "mix at"))
		c, problems := Resolve(r, rapid.String().Draw(t, "text"), harbour(), rapid.IntRange(1, 3).Draw(t, "loaves"))
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		data, err := json.Marshal(c)
		if err != nil {
			t.Fatal(err)
		}
		var back recipe.Control
		if err := json.Unmarshal(data, &back); err != nil || !reflect.DeepEqual(c, back) {
			t.Fatalf("%v\n%+v\n%+v", err, c, back)
		}
	})
}
