package read

import (
	"math"
	"strings"
	"testing"
	"testing/fstest"

	"bench/internal/form"
	"bench/internal/quantity"
	"bench/internal/recipe"
)

const gull = `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" width="3cm" height="12mm" viewBox="0 0 60 24">
  <defs><path id="hidden" d="M0 0H1V1Z"/></defs>
  <g><path d="M0 20 L30 4 L60 20 L30 16 Z"/></g>
</svg>`

// embedOf reads one embed in a recipe that has files beside it.
func embedOf(t *testing.T, embed string, files fstest.MapFS) (recipe.Embed, []Problem) {
	t.Helper()
	doc := "bench: 1\nrecipe: Gull\nbatters: [{ name: sea, oils: { olive: 100 % } }]\nlayers:\n" +
		"  - { name: sky, surface: 60 mm, embeds: [{ name: gull, across: 35 mm, sink: 30 mm, " + embed + " }] }\n"
	r, _, problems := CheckedRecipe("gull.yaml", []byte(doc), builtinWorkshop(t), files)
	if len(r.Layers) == 0 || len(r.Layers[0].Embeds) == 0 {
		t.Fatal(problems)
	}
	return r.Layers[0].Embeds[0], problems
}

// A drawing comes in at the size that it states or is given, with up up, and is
// kept in the recipe, path and corners.
func TestDrawingsBesideTheRecipe(t *testing.T) {
	files := fstest.MapFS{"birds/gull.svg": {Data: []byte(gull)}}
	for _, c := range []struct {
		embed         string
		width, height float64
	}{
		{"shape: path, file: birds/gull.svg", 30, 8},
		{"shape: path, file: birds/gull.svg, width: 45 mm", 45, 12},
		{"shape: path, file: birds/gull.svg, height: 4 mm", 15, 4},
		{"shape: path, path: M0 20 L30 4 L60 20 L30 16 Z", 60, 16},
		{"shape: polygon, points: [0 x 0 mm, 30 x 8 mm, 6 cm x 0 mm]", 60, 8},
	} {
		e, problems := embedOf(t, c.embed, files)
		for _, p := range problems {
			if !p.Warning {
				t.Errorf("%s: %v", c.embed, p)
			}
		}
		if e.Width != quantity.FromMillimetres(c.width) || e.Height != quantity.FromMillimetres(c.height) {
			t.Errorf("%s: %s by %s", c.embed, e.Width, e.Height)
		}
		if e.Shape == recipe.PathShape && e.Path != "M0 20 L30 4 L60 20 L30 16 Z" {
			t.Errorf("%s: the path is not kept: %q", c.embed, e.Path)
		}
		o := e.Outline(60 * quantity.Millimetre)
		left, bottom, right, top := o.Box()
		if math.Abs((left+right)/2-35) > 1e-9 || math.Abs(bottom-30) > 1e-9 || math.Abs(top-bottom-c.height) > 1e-3 {
			t.Errorf("%s: lies at %g to %g, %g to %g", c.embed, left, right, bottom, top)
		}
		if e.Shape == recipe.PathShape {
			high := o.Boundary()[0]
			for _, q := range o.Boundary() {
				if q.Y > high.Y {
					high = q
				}
			}
			if math.Abs(high.X-35) > 1e-9 {
				t.Errorf("%s: its tip points down", c.embed)
			}
		}
	}
}

// Mirrored about the middle and turned a quarter, a hook keeps its area, and its
// point goes where it should.
func TestTurnedAndMirrored(t *testing.T) {
	const hook = "shape: polygon, points: [0 x 0 mm, 20 x 0 mm, 0 x 8 mm]"
	tip := func(e recipe.Embed) (x, y float64) {
		o := e.Outline(60 * quantity.Millimetre)
		for _, q := range o.Boundary() {
			if d := math.Hypot(q.X-35, q.Y-30); d > math.Hypot(x-35, y-30) || x == 0 {
				x, y = q.X, q.Y
			}
		}
		return x, y
	}
	for _, c := range []struct {
		how  string
		x, y float64 // where its long, thin corner ends up, or the one above it
	}{
		{"", 25, 38},
		{", mirror: yes", 45, 38},
		{", turn: 90°", 39, 50},
		{", turn: 270°", 31, 50},
		{", turn: 180°", 45, 38},
	} {
		e, problems := embedOf(t, hook+c.how, nil)
		for _, p := range problems {
			if !p.Warning {
				t.Fatal(c.how, p)
			}
		}
		x, y := tip(e)
		if math.Hypot(x-c.x, y-c.y) > 1e-9 {
			t.Errorf("%q: the furthest corner is at %.3f, %.3f, not at %g, %g", c.how, x, y, c.x, c.y)
		}
		if math.Abs(e.Area()-80) > 1e-9 {
			t.Errorf("%q: area %g", c.how, e.Area())
		}
	}
}

