package form_test

import (
	"math"
	"strings"
	"testing"

	"bench/internal/form"
	"bench/internal/near"
)

// areaOf reads a path and measures it.
func areaOf(t *testing.T, data string, tolerance float64) float64 {
	t.Helper()
	p, err := form.ParsePath(data)
	if err != nil {
		t.Fatalf("%q: %v", data, err)
	}
	return form.Area(p.Flatten(tolerance))
}

func TestPathAreas(t *testing.T) {
	for _, c := range []struct {
		name, data string
		want       float64
	}{
		{"lines", "M0 0 L30 0 L30 20 L0 20 Z", 600},
		{"relative lines", "m5,5 l30,0 0,20 -30,0z", 600},
		{"pairs after a move are lines", "M0 0 30 0 30 20 0 20Z", 600},
		{"level and upright", "M10 10H40V30H10Z", 600},
		{"level and upright, relative, several at once", "m10 10h20 10v10 10h-30z", 600},
		{"numbers run together", "M.5.5l30-0 0+20-30 0z", 600},
		{"exponents", "M1e1 1E1h3e1v2.e1h-30z", 600},
		{"closed by its last point", "M0 0L30 0L30 20L0 20L0 0", 600},
		{"the other way round", "M0 0V20H30V0Z", 600},
		// The area under a Bézier curve follows from Green's theorem: with the
		// chord, this cubic bounds 3/5 of 10 × 10, and the quadratic 2/3 of its triangle.
		{"cubic", "M0 0C0 10 10 10 10 0Z", 60},
		{"smooth cubic", "M0 0C0 10 10 10 10 0S20 -10 20 0L20 50 0 50Z", 1000},
		{"quadratic", "M0 0Q5 10 10 0Z", 100. / 3},
		{"smooth quadratic", "M0 0Q5 10 10 0T20 0V50H0Z", 1000},
		{"T after a line is a line", "M0 0H10T10 10Z", 50},
		{"S after a line begins straight", "M0 0H10S10 10 10 10Z", 50},
		{"circle of two arcs", "M0 10A10 10 0 0 1 20 10A10 10 0 0 1 0 10Z", 100 * math.Pi},
		{"flags run together", "M0 10a10 10 0 0120 0a10 10 0 01-20 0z", 100 * math.Pi},
		{"three quarters of a circle", "M10 0A10 10 0 1 1 0 -10L0 0Z", 75 * math.Pi},
		{"one quarter of it", "M10 0A10 10 0 0 0 0 -10L0 0Z", 25 * math.Pi},
		{"turned half ellipse", "M0 0A10 5 30 0 1 17.32050808 10Z", 25 * math.Pi},
		{"radii too small grow", "M0 0A1 1 0 0 1 20 0Z", 50 * math.Pi},
		{"a radius of zero is a line", "M0 0A0 5 0 0 1 20 0V10Z", 100},
		{"an arc to where it is draws nothing", "M0 0A5 5 0 0 1 0 0H20V10Z", 100},
	} {
		near.Share(t, c.name, areaOf(t, c.data, 1e-4), c.want, 5e-5)
	}
}

// Flattened sides stray from a circle by the tolerance at most, and the corners
// lie on it.
func TestFlattenKeepsWithinTolerance(t *testing.T) {
	circle := "M-20 0A20 20 0 0 1 20 0A20 20 0 0 1 -20 0Z"
	// Four cubics with this distance to their control points follow a circle to 0.03 % of its radius.
	cubics := strings.NewReplacer("k", "11.045694996").Replace("M20 0C20 k k 20 0 20C-k 20 -20 k -20 0C-20 -k -k -20 0 -20C k -20 20 -k 20 0Z")
	for _, c := range []struct {
		data string
		off  float64
	}{{circle, 1e-9}, {cubics, 20 * 3e-4}} {
		p, err := form.ParsePath(c.data)
		if err != nil {
			t.Fatal(err)
		}
		for _, tolerance := range []float64{1, 0.1, 0.01, 0.001} {
			corners := p.Flatten(tolerance)
			for i, a := range corners {
				b := corners[(i+1)%len(corners)]
				near.To(t, "corner", math.Hypot(a.X, a.Y), 20, c.off)
				if mid := math.Hypot((a.X+b.X)/2, (a.Y+b.Y)/2); 20-mid > tolerance+c.off {
					t.Errorf("a side of %s strays by %g, over %g", c.data, 20-mid, tolerance)
				}
			}
			if most := 3 * math.Pi / math.Acos(1-tolerance/20); float64(len(corners)) > most {
				t.Errorf("%d sides for a tolerance of %g: %g would do", len(corners), tolerance, most)
			}
		}
	}
}

