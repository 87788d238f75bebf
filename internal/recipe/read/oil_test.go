package read

import (
	"math"
	"strings"
	"testing"

	"bench/internal/recipe"
	"bench/internal/recipe/check"
)

// pier gives the control recipe of one batter in a workshop.
func pier(t *testing.T, w recipe.Workshop, batter string) recipe.Control {
	t.Helper()
	doc := "bench: 1\nrecipe: Pier\nbatters:\n  - name: sea\n" + batter + "layers:\n  - { name: base, surface: 50 mm }\n"
	r, _, problems := CheckedRecipe("pier", []byte(doc), w)
	c, more := check.Resolve(r, doc, w, 1)
	if c.Loaves == 0 {
		t.Fatal(problems, more)
	}
	return c
}

// An oil that the table does not have rests on the maker's own value alone. A
// value stated as sodium hydroxide is M(KOH)/M(NaOH) as much as potassium
// hydroxide: 56.105/39.997 (CIAAW).
func TestOilOutsideTheTable(t *testing.T) {
	for text, want := range map[string][3]float64{
		"135 mg/g NaOH":        {188.42, 189.37, 190.32}, // ± 0.5 %, by hand: 135 × 1.40273
		"133 to 143 mg/g NaOH": {186.56, 193.58, 200.59},
		"185 to 195 mg/g":      {185, 190, 195},
		"190 ± 2 mg/g KOH":     {188, 190, 192},
	} {
		w := own(t, "  - { name: Sea Buckthorn Oil, kind: oil, lot: 7-051, sv: \""+text+"\", melts: 25 °C }\n")
		c := pier(t, w, "    oils: { sea buckthorn oil: 60 %, olive: 40 % }\n")
		use, ok := c.Oil("sea buckthorn oil")
		if !ok || !use.Own || use.Name != "Sea Buckthorn Oil" || use.SVFrom != "your certificate of lot 7-051" || !use.Hard {
			t.Fatalf("%s: %+v", text, use)
		}
		for i, got := range []float64{use.SV.Low, use.SV.Nominal, use.SV.High} {
			if math.Abs(got-want[i]) > 0.01 {
				t.Errorf("%s: %+v, want %v", text, use.SV, want)
			}
		}
		if use.Density != 0.92 || !strings.Contains(use.DensityFrom, "assumed") {
			t.Errorf("%s: density %g, %q", text, use.Density, use.DensityFrom)
		}
	}
	w := own(t, "  - { name: tar oil, kind: oil, sv: 190 mg/g, density: 0.94 g/mL }\n  - { name: tar cream, kind: additive, oil: Tar Oil, oil share: 20 % }\n")
	c := pier(t, w, "    oils: { olive: 100 % }\n    additives: [{ material: tar cream, rate: 5 % of oils, in: oils }]\n")
	carried, ok := c.CarriedBy("tar cream", 50)
	if !ok || carried.Grams != 10 || carried.Oil.Density != 0.94 || carried.Oil.DensityFrom != "the workshop" {
		t.Errorf("the cream brings %+v", carried)
	}
}

// premelted is a blend of 60 % coconut and 40 % shea.
const premelted = "  - { name: mole blend, kind: premelted oils, lot: MB-3, made: 2 March, contains: { coconut: 60 %, shea butter: 40 % } }\n"

// By hand: of 30 % coconut and 15 % shea, the shea lets in 37.5 % of the blend,
// which brings 22.5 % of coconut; 7.5 % of coconut is left.
func TestPremeltedOils(t *testing.T) {
	c := pier(t, own(t, premelted), "    oils: { olive: 55 %, coconut: 30 %, shea: 15 % }\n    premelted: mole blend\n")
	b, _ := c.Recipe.Batter("sea")
	var got []string
	for _, o := range b.Oils {
		got = append(got, o.Oil+" "+o.Share.String())
	}
	if s := strings.Join(got, ", "); s != "mole blend 37.5 %, olive 55 %, coconut 7.5 %" {
		t.Errorf("the plan asks for %s", s)
	}
	use, _ := c.Oil("mole blend")
	// Codex CXS 210 and CXS 325R (second-hand): midpoints 256.5 and 177.5.
	if want := 0.6*256.5 + 0.4*177.5; math.Abs(use.SV.Nominal-want) > 1e-9 || use.Lot != "MB-3" || !use.Hard {
		t.Errorf("the blend is %+v, want a value of %g", use, want)
	}
	for _, bad := range []struct{ batter, want string }{
		{"    oils: { olive: 60 %, coconut: 40 % }\n    premelted: mole blend\n", `mole blend holds shea butter, and "sea" asks for none of it: ask for some`},
		{"    oils: { mole blend: 60 %, olive: 40 % }\n", `list the oils that are wanted, and say "premelted: mole blend" beside them`},
		{"    oils: { olive: 100 % }\n    premelted: quay blend\n", `no blend of premelted oils of the workshop is called "quay blend"`},
		{"    oils: { olive: 100 % }\n    premelted: driftwood\n", `driftwood is listed in the workshop as a fragrance`},
	} {
		doc := "bench: 1\nrecipe: Pier\nbatters:\n  - name: sea\n" + bad.batter + "layers:\n  - { name: base, surface: 50 mm }\n"
		_, _, problems := CheckedRecipe("pier", []byte(doc), own(t, premelted))
		words := ""
		for _, p := range problems {
			words += p.Error() + "\n"
		}
		if !strings.Contains(words, bad.want) {
			t.Errorf("%q gives %q, want %q", bad.batter, words, bad.want)
		}
	}
}

// A blend and the oils that it is made of take the same alkali.
func TestABlendTakesTheAlkaliOfItsOils(t *testing.T) {
	oils := "    oils: { olive: 55 %, coconut: 30 %, shea: 15 % }\n"
	plain, blended := pier(t, own(t, premelted), oils), pier(t, own(t, premelted), oils+"    premelted: mole blend\n")
	if a, b := plain.Mixture(0), blended.Mixture(0); math.Abs(a.Alkali-b.Alkali) > 1e-9 || math.Abs(a.GramsPerML-b.GramsPerML) > 1e-4 {
		t.Errorf("by oils %+v, by blend %+v", a, b)
	}
}
