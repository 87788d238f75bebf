package read

import (
	"strings"
	"testing"

	"bench/internal/recipe"
	"bench/internal/recipe/check"
)

// own lays a maker's materials over the built-in workshop.
func own(t *testing.T, materials string) recipe.Workshop {
	t.Helper()
	return ownWorkshop(t, "materials:\n"+materials)
}

// in gives the problems of a batter of olive and coconut in a workshop.
func in(t *testing.T, w recipe.Workshop, batter string) string {
	t.Helper()
	doc := "bench: 1\nrecipe: Pier\nbatters:\n  - name: sea\n    oils: { olive: 70 %, coconut: 30 % }\n" + batter +
		"layers:\n  - { name: base, surface: 50 mm }\n"
	_, _, problems := CheckedRecipe("pier", []byte(doc), w)
	words := make([]string, len(problems))
	for i, p := range problems {
		words[i] = p.Error()
	}
	return strings.Join(words, "\n")
}

// A stock weaker than the lye solution that is wanted brings too much water, and
// so does an additive that is mostly water.
func TestTooMuchWaterIsBrought(t *testing.T) {
	weak := own(t, "  - { name: sodium hydroxide, kind: alkali, stock: 30 % }\n")
	if got := in(t, weak, ""); !strings.Contains(got, "bring more water than the recipe has") {
		t.Errorf("33 %% from a stock of 30 %%: %q", got)
	}
	if got := in(t, weak, "    water: 29 %\n"); got != "" {
		t.Errorf("29 %% from a stock of 30 %%: %q", got)
	}
	milk := own(t, "  - { name: goat milk, kind: additive, water: 87 % }\n")
	if got := in(t, milk, "    additives: [{ material: goat milk, rate: 40 % of oils, in: oils }]\n"); !strings.Contains(got, "bring more water") {
		t.Errorf("40 %% of milk: %q", got)
	}
	// The recipe's 33 % are left, but the jug would hold more than dissolves.
	if got := in(t, milk, "    additives: [{ material: goat milk, rate: 25 % of oils, in: oils }]\n"); !strings.Contains(got, "dissolves at 20 °C") {
		t.Errorf("25 %% of milk: %q", got)
	}
}

// Potassium hydroxide of a workshop that says nothing of it has no purity.
func TestPotassiumNeedsItsPurity(t *testing.T) {
	w := builtinWorkshop(t)
	for i := range w.Materials {
		if w.Materials[i].Name == recipe.PotassiumHydroxide {
			w.Materials[i].Name = "something else"
		}
	}
	if got := in(t, w, "    alkali: { potassium hydroxide: 100 % }\n"); !strings.Contains(got, "purity of potassium hydroxide must be stated") {
		t.Error(got)
	}
	if got := in(t, builtinWorkshop(t), "    alkali: { potassium hydroxide: 100 % }\n"); got != "" {
		t.Error(got)
	}
}

// A certificate's value takes the place of the published range.
func TestCertificateValue(t *testing.T) {
	for text, want := range map[string][3]float64{
		"190 mg/g":         {189.05, 190, 190.95}, // ± 0.5 %
		"190 ± 2 mg/g":     {188, 190, 192},
		"190 mg/g +- 1 %":  {188.1, 190, 191.9},
		"190,5 ± 1,5 mg/g": {189, 190.5, 192},
	} {
		w := own(t, "  - { name: olive oil, kind: oil, oil: olive, lot: 7-044, sv: \""+text+"\" }\n")
		data := "bench: 1\nrecipe: Pier\nbatters:\n  - { name: sea, oils: { olive: 100 % } }\nlayers:\n  - { name: base, surface: 50 mm }\n"
		r, _, _ := CheckedRecipe("pier", []byte(data), w)
		c, problems := check.Resolve(r, data, w, 1)
		use, ok := c.Oil("olive")
		if !ok || !use.Own || use.SVFrom != "your certificate of lot 7-044" {
			t.Fatalf("%s: %+v, %v", text, use, problems)
		}
		for i, got := range []float64{use.SV.Low, use.SV.Nominal, use.SV.High} {
			if got < want[i]-1e-6 || got > want[i]+1e-6 {
				t.Errorf("%s: %+v, want %v", text, use.SV, want)
			}
		}
	}
}
