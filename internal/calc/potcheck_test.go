package calc_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"bench/internal/calc"
)

// Invented figures: a pot of oils on a scale that reads to 1 g.
func pot() []calc.Candidate {
	return []calc.Candidate{
		{Name: "olive oil", Grams: 450, Tolerance: 1, In: true},
		{Name: "coconut oil", Grams: 300, Tolerance: 1, In: true},
		{Name: "castor oil", Grams: 52, Tolerance: 1, In: true},
		{Name: "shea butter", Grams: 80, Tolerance: 2, In: false},
		{Name: "mica", Grams: 2, Tolerance: 0.1, In: true},
	}
}

func TestWeighPot(t *testing.T) {
	const tare, expected = 500, 500 + 450 + 300 + 52 + 2
	one := func(kind calc.FaultKind, name string) []calc.Fault { return []calc.Fault{{kind, name}} }
	for _, c := range []struct {
		name  string
		gross float64
		kind  calc.PotKind
		want  [][]calc.Fault
	}{
		// Mica is too light to be seen missing or twice on this scale.
		{"as it should be", expected + 1, calc.AsExpected, [][]calc.Fault{one(calc.Twice, "mica"), one(calc.Missing, "mica")}},
		{"castor not in", expected - 52, calc.Explained, [][]calc.Fault{one(calc.Missing, "castor oil")}},
		{"olive twice", expected + 447, calc.Explained, [][]calc.Fault{one(calc.Twice, "olive oil")}},
		{"a lost tick", expected + 83, calc.Explained, [][]calc.Fault{one(calc.Unrecorded, "shea butter")}},
		{"two at once", expected - 352, calc.Ambiguous, [][]calc.Fault{
			{{calc.Missing, "coconut oil"}, {calc.Missing, "castor oil"}},
		}},
		{"nothing fits", expected - 111, calc.Unexplained, nil},
	} {
		got := calc.WeighPot(pot(), tare, c.gross, 1)
		same := slices.EqualFunc(got.Explanations, c.want, slices.Equal[[]calc.Fault])
		if got.Kind != c.kind || !same || got.Difference != c.gross-expected {
			t.Errorf("%s: got %+v, want kind %d and %v", c.name, got, c.kind, c.want)
		}
	}
}

// Two of one weight cannot be told apart, and are not.
func TestWeighPotSaysWhenItIsAmbiguous(t *testing.T) {
	candidates := append(pot(), calc.Candidate{Name: "avocado oil", Grams: 53, Tolerance: 1, In: true})
	got := calc.WeighPot(candidates, 0, 450+300+2+53, 1)
	want := [][]calc.Fault{{{calc.Missing, "castor oil"}}, {{calc.Missing, "avocado oil"}}}
	if got.Kind != calc.Ambiguous || !slices.EqualFunc(got.Explanations, want, slices.Equal[[]calc.Fault]) {
		t.Errorf("got %+v, want both, the nearer one first", got)
	}
}

// Whatever was planted is among what is named, with every weight off by as
// much as its tolerance allows; two faults at once are named where no single
// one fits.
func TestPlantedFaultIsAlwaysNamed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 12).Draw(t, "ingredients")
		var candidates []calc.Candidate
		for i := range n {
			candidates = append(candidates, calc.Candidate{
				Name:      string(rune('a' + i)),
				Grams:     rapid.Float64Range(1, 800).Draw(t, "grams"),
				Tolerance: rapid.Float64Range(0, 2).Draw(t, "tolerance"),
				In:        rapid.Bool().Draw(t, "in"),
			})
		}
		planted := make([]int, rapid.IntRange(0, 2).Draw(t, "faults"))
		for i := range planted {
			planted[i] = (rapid.IntRange(0, n/2-1).Draw(t, "at")*2 + i) % n
		}
		const scale = 1.0
		gross := 250 + rapid.Float64Range(-scale, scale).Draw(t, "reading")
		var faults []calc.Fault
		for i, c := range candidates {
			weigh := func() float64 {
				return max(0, c.Grams+c.Tolerance*rapid.Float64Range(-1, 1).Draw(t, "off"))
			}
			faulty := slices.Contains(planted, i)
			switch {
			case faulty && !c.In:
				gross += weigh()
				faults = append(faults, calc.Fault{calc.Unrecorded, c.Name})
			case faulty && rapid.Bool().Draw(t, "missing"):
				faults = append(faults, calc.Fault{calc.Missing, c.Name})
			case faulty:
				gross += weigh() + weigh()
				faults = append(faults, calc.Fault{calc.Twice, c.Name})
			case c.In:
				gross += weigh()
			}
		}
		got := calc.WeighPot(candidates, 250, gross, scale+1e-9)
		named := slices.ContainsFunc(got.Explanations, func(e []calc.Fault) bool { return slices.Equal(e, faults) })
		switch {
		case len(faults) == 0 && got.Kind != calc.AsExpected:
			t.Fatalf("nothing is wrong, got %+v", got)
		case len(faults) == 1 && !named:
			t.Fatalf("planted %v, got %+v", faults, got)
		case len(faults) == 2 && got.Kind == calc.Unexplained:
			t.Fatalf("planted %v, got %+v", faults, got)
		case len(faults) == 2 && len(got.Explanations) > 0 && len(got.Explanations[0]) == 2 && !named:
			t.Fatalf("planted %v, got %+v", faults, got)
		}
	})
}

// A pot of thirty ingredients, two of them missing: all pairs are tried.
func BenchmarkWeighPot(b *testing.B) {
	var candidates []calc.Candidate
	var gross float64
	for i := range 30 {
		candidates = append(candidates, calc.Candidate{Name: string(rune('a' + i)), Grams: 10 + float64(i*i), Tolerance: 0.1, In: true})
		gross += candidates[i].Grams
	}
	gross -= candidates[20].Grams + candidates[29].Grams
	b.ReportAllocs()
	for b.Loop() {
		calc.WeighPot(candidates, 0, gross, 0.1)
	}
}

// TestWeighPotPoursOut: of 1745 g in all (invented, the tare is 250) 400 went out, so it
// should weigh 1345; the next 410 that are out without a fact leave 935, and the 400 that
// stayed after all 1745 (by hand).
func TestWeighPotPoursOut(t *testing.T) {
	candidates := []calc.Candidate{
		{Name: "loaf 1", Grams: 400, Tolerance: 1, In: true, Out: true},
		{Name: "loaf 2", Grams: 410, Tolerance: 8, Out: true},
	}
	for gross, want := range map[float64][]calc.Fault{
		1345: nil, 935: {{Kind: calc.PouredOut, Name: "loaf 2"}}, 928: {{Kind: calc.PouredOut, Name: "loaf 2"}}, 1745: {{Kind: calc.Stayed, Name: "loaf 1"}},
	} {
		got := calc.WeighPot(candidates, 1745, gross, 1)
		if want == nil && got.Kind != calc.AsExpected || want != nil && (got.Kind != calc.Explained || !slices.Equal(got.Explanations[0], want)) {
			t.Errorf("%g: %+v, want %v", gross, got, want)
		}
	}
}
