package face

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"bench/internal/cut"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/sample"
	"bench/internal/scene"
)

// jointed gives the built-in lighthouse with a plan of moons that are shorter
// than the loaf.
func jointed(t *testing.T) recipe.Control {
	t.Helper()
	c := sample.Control(t, "lighthouse-at-dusk.yaml", 0)
	order := c.Cutting.Order(c.Mould.Along(), c.Loaves, 1)
	order.Sticks = []cut.Stick{{Length: 130 * quantity.Millimetre, Count: 8, Lot: "M1"}}
	plan, err := cut.Solve(order)
	if err != nil {
		t.Fatal(err)
	}
	c.Sticks = []recipe.StickPlan{{Stick: "moon", Embeds: []recipe.StickEmbed{{Layer: "base", Embed: "moon"}}, Plan: plan}}
	return c
}

// Every join that the picture shows lies on a line that the cutter takes, and
// the pieces fill the row from end to end.
func TestJoinsLieOnCuts(t *testing.T) {
	c := jointed(t)
	for loaf := range c.Loaves {
		drawn := CutOf(c, loaf)
		if len(drawn.Rows) != 1 || len(drawn.Rows[0].Pieces) < 2 {
			t.Fatalf("loaf %d has rows %+v", loaf+1, drawn.Rows)
		}
		end := 0.0
		for i, p := range drawn.Rows[0].Pieces {
			if p.From != end || p.Shows {
				t.Errorf("loaf %d: piece %s begins at %g, not at %g", loaf+1, p.Name, p.From, end)
			}
			if end = p.To; i == len(drawn.Rows[0].Pieces)-1 {
				break
			}
			near := math.Inf(1)
			for _, line := range drawn.Lines {
				near = min(near, math.Abs(line-p.To))
			}
			if near > 2 {
				t.Errorf("loaf %d: the join at %g mm is %g mm from a cut", loaf+1, p.To, near)
			}
		}
		if end != c.Mould.Length.Millimetres() {
			t.Errorf("loaf %d: the row ends at %g mm", loaf+1, end)
		}
	}
}

// TestSideEnds: the end pieces are said as the cutting list says them, without
// what the wire takes.
func TestSideEnds(t *testing.T) {
	c := jointed(t)
	near, far, wire := 8*quantity.Millimetre, 20*quantity.Millimetre, quantity.Millimetre/2
	c.Cutting.Near, c.Cutting.Far, c.Cutting.Wire = &near, &far, &wire
	drawn := CutOf(c, 0)
	n := float64(len(drawn.Bars))
	if drawn.Near != 8 || drawn.Rest != c.Loaf().Rest().Millimetres() ||
		math.Abs(drawn.Near+drawn.Rest+n*drawn.Bar+(n+1)*0.5-c.Mould.Length.Millimetres()) > 1e-9 {
		t.Errorf("%+v", drawn)
	}
	// Of 8.25 mm the list once made 8.2, and the picture 8.3.
	for _, near = range []quantity.Length{8 * quantity.Millimetre, 8250, 8350} {
		words := fmt.Sprintf("ends of %s and %s", strings.TrimSuffix(near.String(), " mm"), c.Loaf().Rest())
		if said := Designed(c).Side(CutOf(c, 0)); !slices.ContainsFunc(said.Labels, func(l scene.Label) bool { return strings.Contains(l.Text, words) }) {
			t.Errorf("it does not say %q", words)
		}
	}
}

// The side at its real size: the loaf's length and height, each cut where it is.
func TestSideIsToScale(t *testing.T) {
	c := jointed(t)
	s := Designed(c).Side(CutOf(c, 0))
	cuts := 0
	for _, shape := range s.Shapes {
		switch shape.Name {
		case "base":
			if w := shape.Points[1].X - shape.Points[0].X; w != 220 {
				t.Errorf("the loaf is %g mm long", w)
			}
		case "cut":
			if want := 5 + 25*float64(cuts); math.Abs(shape.Points[0].X-want) > 1e-9 {
				t.Errorf("cut %d is at %g mm, not at %g", cuts, shape.Points[0].X, want)
			}
			cuts++
		}
	}
	if cuts != 9 {
		t.Errorf("%d cuts part 8 bars", cuts)
	}
}
