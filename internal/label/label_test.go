package label_test

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/label"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/recipe/check"
	"bench/internal/recipe/read"
	"bench/internal/sample"
	"bench/internal/steps"
	"bench/internal/timer"
)

// control resolves a recipe text.
func control(t *testing.T, text string, w recipe.Workshop) recipe.Control {
	t.Helper()
	r, _, problems := read.CheckedRecipe("pier.yaml", []byte(text), w)
	if read.Failed(problems) {
		t.Fatal(problems)
	}
	c, _ := check.Resolve(r, text, w, 0)
	return c
}

const pier = `bench: 1
recipe: Pier
label: { keeps: 24 months }
batters:
  - name: sea
    oils: { olive: 70 %, coconut: 30 % }
    additives: [{ material: sodium lactate, rate: 0.5 % of oils, in: lye water }]
layers:
  - name: all
    surface: 60 mm
    colours: [{ material: titanium dioxide, rate: 20 g/kg }]
    scents: [{ material: sea air, rate: RATE of batter }]
    embeds: [{ name: moon, shape: circle 20 mm, dough: harbour dough, across: 35 mm, sink: 40 mm }]
top: { toppings: [{ material: gold mica, per loaf: 0.3 g }] }
`

func of(t *testing.T, text string, o label.Options) label.Label {
	t.Helper()
	if o.Workshop.Name == "" {
		o.Workshop = sample.Workshop(t)
	}
	s := batch.State{Control: control(t, text, o.Workshop)}
	return label.Of("", steps.Of(s), s, o)
}

func names(l label.Label) string {
	var list []string
	for _, g := range l.Ingredients {
		list = append(list, g.Name)
	}
	return strings.Join(list, ", ")
}

// What went in: the weights of the recipe by hand are olive 70 and coconut 30
// of 100 oils, water about 29 at 33 %, sodium hydroxide about 14; the dough's
// castor and titanium dioxide come with the embed, the mica with the topping.
// Colours stand last though titanium dioxide is over 1 %.
func TestOrderAsMade(t *testing.T) {
	l := of(t, strings.Replace(pier, "RATE", "2 %", 1), label.Options{Market: label.EU, As: label.AsMade})
	want := "Olea Europaea Fruit Oil, Cocos Nucifera Oil, Aqua, Sodium Hydroxide, Parfum, Sodium Lactate, Ricinus Communis Seed Oil, Mica, Limonene, "
	got := names(l)
	if !strings.HasPrefix(got, "Olea Europaea Fruit Oil, ") || !strings.HasSuffix(got, ", CI 77891, CI 77491") {
		t.Errorf("%s", got)
	}
	for name := range strings.SplitSeq(strings.TrimSuffix(want, ", "), ", ") {
		if !strings.Contains(got, name) {
			t.Errorf("%s is missing in %s", name, got)
		}
	}
	descending(t, l)
}

func descending(t *testing.T, l label.Label) {
	t.Helper()
	colours := false
	for i, g := range l.Ingredients {
		if colours && !g.Colour {
			t.Errorf("%s stands behind the colours", g.Name)
		}
		colours = colours || g.Colour
		if i > 0 && !g.Colour && g.Share > 0.01 && g.Grams > l.Ingredients[i-1].Grams {
			t.Errorf("%s is heavier than %s before it", g.Name, l.Ingredients[i-1].Name)
		}
	}
}

// Soaps of published stoichiometry. Triolein (SV 190.1 mg/g by its molar mass
// 885.4, from memory) gives 304.4 g/mol of sodium oleate; here by mass: what
// goes in comes out, glycerol is SV/56.105/3 × 92.094, and 1 kg of a fat of SV
// 192 frees 105 g (../shared: regulation notes, computed).
func TestSoapsKeepMass(t *testing.T) {
	const olive, coconut, stearic, soda, potash = 500.0, 300.0, 50.0, 60.0, 70.0
	naoh, koh, left, glycerol, water := label.Soaps(map[string]float64{"olive": olive, "coconut": coconut, "stearic_acid": stearic}, soda, potash)
	if in, out := olive+coconut+stearic+soda+potash, naoh+koh+left+glycerol+water; math.Abs(in-out) > 0.02 {
		t.Errorf("%.3f g went in, %.3f g came out", in, out)
	}
	if left <= 0 || water <= 0 {
		t.Errorf("%.2f g of oil left, %.2f g of water from the acid", left, water)
	}
	if g := 1000 * 192 / 56.105 / 3 * label.MolarGlycerol / 1000; math.Abs(g-105) > 0.2 {
		t.Errorf("%.2f g of glycerol", g)
	}
	// Enough alkali: 1 kg of olive at the middle of its range leaves nothing.
	_, _, left, glycerol, _ = label.Soaps(map[string]float64{"olive": 1000}, 200, 0)
	if left != 0 || math.Abs(glycerol-1000*189.5/56105/3*92.094*1) > 1.5 {
		t.Errorf("%.2f g left, %.2f g glycerol", left, glycerol)
	}
}