// Without a folder there are no drawings, and nothing is read outside it.
func TestDrawingsOutOfReach(t *testing.T) {
	for name, files := range map[string]fstest.MapFS{
		"no folder": nil,
		"too large": {"gull.svg": {Data: []byte(strings.Repeat(" ", maxSVG+1))}},
		"not XML":   {"gull.svg": {Data: []byte("M0 0H1V1Z")}},
		"HTML":      {"gull.svg": {Data: []byte("<html><path d='M0 0H1V1Z'/></html>")}},
		"no path":   {"gull.svg": {Data: []byte("<svg width='10mm'></svg>")}},
		"stretched": {"gull.svg": {Data: []byte("<svg width='10mm' height='30mm' viewBox='0 0 10 10'><path d='M0 0H9V9Z'/></svg>")}},
		"entities":  {"gull.svg": {Data: []byte("<!DOCTYPE svg [<!ENTITY a 'M0 0'>]><svg width='10mm'><path d='&a;H9V9Z'/></svg>")}},
	} {
		doc := "shape: path, file: gull.svg"
		var problems []Problem
		if files == nil {
			_, _, problems = Recipe("gull.yaml", []byte("bench: 1\nrecipe: Gull\nbatters: [{ name: sea, oils: { olive: 100 % } }]\nlayers: [{ name: sky, surface: 60 mm, embeds: [{ name: gull, across: 35 mm, sink: 30 mm, "+doc+" }] }]\n"))
		} else {
			_, problems = embedOf(t, doc, files)
		}
		if len(problems) != 1 || problems[0].Warning || !strings.Contains(problems[0].Text, `"gull.svg"`) {
			t.Errorf("%s: %v", name, problems)
		} else {
			t.Log(name, problems[0])
		}
	}
}

// What a unit is comes from the size in units of length, or is not known.
func TestUnitsOfDrawings(t *testing.T) {
	for text, want := range map[string]float64{
		"width='30mm' viewBox='0 0 60 24'":                0.5,
		"width='1in' height='1in' viewBox='0,0,96,96'":    25.4 / 96,
		"height='72pt' viewBox='0 0 10 254'":              0.1,
		"width='30mm'":                                    25.4 / 96, // CSS: a pixel is 1/96 in
		"width='30' height='12' viewBox='0 0 30 12'":      0,
		"width='100%' viewBox='0 0 30 12'":                0,
		"width='113.4px' height='45px' viewBox='0 0 3 1'": 0,
	} {
		_, unit, err := parseSVG([]byte("<svg " + text + "><path d='M0 0H9V9Z'/></svg>"))
		if err != nil || math.Abs(unit-want) > 1e-12 {
			t.Errorf("%s: %g, %v, want %g", text, unit, err, want)
		}
	}
}

// FuzzDrawing holds the reading of drawings to ending, and to problems fit to be
// shown; what is accepted bounds some soap.
func FuzzDrawing(f *testing.F) {
	f.Add([]byte(gull))
	f.Add([]byte("<svg><path d='M0 10A10 10 0 0 1 20 10A10 10 0 0 1 0 10Z'/></svg>"))
	w := builtinWorkshop(f)
	const doc = "bench: 1\nrecipe: Gull\nbatters: [{ name: sea, oils: { olive: 100 % } }]\nlayers: [{ name: sky, surface: 60 mm, embeds: [{ name: gull, across: 35 mm, sink: 30 mm, shape: path, file: a.svg, width: 30 mm }] }]\n"
	f.Fuzz(func(t *testing.T, data []byte) {
		r, _, problems := CheckedRecipe("x.yaml", []byte(doc), w, fstest.MapFS{"a.svg": {Data: data}})
		bounded(t, problems)
		if Failed(problems) {
			return
		}
		e := r.Layers[0].Embeds[0]
		if at, crosses := form.Crossing(form.Polygon(e.Outline(0).Boundary())); crosses || !(e.Area() >= 0.99) {
			t.Fatalf("accepted with an area of %g, crossing %t at %v", e.Area(), crosses, at)
		}
	})
}
