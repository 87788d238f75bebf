package read

import (
	"strings"
	"testing"

	"bench/internal/recipe"
)

// Values that cannot be, each in the place of a sound one in a recipe that is
// otherwise whole: every one is an error that names the place and says what to do,
// and the rest of the recipe is read all the same.
func TestAbsurdValues(t *testing.T) {
	const sound = `bench: 1
recipe: Pier
unmould: 24 h
batters:
  - name: sea
    oils: { olive: 70 %, coconut: 30 % }
    oil weight: 500 g
    alkali: { sodium hydroxide: 100 % }
    superfat: 5 %
    water: 33 %
    mix at: 35 °C
layers:
  - name: base
    share: 100 %
    colours: [{ material: sea mica, rate: 4 g/kg }]
    scents: [{ material: sea air, rate: 3 % of oils }]
`
	w := builtinWorkshop(t)
	for i, m := range w.Materials {
		if m.Name == recipe.PotassiumHydroxide {
			w.Materials[i].Purity = 0 // A workshop of an earlier program may lack it.
		}
	}
	if _, _, problems := CheckedRecipe("pier", []byte(sound), w); Failed(problems) {
		t.Fatal(problems)
	}
	for _, c := range []struct{ sound, absurd, at, want string }{
		{"500 g", "-500 g", "7:17", "it cannot be negative"},
		{"500 g", "NaN g", "7:17", "a number is missing"},
		{"500 g", ".nan", "7:17", "a number is missing"},
		{"500 g", ".inf", "7:17", "a number is missing"},
		{"500 g", "-.inf", "7:17", "it cannot be negative"},
		{"500 g", "Infinity g", "7:17", "a number is missing"},
		{"500 g", "1000000000 kg", "7:17", "more than 1000 kg"},
		{"500 g", "1e9 kg", "7:17", "write the number without an exponent"},
		{"500 g", "0.1 mg", "7:17", "so little that nothing is left of it"},
		{"500 g", "0 g", "7:17", "must be above zero"},
		{"olive: 70 %", "olive: 69.9 %", "6:11", "add up to 99.9 %: 0.1 % is missing"},
		{"olive: 70 %", "olive: -70 %", "6:20", "it cannot be negative"},
		{"{ olive: 70 %, coconut: 30 % }", "{}", "6:11", "nothing is listed here"},
		{"{ olive: 70 %, coconut: 30 % }", "", "6:10", "is empty: give it a value"},
		{"{ sodium hydroxide: 100 % }", "{ potassium hydroxide: 100 % }", "8:15", "the purity of potassium hydroxide must be stated"},
		{"superfat: 5 %", "superfat: 100 %", "9:15", "leaves no alkali at all"},
		{"superfat: 5 %", "superfat: 1000000 %", "9:15", "more than 1000 %"},
		{"superfat: 5 %", "superfat: NaN", "9:15", "a number is missing"},
		{"superfat: 5 %", "superfat: -1 %", "9:15", "it cannot be negative"},
		{"water: 33 %", "water: 53 %", "10:12", "no more than 52.2 % dissolves at 20 °C: use more water"},
		{"water: 33 %", "water: 100 %", "10:12", "a lye concentration is below 100 %"},
		{"water: 33 %", "water: 0:1", "10:12", "neither side can be zero"},
		{"water: 33 %", "water: .inf", "10:12", "it is neither a share nor a ratio"},
		{"water: 33 %", "water: 1 % of oils", "10:12", "no more than 52.2 % dissolves"},
		{"35 °C", "-3 °C", "11:13", "it cannot be negative"},
		{"35 °C", "1000000000 °C", "11:13", "hotter than 250 °C"},
		{"35 °C", "NaN °C", "11:13", "a number is missing"},
		{"4 g/kg", "-4 g/kg", "15:43", "it cannot be negative"},
		{"4 g/kg", "0.0001 g/kg", "15:43", "so little that nothing is left of it"},
		{"3 % of oils", "NaN of oils", "16:41", "a number is missing"},
		{"3 % of oils", "100000 % of oils", "16:41", "more than 1000 %"},
		{"24 h", "1000000000 h", "3:10", "more than two years"},
		{"24 h", "-24 h", "3:10", "it cannot be negative"},
	} {
		doc := strings.Replace(sound, c.sound, c.absurd, 1)
		r, _, problems := CheckedRecipe("pier.yaml", []byte(doc), w)
		words := ""
		for _, p := range problems {
			words += p.Error() + "\n"
		}
		if !Failed(problems) || !strings.Contains(words, "pier.yaml:"+c.at+":") || !strings.Contains(words, c.want) {
			t.Errorf("%q in place of %q: want %q at %s, got\n%s", c.absurd, c.sound, c.want, c.at, words)
		}
		if r.Name != "Pier" || len(r.Layers) != 1 || r.Layers[0].Name != "base" {
			t.Errorf("%q: the rest of the recipe is lost: %+v", c.absurd, r)
		}
	}
}
