package cut

import (
	"bufio"
	"encoding/json"
	"fmt"
	"os"
	"testing"

	"bench/internal/quantity"
)

// instance is a seeded order with the plan that cbc proved best; see
// testdata/cutting/README.md. Lengths are in micrometres.
type instance struct {
	Seed                         int
	First                        string
	Length, Bar, Near, Far, Wire quantity.Length
	Knife, Tolerance, Minimum    quantity.Length
	Loaves, Rows                 int
	Sticks                       []struct {
		Lot    int
		Length quantity.Length
		Count  int
	}
	Plan *struct {
		Sticks, Joins int
		Offcut        quantity.Length
	}
}

func (in instance) order() Order {
	o := Order{
		Loaf:   Loaf{Length: in.Length, Bar: in.Bar, Near: in.Near, Far: in.Far, Wire: in.Wire},
		Loaves: in.Loaves, Rows: in.Rows, Knife: in.Knife, Tolerance: in.Tolerance, Minimum: in.Minimum,
		JoinsFirst: in.First == "joins",
	}
	for _, s := range in.Sticks {
		o.Sticks = append(o.Sticks, Stick{Lot: fmt.Sprint("lot ", s.Lot), Length: s.Length, Count: s.Count})
	}
	return o
}

func instances(tb testing.TB) []instance {
	tb.Helper()
	file, err := os.Open("../../testdata/cutting/instances.json")
	if err != nil {
		tb.Fatal(err)
	}
	defer file.Close()
	var all []instance
	for lines := bufio.NewScanner(file); lines.Scan(); {
		var in instance
		if err := json.Unmarshal(lines.Bytes(), &in); err != nil {
			tb.Fatal(err)
		}
		all = append(all, in)
	}
	if len(all) < 200 {
		tb.Fatalf("only %d instances", len(all))
	}
	return all
}

// TestAgainstAnIndependentOptimiser holds sticks, joins and longest offcut to
// those of a general integer optimiser, on every instance.
func TestAgainstAnIndependentOptimiser(t *testing.T) {
	proven, possible := 0, 0
	for _, in := range instances(t) {
		o := in.order()
		p := solved(t, o)
		if in.Plan == nil {
			if p.Unmade == 0 && len(p.Shows) == 0 {
				t.Errorf("seed %d: a plan where there is none", in.Seed)
			}
			continue
		}
		possible++
		if p.Used != in.Plan.Sticks || p.Joins != in.Plan.Joins || p.Offcut != in.Plan.Offcut || p.Unmade > 0 || len(p.Shows) > 0 {
			t.Errorf("seed %d: %d sticks, %d joins, offcut %s; the optimiser has %d, %d, %s",
				in.Seed, p.Used, p.Joins, p.Offcut, in.Plan.Sticks, in.Plan.Joins, in.Plan.Offcut)
		}
		if p.Proven() {
			proven++
		}
	}
	t.Logf("%d of %d proven by bench itself", proven, possible)
	if proven < possible*95/100 {
		t.Errorf("only %d of %d proven", proven, possible)
	}
}

// BenchmarkInstances solves all instances once an iteration.
func BenchmarkInstances(b *testing.B) {
	all := instances(b)
	for b.Loop() {
		for _, in := range all {
			if _, err := Solve(in.order()); err != nil {
				b.Fatal(err)
			}
		}
	}
	b.ReportMetric(float64(b.Elapsed().Milliseconds())/float64(b.N)/float64(len(all)), "ms/instance")
}

// BenchmarkFortyLoaves solves 40 loaves with 4 rows each, from one lot and from
// three.
func BenchmarkFortyLoaves(b *testing.B) {
	for _, lots := range []int{1, 3} {
		b.Run(fmt.Sprintf("%d lots", lots), func(b *testing.B) {
			o := Order{
				Loaf:   Loaf{Length: 300 * quantity.Millimetre, Bar: 25 * quantity.Millimetre, Near: 5 * quantity.Millimetre, Far: 5 * quantity.Millimetre},
				Loaves: 40, Rows: 4, Tolerance: DefaultTolerance,
			}
			for lot := range lots {
				for _, mm := range []quantity.Length{237, 181} {
					o.Sticks = append(o.Sticks, Stick{Lot: fmt.Sprint(lot), Length: (mm + quantity.Length(lot)) * quantity.Millimetre, Count: 300 / lots})
				}
			}
			for b.Loop() {
				p, err := Solve(o)
				if err != nil || !p.Proven() {
					b.Fatal(err, p.Bound, p.Used, p.Joins, p.Offcut)
				}
			}
		})
	}
}
