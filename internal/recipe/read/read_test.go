package read

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"bench/internal/calc"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/recipe/check"
	"bench/recipes"
)

const small = `bench: 1
recipe: Harbour wall
batters:
  - name: sea
    oils: { olive: 70 %, coconut: 30 % }
layers:
  - { name: base, surface: 60 mm }
`

// TestRecipe holds every field of a document to its place in the recipe.
func TestRecipe(t *testing.T) {
	got, source, problems := Recipe("wall.yaml", []byte(`bench: 1
recipe:  Harbour   wall
about: >
  Two lines
  of words.
loaves: 2
mould: quay loaf
height: 6 cm
gel: Prevented
unmould: 2 days
batters:
  - name: sea
    oils: {olive: "70 %", coconut: 30%}
    oil weight: 2 lb 4 oz
    superfat: 0 %
    alkali: {sodium hydroxide: 100 %}
    water: 2:1
    mix at: 95 °F
    additives: [{material: sodium lactate, rate: 1 % of oils, in: lye water}]
layers:
  - name: base
    batter: sea
    share: 45,5 %
    trace: emulsion
    colours: [{material: sea mica, rate: 4 g/kg of the oils, in: batter}]
    scents: [{material: sea air, rate: 2 % of batter, where: portions}]
    embeds:
      - {name: mole, shape: rectangle 1.5 x 2 in, across: 35 mm, sink: 6 mm}
      - {name: moon, shape: circle 30 mm, across: 35 mm, sink: 6 mm}
      - {name: keel, shape: Ellipse 4 cm × 24 mm, across: 35 mm, sink: 6 mm}
top: {texture: flat, toppings: [{material: gold mica, per loaf: 0.5 g}]}
`))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	want := recipe.Recipe{
		Name: "Harbour wall", About: "Two lines of words.", Loaves: 2, Mould: "quay loaf", Height: 60 * quantity.Millimetre,
		Gel: recipe.GelPrevented, Unmould: 48 * time.Hour,
		Batters: []recipe.Batter{{
			Name: "sea", OilWeight: 1_020_583, MixAt: 35 * quantity.Degree,
			Oils:      []recipe.OilShare{{Oil: "olive", Share: 70 * quantity.Percent}, {Oil: "coconut", Share: 30 * quantity.Percent}},
			Alkali:    recipe.DefaultAlkali(),
			Water:     calc.WaterRule{Kind: calc.ByWaterPerAlkali, Value: 2},
			Additives: []recipe.Additive{{Material: "sodium lactate", Rate: quantity.Percent, In: recipe.InLyeWater}},
		}},
		Layers: []recipe.Layer{{
			Name: "base", Batter: "sea", Share: 455_000, Trace: recipe.Emulsion,
			Colours: []recipe.Colour{{Material: "sea mica", Rate: 4_000, In: recipe.InBatter}},
			Scents:  []recipe.Scent{{Material: "sea air", Rate: 2 * quantity.Percent, Of: recipe.OfBatter, Where: recipe.InPortions}},
			Embeds: []recipe.Embed{
				{Name: "mole", Shape: recipe.Rectangle, Width: 38_100, Height: 50_800, Across: 35_000, Sink: 6_000},
				{Name: "moon", Shape: recipe.Circle, Width: 30_000, Height: 30_000, Across: 35_000, Sink: 6_000},
				{Name: "keel", Shape: recipe.Ellipse, Width: 40_000, Height: 24_000, Across: 35_000, Sink: 6_000},
			},
		}},
		Top: recipe.Top{Texture: "flat", Toppings: []recipe.Topping{{Material: "gold mica", PerLoaf: quantity.Gram / 2}}},
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got\n%+v\nwant\n%+v", got, want)
	}
	for path, at := range map[recipe.Path]string{
		"":                          "1:1",
		"mould":                     "7:8",
		"batters[0].oils[1]":        "13:27",
		"layers[0].embeds[1].sink":  "29:64",
		"layers[0].embeds[1].depth": "29:9", // The nearest that is there.
		"gone[3].name":              "1:1",
	} {
		p := source.Place([]recipe.Problem{{Path: path, Text: "x"}})
		if got := fmt.Sprintf("%d:%d", p[0].Line, p[0].Column); got != at {
			t.Errorf("%q lies at %s, want %s", path, got, at)
		}
	}
}

