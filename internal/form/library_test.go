package form_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/peterstace/simplefeatures/geom"

	"bench/internal/form"
	"bench/internal/near"
)

// Against a general geometry library: 10,000 seeded outlines with a half-plane
// and a neighbour each. Areas and clipped areas agree to 1e-9 of the outline,
// and so does whether two overlap and whether an outline crosses itself.
func TestAgainstGeometryLibrary(t *testing.T) {
	random := rand.New(rand.NewPCG(20261125, 5))
	const most = 1e-9
	overlapping, crossing := 0, 0
	for i := range 10_000 {
		p, q := star(random), star(random)
		theirs := library(t, p)
		area := theirs.Area()
		near.Share(t, "area", form.Area(p), area, most)

		l := form.Line{At: 100*random.Float64() - 20, Slope: 2*random.Float64() - 1}
		clipped, err := geom.Intersection(theirs.AsGeometry(), under(t, l))
		if err != nil {
			t.Fatal(err)
		}
		near.To(t, "clipped area", p.Under(l).Area, clipped.Area(), most*area)

		other := library(t, q)
		want := geom.Intersects(theirs.AsGeometry(), other.AsGeometry())
		if got := form.Overlaps(p, q); got != want {
			t.Errorf("%d: overlap %t, the library says %t:\n%v\n%v", i, got, want, p, q)
		}
		if want {
			overlapping++
		}
		shuffled := form.NewPolygon(p)
		random.Shuffle(len(shuffled), func(i, j int) { shuffled[i], shuffled[j] = shuffled[j], shuffled[i] })
		simple := geom.NewLineString(sequence(shuffled)).IsSimple()
		if _, crosses := form.Crossing(shuffled); crosses == simple {
			t.Errorf("%d: crossing %t, the library calls it simple %t: %v", i, crosses, simple, shuffled)
		}
		if !simple {
			crossing++
		}
		if t.Failed() {
			return
		}
	}
	if overlapping < 2000 || overlapping > 8000 || crossing < 2000 || crossing > 9000 {
		t.Errorf("%d overlap and %d cross themselves: too one-sided to say much", overlapping, crossing)
	}
}

// star gives a polygon of 3 to 24 corners round some place in a mould. About
// half of them point inwards.
func star(random *rand.Rand) form.Polygon {
	n := 3 + random.IntN(4)
	if random.IntN(2) == 0 {
		n = 3 + random.IntN(22)
	}
	corners := make([]form.Point, n)
	x, y := 80*random.Float64(), 60*random.Float64()
	for i := range corners {
		sin, cos := math.Sincos(2 * math.Pi * (float64(i) + 0.8*random.Float64()) / float64(n))
		r := 2 + 28*random.Float64()
		corners[i] = form.Point{x + r*cos, y + r*sin}
	}
	return form.NewPolygon(corners)
}

// under is a half-plane as far as any outline here reaches.
func under(t *testing.T, l form.Line) geom.Geometry {
	t.Helper()
	const far = 1000
	return library(t, form.Polygon{{-far, -3 * far}, {far, -3 * far}, {far, l.Height(far)}, {-far, l.Height(-far)}}).AsGeometry()
}

func library(t *testing.T, p form.Polygon) geom.Polygon {
	t.Helper()
	polygon := geom.NewPolygon([]geom.LineString{geom.NewLineString(sequence(p))})
	if err := polygon.Validate(); err != nil {
		t.Fatalf("the library refuses %v: %v", p, err)
	}
	return polygon
}

// sequence gives the corners and the first once more, as the library has rings.
func sequence(p form.Polygon) geom.Sequence {
	var xy []float64
	for _, q := range append(p[:len(p):len(p)], p[0]) {
		xy = append(xy, q.X, q.Y)
	}
	return geom.NewSequence(xy, geom.DimXY)
}