// TestFreeAlkali: 1 kg of olive oil at the middle of its range (SV 190 mg/g: Codex STAN 33 has 184 to 196, from memory)
// takes 190/56.105 × 39.997 = 135.4 g of sodium hydroxide (molar masses: CIAAW, from
// memory); of 145.1 g 10 g are free, and are named on the list.
func TestFreeAlkali(t *testing.T) {
	soda, potash := label.Free(145.4, 0)
	if math.Abs(soda-10) > 0.1 || potash != 0 {
		t.Errorf("%.2f g and %.2f g are free", soda, potash)
	}
	if soda, potash = label.Free(135.0, 0); soda != 0 || potash != 0 {
		t.Errorf("of too little %.2f g and %.2f g are free", soda, potash)
	}
	if soda, potash = label.Free(0, 200); math.Abs(potash-10) > 0.1 || soda != 0 {
		t.Errorf("%.2f g of potassium hydroxide are free, and %.2f g of the other", potash, soda)
	}
	w := sample.Workshop(t)
	b := sample.Begin(control(t, strings.Replace(pier, "RATE", "2 %", 1), w))
	if got := names(label.Of("26C02A", b.Plan(), b.State, label.Options{Market: label.EU, As: label.AsSaponified, Workshop: w})); strings.Contains(got, "Hydroxide") {
		t.Errorf("as asked: %s", got)
	}
	b.Put(batch.Weighed{Task: "sea/sodium hydroxide", Material: "sodium hydroxide", Mass: 400 * quantity.Gram, How: batch.Typed})
	if got := names(label.Of("26C02A", b.Plan(), b.State, label.Options{Market: label.EU, As: label.AsSaponified, Workshop: w})); !strings.Contains(got, "Sodium Hydroxide") {
		t.Errorf("too much alkali: %s", got)
	}
}

func TestAsSaponified(t *testing.T) {
	l := of(t, strings.Replace(pier, "RATE", "2 %", 1), label.Options{Market: label.EU, As: label.AsSaponified})
	got := names(l)
	for _, want := range []string{"Sodium Olivate", "Sodium Cocoate", "Sodium Castorate", "Glycerin", "Aqua", "Olea Europaea Fruit Oil"} {
		if !strings.Contains(got, want) {
			t.Errorf("%s is missing in %s", want, got)
		}
	}
	if strings.Contains(got, "Hydroxide") {
		t.Errorf("the alkali is used up: %s", got)
	}
	descending(t, l)
}

// The threshold is 0.01 % of the finished bar. Sea air holds 2.2 % of limonene
// and is 0.4 % of this batter: 0.0088 % fresh, and 0.0104 % once the bar has
// lost 15 %. The embed takes a few percent of the bar, so 0.45 % is over and
// 0.35 % is under (0.0091 %).
func TestAllergenThreshold(t *testing.T) {
	for rate, want := range map[string]bool{"0.35 %": false, "0.45 %": true} {
		l := of(t, strings.Replace(pier, "RATE", rate, 1), label.Options{Market: label.EU, As: label.AsMade})
		if got := strings.Contains(names(l), "Limonene"); got != want {
			t.Errorf("%s of sea air: named is %v", rate, got)
		}
	}
	if l := of(t, strings.Replace(pier, "RATE", "2 %", 1), label.Options{Market: label.US, As: label.AsMade}); strings.Contains(names(l), "Limonene") || !strings.Contains(names(l), "Fragrance") {
		t.Errorf("in the USA: %s", names(l))
	}
}

// The maker's own name takes the mark away; so does --checked.
func TestVerify(t *testing.T) {
	text := strings.Replace(pier, "RATE", "2 %", 1)
	plain := of(t, text, label.Options{Market: label.EU, As: label.AsMade})
	if !strings.Contains(plain.Plainly(), "Olea Europaea Fruit Oil (verify)") || len(plain.Open) == 0 {
		t.Errorf("%s", plain.Plainly())
	}
	w := sample.Workshop(t)
	i := slices.IndexFunc(w.Materials, func(m recipe.Material) bool { return m.Name == "olive oil" })
	w.Materials[i].INCI = "Olea Europaea Fruit Oil"
	if own := of(t, text, label.Options{Market: label.EU, As: label.AsMade, Workshop: w}).Plainly(); strings.Contains(own, "Fruit Oil (verify)") {
		t.Errorf("%s", own)
	}
	if checked := of(t, text, label.Options{Market: label.EU, As: label.AsMade, Checked: true}).Plainly(); strings.Contains(checked, "verify") {
		t.Errorf("%s", checked)
	}
}