func TestDefaults(t *testing.T) {
	got, _, problems := Recipe("wall.yaml", []byte(small))
	b := got.Batters[0]
	if len(problems) > 0 || got.Loaves != 1 || got.Gel != recipe.GelLeft || got.Layers[0].Trace != recipe.Light ||
		b.Superfat != 5*quantity.Percent || b.Water.Value != 0.33 || b.MixAt != 35*quantity.Degree || b.Alkali[0].Material != recipe.SodiumHydroxide {
		t.Errorf("%v %+v", problems, got)
	}
}

func TestWater(t *testing.T) {
	for text, want := range map[string]calc.WaterRule{
		"33 %":         {Kind: calc.ByLyeConcentration, Value: 0.33},
		"2:1":          {Kind: calc.ByWaterPerAlkali, Value: 2},
		"2,5 : 1":      {Kind: calc.ByWaterPerAlkali, Value: 2.5},
		"4:2":          {Kind: calc.ByWaterPerAlkali, Value: 2},
		"30 % of oils": {Kind: calc.ByWaterOfOils, Value: 0.3},
	} {
		if got, err := parseWater(text); err != nil || got != want {
			t.Errorf("%q: %v, %v", text, got, err)
		}
	}
	for _, text := range []string{"", "33", "2", "0 %", "100 %", "0:1", "2:0", "1:2:3", "30 % of batter", "-2:1", "1e1:1"} {
		if got, err := parseWater(text); err == nil {
			t.Errorf("%q: %v, want an error", text, got)
		}
	}
}

// TestForeignText holds documents from other editors to the same places: line
// ends of two characters, a byte order mark, letters of several bytes.
func TestForeignText(t *testing.T) {
	text := strings.Replace(small, "recipe: Harbour wall", "recipe: Häfen 月 {x", 1)
	text = strings.Replace(text, "surface: 60 mm", "surface: 60", 1)
	for name, data := range map[string]string{
		"line ends": strings.ReplaceAll(text, "\n", "\r\n"),
		"mark":      "\ufeff" + text,
		"plain":     text,
	} {
		_, _, problems := Recipe("wall.yaml", []byte(data))
		if len(problems) != 1 || !strings.HasPrefix(problems[0].Error(), "wall.yaml:7:28: ") {
			t.Errorf("%s: %v", name, problems)
		}
	}
}

// TestFollowing keeps quiet about what only follows from a field that could not
// be read, and speaks of the rest.
func TestFollowing(t *testing.T) {
	text := strings.Replace(small, "olive: 70 %", "olive: 70", 1)
	text = strings.Replace(text, "layers:", "mould: nowhere\nlayers:", 1)
	_, _, problems := CheckedRecipe("wall.yaml", []byte(text), builtinWorkshop(t))
	if len(problems) != 2 || !strings.Contains(problems[0].Text, "the unit is missing") || !strings.Contains(problems[1].Text, "no mould") {
		t.Errorf("%v", problems)
	}
}

// hostile are documents that cost a careless reader its time or its stack.
func hostile() map[string]string {
	n := maxSize - 100
	return map[string]string{
		"open lists":     strings.Repeat("[", n),
		"open fields":    strings.Repeat("{", n),
		"open keys":      strings.Repeat("{a: ", n/4),
		"dashes":         strings.Repeat("- ", 2000),
		"many dashes":    strings.Repeat(strings.Repeat("- ", 2000)+"\n", n/4001),
		"questions":      strings.Repeat("? ", 2000),
		"staircase":      staircase(),
		"many lines":     strings.Repeat("a: 1\n", n/5),
		"many items":     "bench: 1\nlayers:\n" + strings.Repeat("  - {}\n", n/8),
		"quotes":         strings.Repeat("'", n),
		"comments":       strings.Repeat("#\n", n/2),
		"anchors":        strings.Repeat("- &a b\n", n/7),
		"aliases":        "a: &a [x]\nb: &b [*a,*a]\nc: &c [*b,*b]\n",
		"wide":           "a: " + strings.Repeat("x", n),
		"long words":     "bench: 1\nrecipe: " + strings.Repeat("w ", 2000) + "\n",
		"bad bytes":      strings.Repeat("\xff", n),
		"documents":      strings.Repeat("---\n", n/4),
		"too large":      strings.Repeat("# a\n", maxSize),
		"directives":     strings.Repeat("%YAML 1.1\n", 100),
		"block":          "a: |\n" + strings.Repeat("  b\n", n/4),
		"colons":         strings.Repeat("a:\n", n/3),
		"flow colons":    "{" + strings.Repeat("a,", n/2),
		"escaped quotes": `a: "` + strings.Repeat(`\"`, 1000),
	}
}

