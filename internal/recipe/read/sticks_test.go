package read

import (
	"strings"
	"testing"

	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/recipe/check"
)

const moonRecipe = `bench: 1
recipe: Moon over the mole
loaves: 3
mould: harbour loaf
batters: [{ name: sea, oils: { olive: 100 % } }]
layers:
  - { name: sea, surface: 50 mm, embeds: [{ name: moon, shape: circle 20 mm, across: 35 mm, sink: 35 mm }] }
`

// ownWorkshop is the built-in workshop with what is added.
func ownWorkshop(t *testing.T, more string) recipe.Workshop {
	t.Helper()
	own, _, problems := Workshop("own", []byte("bench: 1\nworkshop: Mole sheds\n"+more))
	for _, p := range problems {
		t.Fatal(p)
	}
	return recipe.Merge(builtinWorkshop(t), own)
}

func resolved(t *testing.T, text string, w recipe.Workshop) (recipe.Control, []recipe.Problem) {
	t.Helper()
	r, _, problems := Recipe("moon", []byte(text))
	for _, p := range problems {
		t.Fatal(p)
	}
	return check.Resolve(r, text, w, 0)
}

func TestSticksAreReadAndPlanned(t *testing.T) {
	w := ownWorkshop(t, `cutting: { bar: 25 mm, end trims: 10 mm, knife: 1 mm, first: fewest joins }
extruder: { stick: 320 mm, trim: 10 mm, capacity: 900 g, stays: 60 g, density: "1,05 g/mL" }
sticks:
  - { name: moon, lot: M-13, length: 305 mm, count: 2, made: 2026-11-10 }
  - { name: Moon, lot: M-12, length: 120 mm, count: 4, made: 2026-11-03 }
`)
	if s := w.SticksOf("moon"); len(s) != 2 || s[0].Lot != "M-12" || s[1].Length != 305*quantity.Millimetre {
		t.Errorf("%+v", s)
	}
	c, problems := resolved(t, moonRecipe, w)
	for _, p := range problems {
		if !p.Warning {
			t.Error(p.Text)
		}
	}
	if len(c.Sticks) != 1 || c.Sticks[0].Row("sea", "moon") != 1 || c.Sticks[0].Row("sea", "sun") != 0 {
		t.Fatalf("%+v", c.Sticks)
	}
	if p := c.Sticks[0].Plan; !p.Proven() || p.Fresh != 0 || len(p.Loaves) != 3 {
		t.Errorf("%+v", p)
	}
	if *c.Cutting.Knife != quantity.Millimetre || c.Extruder.Density != 1.05 || c.Extruder.Stays != 60*quantity.Gram {
		t.Errorf("%+v %+v", c.Cutting, c.Extruder)
	}
}

// TestWithoutSticksNothingIsPlanned keeps batches as they were for makers who
// state none.
func TestWithoutSticksNothingIsPlanned(t *testing.T) {
	if c, _ := resolved(t, moonRecipe, builtinWorkshop(t)); len(c.Sticks) != 0 {
		t.Errorf("%+v", c.Sticks)
	}
}

func TestTheRecipeCutsInItsOwnWay(t *testing.T) {
	w := ownWorkshop(t, "cutting: { bar: 30 mm, end trims: 8 mm }\n")
	c, _ := resolved(t, moonRecipe+"cutting: { bar: 22 mm, far end trim: 0 mm }\n", w)
	loaf := c.Cutting.Order(c.Mould.Length, 1, 1).Loaf
	if loaf.Bar != 22*quantity.Millimetre || loaf.Near != 8*quantity.Millimetre || loaf.Far != 0 {
		t.Errorf("%+v", loaf)
	}
}

func TestTooFewSticksAreSaid(t *testing.T) {
	for more, want := range map[string]string{
		"sticks: [{ name: moon, lot: M-1, length: 220 mm, count: 2 }]\n":                                                                 "1 loaf is without",
		"sticks: [{ name: moon, lot: M-1, length: 220 mm, count: 2 }]\nextruder: { stick: 320 mm }\n":                                    "1 stick is still to be made for moon",
		"sticks: [{ name: moon, lot: M-1, length: 55 mm, count: 12 }]\ncutting: { bar: 40 mm, end trims: 0 mm, minimum piece: 40 mm }\n": "not every join of moon can be hidden",
	} {
		_, problems := resolved(t, moonRecipe, ownWorkshop(t, more))
		found := false
		for _, p := range problems {
			found = found || p.Warning && strings.Contains(p.Text, want)
		}
		if !found {
			t.Errorf("%s: %+v", more, problems)
		}
	}
}

func TestBadSticks(t *testing.T) {
	for more, want := range map[string]string{
		"sticks: [{ name: moon, lot: M, length: 45 mm }]":                   "3:40: a stick of 45 mm is shorter than the shortest piece, 50 mm",
		"sticks: [{ name: moon, lot: M, length: 300 mm, made: yesterday }]": "is not a day",
		"sticks: [{ name: moon, length: 300 mm }]":                          "lot",
		"extruder: { density: 9 g/mL }":                                     "not the density of soap dough",
		"extruder: { capacity: 50 g, stays: 50 g }":                         "is all that it holds",
		"cutting: { bar: 20 mm, tolerance: 10 mm }":                         "half a bar or more",
		"cutting: { first: luck }":                                          "is not one of fewest sticks, fewest joins",
	} {
		_, _, problems := Workshop("w", []byte("bench: 1\nworkshop: Mole sheds\n"+more+"\n"))
		found := false
		for _, p := range problems {
			found = found || strings.Contains(p.Error(), want)
		}
		if !found {
			t.Errorf("%s: %v", more, problems)
		}
	}
	text := strings.Replace(moonRecipe, "embeds: [", "embeds: [{ name: sun, stick: moon, shape: circle 12 mm, across: 12 mm, sink: 35 mm }, ", 1)
	_, problems := resolved(t, text, builtinWorkshop(t))
	if len(problems) == 0 || !strings.Contains(problems[0].Text, "pieces of one stick") {
		t.Errorf("%+v", problems)
	}
}