func TestOpenPointsAreSaid(t *testing.T) {
	text := strings.Replace(strings.Replace(pier, "RATE", "2 %", 1), "dough: harbour dough, ", "", 1)
	l := of(t, text, label.Options{Market: label.UK, As: label.AsMade})
	all := strings.Join(l.Open, "\n") + strings.Join(l.Notes, "\n")
	for _, want := range []string{"what moon is made of is not stated", "who answers for the soap", "this is a forecast", "safety assessment", "SCPN"} {
		if !strings.Contains(all, want) {
			t.Errorf("nothing says %q", want)
		}
	}
}

// 16 CFR 500.19: 1 oz is 28.3495 g; both figures are rounded down.
func TestUSWeight(t *testing.T) {
	for nominal, want := range map[quantity.Mass]string{
		120 * g: "NET WT 4.2 OZ (119 g)", 85 * g: "NET WT 2.9 OZ (82 g)", 454 * g: "NET WT 16 OZ (1 LB 0 OZ) (453 g)", 500 * g: "NET WT 17.6 OZ (1 LB 1.6 OZ) (498 g)",
	} {
		if got := label.USWeight(nominal); got != want {
			t.Errorf("%v: %s, want %s", nominal, got, want)
		}
	}
}

// The end of the printed month is never later than the day that was meant.
func TestDurability(t *testing.T) {
	made := time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)
	for _, c := range []struct {
		words recipe.LabelWords
		want  label.Durability
	}{
		{recipe.LabelWords{Keeps: 24}, label.Durability{Words: "Best before end: 02/2028"}},
		{recipe.LabelWords{Keeps: 30, AfterOpening: 12}, label.Durability{Words: "Best before end: 08/2028"}},
		{recipe.LabelWords{Keeps: 31, AfterOpening: 12}, label.Durability{Months: 12}},
		{recipe.LabelWords{AfterOpening: 6}, label.Durability{Months: 6}},
		{recipe.LabelWords{}, label.Durability{}},
	} {
		if got := label.DurabilityOf(c.words, made); got != c.want {
			t.Errorf("%+v: %+v, want %+v", c.words, got, c.want)
		}
	}
}

// A batch brings its code and the weights of its bars; cured ones go before
// fresh ones, and both give the loss.
func TestBatch(t *testing.T) {
	w := sample.Workshop(t)
	c := control(t, strings.Replace(pier, "RATE", "2 %", 1), w)
	var s batch.State
	at := time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)
	for i, f := range []batch.Fact{
		batch.Started{Control: c},
		batch.BarsCut{Task: "cut/loaf 1", Loaf: 1, Bars: 3, Planned: 8},
		batch.BarsWeighed{Task: "bars/loaf 1", Count: 3, Mass: 330 * g, Reads: g / 10},
		batch.BarsWeighed{Task: "test/weight", Count: 1, Mass: 99 * g, Reads: g / 10},
		batch.BarsWeighed{Task: "test/weight", Count: 1, Mass: 100 * g, Reads: g / 10},
		batch.BarsWeighed{Task: "test/weight", Count: 1, Mass: 98_500, Reads: g / 10},
	} {
		s = s.Apply(batch.Entry{Seq: i + 1, At: timer.Moment{Wall: at}, Fact: f})
	}
	l := label.Of("260302A", steps.Of(s), s, label.Options{Market: label.EU, As: label.AsMade, Workshop: w})
	if l.NetText != "99 g" || l.Batch != "260302A" || l.Durability.Words != "Best before end: 02/2028" || len(l.Net.Doubts) > 0 {
		t.Errorf("%q %q %+v %+v", l.NetText, l.Batch, l.Durability, l.Net)
	}
	fresh := label.Of("260302A", steps.Of(s), batch.Fold(s.Entries[:3]), label.Options{Market: label.EU, Workshop: w})
	if fresh.Net.Nominal != 93*g || len(fresh.Net.Doubts) != 2 { // 110 g less 15 %, weighed together, and a forecast.
		t.Errorf("%+v", fresh.Net)
	}
	for words, l := range map[string]label.Label{"mean 93.5 g, spread not known.": fresh, "mean 99.2 g, spread 0.8 g.": l} {
		if notes := strings.Join(l.Notes, " "); !strings.Contains(notes, words) {
			t.Errorf("%q does not say %q", notes, words)
		}
	}
}