func staircase() string {
	var b strings.Builder
	for i := range 600 {
		b.WriteString(strings.Repeat(" ", i) + "a:\n")
	}
	return b.String()
}

// TestHostile holds each of them to at least one problem, bounded in number and
// length. That it ends at all is the test of time.
func TestHostile(t *testing.T) {
	for name, text := range hostile() {
		t.Run(name, func(t *testing.T) {
			start := time.Now()
			_, _, problems := Recipe("x.yaml", []byte(text))
			bounded(t, problems)
			if len(problems) == 0 {
				t.Error("nothing is found wrong")
			}
			_, _, problems = Workshop("x.yaml", []byte(text))
			bounded(t, problems)
			t.Log(time.Since(start))
		})
	}
}

func bounded(t *testing.T, problems []Problem) {
	t.Helper()
	if len(problems) > 2*maxProblems {
		t.Errorf("%d problems", len(problems))
	}
	for i, p := range problems {
		if len(p.Error()) > 1000 || strings.ContainsFunc(p.Error(), recipe.Unsafe) {
			t.Errorf("not fit to be shown: %.1000q", p.Error())
		}
		if p.Line < 1 || p.Column < 1 || p.Text == "" {
			t.Errorf("nowhere: %+v", p)
		}
		if i > 0 && (p.Line < problems[i-1].Line || p.Line == problems[i-1].Line && p.Column < problems[i-1].Column) {
			t.Errorf("out of order: %v after %v", p, problems[i-1])
		}
	}
}

func seeds(f *testing.F) {
	f.Helper()
	for _, file := range append(recipes.Files(), recipes.WorkshopFile) {
		data, err := fs.ReadFile(recipes.FS(), file)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	bad, err := filepath.Glob(filepath.Join(badFolder, "*.yaml"))
	if err != nil {
		f.Fatal(err)
	}
	for _, file := range bad {
		data, err := os.ReadFile(file)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
}

// FuzzRecipe holds the reader, the checks and the resolving to never failing,
// to problems fit to be shown, and to giving a control recipe exactly when
// nothing is wrong.
func FuzzRecipe(f *testing.F) {
	seeds(f)
	w := builtinWorkshop(f)
	f.Fuzz(func(t *testing.T, data []byte) {
		r, _, problems := CheckedRecipe("x.yaml", data, w)
		bounded(t, problems)
		c, more := check.Resolve(r, string(data), w, 0)
		if !Failed(problems) && c.Loaves == 0 {
			t.Fatalf("nothing is wrong with it, and it does not resolve: %v", more)
		}
		for _, l := range c.Recipe.Layers {
			if l.Surface <= 0 || l.Surface > c.Mould.Height || l.Trace == "" {
				t.Fatalf("a layer without a place: %+v", l)
			}
		}
	})
}

func FuzzWorkshop(f *testing.F) {
	seeds(f)
	builtin := builtinWorkshop(f)
	f.Fuzz(func(t *testing.T, data []byte) {
		w, _, problems := Workshop("x.yaml", data)
		bounded(t, problems)
		if Failed(problems) {
			return
		}
		r, _, _ := Recipe("wall.yaml", []byte(small))
		check.Recipe(r, recipe.Merge(builtin, w))
	})
}