func TestFlattenTurnsTheYAxisUp(t *testing.T) {
	p, err := form.ParsePath("M0 0L10 0L0 -20Z") // Its tip is at the top in SVG.
	if err != nil {
		t.Fatal(err)
	}
	_, bottom, _, top := p.Flatten(0.1).Box()
	near.To(t, "bottom", bottom, 0, 0)
	near.To(t, "top", top, 20, 0)
}

func TestBadPaths(t *testing.T) {
	for _, c := range []struct{ data, want string }{
		{"", "the path is empty"},
		{"  \n", "the path is empty"},
		{"L0 0Z", `at character 1 of the path: a path begins with M, not with 'L'`},
		{"Z", `a path begins with M`},
		{"M5 5", "it has one point only"},
		{"M0 0H10V10", "the outline is open: it ends at 10,10 and began at 0,0; end the path with Z"},
		{"M0 0H10V10ZM20 20H30V30Z", "at character 12 of the path: a second outline begins here"},
		{"M0 0H10V10Z l5 5", "at character 13 of the path: a second outline"},
		{"M0 0H10M5 5V10Z", "at character 8 of the path: a second outline"},
		{"M0 0X10Z", `at character 5 of the path: 'X' is no command`},
		{"M0 0H10V10;Z", `';' is no command`},
		{"M0 0HV10Z", "at character 6 of the path: a number is expected here"},
		{"M0 0L10,Z", "at character 9 of the path: a number is expected here"},
		{"M0 0L10,,5Z", "at character 9 of the path: a number is expected here"},
		{"M,0 0Z", "at character 2 of the path: a number is expected here"},
		{"M0 0L10 1e9Z", "at character 9 of the path: the number is larger than 1e+06"},
		{"M0 0L10 1e999Z", "a number is expected here"},
		{"M0 0h9e5h9e5Z", "further than 1e+06 from the origin"},
		{"M0 0A5 5 0 2 1 10 0Z", "at character 12 of the path: a flag of an arc is expected here, 0 or 1"},
		{"M0 0A5 5 0 0 1 10Z", "a number is expected here"},
		{"M0 0 L 1 NaN Z", "a number is expected here"},
		{strings.Repeat("M0 0", 20000), "longer than 65536 characters"},
	} {
		_, err := form.ParsePath(c.data)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%.40q: got %v, want %s", c.data, err, c.want)
		}
	}
}

func TestCrossing(t *testing.T) {
	for _, c := range []struct {
		name, data string
		want       bool
	}{
		{"square", "M0 0H10V10H0Z", false},
		{"bow tie", "M0 0L10 10V0L0 10Z", true},
		{"a corner touches a side", "M0 0H20V20H0V5L20 10 0 15Z", true},
		{"two corners touch", "M0 0L10 10 20 0V20L10 10 0 20Z", true},
		{"runs back over itself", "M0 0H10H5V10Z", true},
		{"a straight corner is none", "M0 0H5H10V10Z", false},
		{"star of five points, drawn in one go", "M0 20L12 -16 -19 6H19L-12 -16Z", true},
		{"gull", "M0 0Q5 10 10 2Q15 10 20 0Q15 6 10 -1Q5 6 0 0Z", false},
		{"loop in a curve", "M0 0C40 20 -20 20 20 0V-10H0Z", true},
		{"line and back", "M0 0H10Z", true},
	} {
		p, err := form.ParsePath(c.data)
		if err != nil {
			t.Fatal(err)
		}
		if at, got := form.Crossing(p.Flatten(0.01)); got != c.want {
			t.Errorf("%s: got %t at %v", c.name, got, at)
		}
	}
}

// Whatever the data, reading ends, and what is read has a polygon of finite
// corners with an area of zero or more.
func FuzzParsePath(f *testing.F) {
	for _, seed := range []string{
		"M0 0L30 0L30 20L0 20Z", "m.5.5l3-0 0+2-3 0z", "M0 10a10 10 0 0120 0a10 10 0 01-20 0z",
		"M0 0C0 10 10 10 10 0S20 -10 20 0Q1 2 3 4T5 6H7V8z", "M1e1,2e-3,", "M0 0A1e-9 1e6 45 1 0 1e-9 0Z", "M0 0A1e-2 1e6 0 002 0Z",
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, data string) {
		p, err := form.ParsePath(data)
		if err != nil {
			if strings.ContainsAny(err.Error(), "\n\x1b") {
				t.Fatalf("the error holds control characters: %q", err)
			}
			return
		}
		polygon := p.Flatten(1)
		size := 0.0
		for _, q := range polygon {
			size = max(size, math.Abs(q.X), math.Abs(q.Y))
			if !(math.Abs(q.X) < 1e8 && math.Abs(q.Y) < 1e8) {
				t.Fatalf("%q leads to %v", data, q)
			}
		}
		// What rounding leaves of a sliver grows with the square of its length.
		if a := form.Area(polygon); !(a >= -1e-3-1e-13*size*size) {
			t.Fatalf("%q has an area of %g", data, a)
		}
	})
}
