package curing_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/curing"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/timer"
)

const (
	g   = quantity.Gram
	day = 24 * time.Hour
)

var noon = time.Date(2026, 3, 3, 12, 0, 0, 0, time.UTC)

func at(d float64) timer.Moment {
	return timer.Moment{Wall: noon.Add(time.Duration(d * float64(day)))}
}

// told folds facts that were said on those days after the first cut.
func told(loaves int, facts ...any) batch.State {
	s := batch.State{}.Apply(batch.Entry{Seq: 1, At: at(-1), Fact: batch.Started{Control: recipe.Control{Loaves: loaves}}})
	for i := 0; i < len(facts); i += 2 {
		s = s.With(facts[i+1].(batch.Fact), at(facts[i].(float64)))
	}
	return s
}

func cut(loaf int) batch.BarsCut {
	return batch.BarsCut{Task: curing.CutTask(loaf), Loaf: loaf, Bars: 8, Planned: 8}
}

func weighed(bar string, m quantity.Mass) batch.WeighedIn {
	return batch.WeighedIn{Task: curing.BarTask(bar), Bar: bar, Mass: m, Reads: g / 10}
}

// TestCureCountsFromTheLastCut: not before every loaf is cut or left out.
func TestCureCountsFromTheLastCut(t *testing.T) {
	first := told(3, 0.0, cut(1), 0.1, cut(2))
	if c := curing.Of(first); !c.Cut.IsZero() || c.Bars != 16 {
		t.Errorf("%+v", c)
	}
	if words := curing.Of(first).Words(at(1), 0.3, time.UTC)[0]; words != "16 bars cut, and not all loaves yet: the cure counts from the last." {
		t.Error(words)
	}
	if words := curing.Of(told(3)).Words(at(1), 0.3, time.UTC)[0]; words != "Not cut yet." {
		t.Error(words)
	}
	whole := first.Apply(batch.Entry{Seq: 9, At: at(0.2), Fact: cut(3)})
	if c := curing.Of(whole); c.Cut != at(0.2) || c.Bars != 24 {
		t.Errorf("%+v", c)
	}
	broken := first.Apply(batch.Entry{Seq: 9, At: at(0.3), Fact: batch.Skipped{Task: curing.CutTask(3), Reason: "fell"}})
	if c := curing.Of(broken); c.Cut != at(0.1) || c.Bars != 16 {
		t.Errorf("%+v", c)
	}
	if c := curing.Of(told(1, 0.0, batch.Skipped{Task: curing.CutTask(1), Reason: "fell"})); !c.Cut.IsZero() {
		t.Error("a cure without a bar")
	}
	if dry, ok := curing.Of(whole).Dry(at(10.2)); !ok || dry != 10*day {
		t.Errorf("%v", dry)
	}
}

// TestMarksInTheirOrder: by number, weigh-ins by their own day, and the bar that
// waited longest is next; one that is lost is not.
func TestMarksInTheirOrder(t *testing.T) {
	late := weighed("2", 101*g)
	late.When = at(3).Wall
	s := told(1, 0.0, cut(1), 0.1, weighed("10", 99*g), 0.1, weighed("2", 103*g), 7.0, weighed("2", 98*g), 7.1, late, 7.2, weighed("10", 95*g))
	c := curing.Of(s)
	if len(c.Marks) != 2 || c.Marks[0].Bar != "2" || c.Marks[0].Readings[1].Mass != 101*g || c.Marks[0].Last().Mass != 98*g {
		t.Fatalf("%+v", c.Marks)
	}
	if mark, rounds, since, ok := c.NextBar(); !ok || mark != "2" || rounds != 2 || since != at(7) {
		t.Errorf("next is bar %s, round %d, since %v", mark, rounds, since)
	}
	s = s.Apply(batch.Entry{Seq: 20, At: at(8), Fact: batch.Skipped{Task: curing.BarTask("2"), Reason: "given away"}})
	if mark, _, _, _ := curing.Of(s).NextBar(); mark != "10" {
		t.Errorf("next is bar %s", mark)
	}
	if lost := curing.Of(s).Lost(); math.Abs(lost-5.0/103) > 1e-9 {
		t.Errorf("lost %v", lost)
	}
}

// TestSpread: worked by hand, 88, 90 and 95 g one by one and ten bars of 905 g
// together: mean 1178 / 13 = 90.615 g; of the three, mean 91, deviations 3, 1
// and 4, so √(26/2) = 3.606 g.
func TestSpread(t *testing.T) {
	bars := func(n int, m quantity.Mass, task string) batch.BarsWeighed {
		return batch.BarsWeighed{Task: task, Count: n, Mass: m, Reads: g}
	}
	s := told(1, 0.0, bars(1, 88*g, "a"), 0.0, bars(10, 905*g, "a"), 0.0, bars(1, 95*g, "a"), 0.0, bars(1, 90*g, "a"), 0.0, bars(1, 500*g, "b"))
	got := curing.SpreadOf(batch.All[batch.BarsWeighed](s), func(task string) bool { return task == "a" })
	if got.Count != 13 || got.Single != 3 || got.Mean != 1178*g/13 || got.Least != 88*g || got.Most != 95*g || math.Abs(got.Deviation-math.Sqrt(13)) > 1e-9 {
		t.Errorf("%+v", got)
	}
	want := "13 bars fresh: mean 91 g; 3 of them one by one: mean 91 g, 88 to 95 g, standard deviation 3.6 g."
	if words := got.Words("fresh"); len(words) != 1 || words[0] != want {
		t.Errorf("%q", words)
	}
	// Two of 108.2 and 109.0 g, fourteen of 1442 g together: the mean of all,
	// 1659.2 / 16 = 103.7 g, lies outside what the two say of themselves.
	s = told(1, 0.0, bars(1, 108200*g/1000, "a"), 0.0, bars(1, 109*g, "a"), 0.0, bars(14, 1442*g, "a"))
	got = curing.SpreadOf(batch.All[batch.BarsWeighed](s), func(string) bool { return true })
	if got.Reads = g / 10; got.Words("fresh")[0] != "16 bars fresh: mean 103.7 g; 2 of them one by one: mean 108.6 g, 108.2 to 109.0 g, standard deviation 0.6 g." {
		t.Errorf("%q", got.Words("fresh"))
	}
}

// TestDryingInWords: a curve with its errors, and before that why there is none.
func TestDryingInWords(t *testing.T) {
	say := func(s batch.State, d float64) string {
		return strings.Join(curing.Of(s).Words(at(d), 0.2, time.UTC), " ")
	}
	s := told(1, 0.0, cut(1))
	for _, want := range []string{"Day 3 of the cure; shortest cure over in 25 days, usual in 39 days.", "No bar is marked yet."} {
		if got := say(s, 3); !strings.Contains(got, want) {
			t.Errorf("%q", got)
		}
	}
	for week := range 6 {
		d := float64(7 * week)
		s = s.With(weighed("1", quantity.FromGrams(100-11*(1-math.Exp(-d/10))).RoundTo(g/10)), at(d))
		if week == 2 {
			if got := say(s, d); !strings.Contains(got, "No curve: a curve takes 4 weigh-ins of a bar on different days; so far it has 3.") {
				t.Errorf("%q", got)
			}
		}
	}
	// 7 × 11/10 e^(−t/10) = 0.5 g a week at t = 10 ln(15.4) = 27.3 days: 30 March.
	got := say(s, 35)
	for _, want := range []string{"Day 35 of the cure; the shortest cure is over, usual in 7 days.", "time constant 10.", "6 weigh-ins of 1 bar", "has fallen under 0.5 % a week: since 30 March"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q does not say %q", got, want)
		}
	}
	if got := curing.Of(s).Words(at(35), 0.08, time.UTC); !strings.Contains(got[1], "no more than 8.0 % of the bar is water") {
		t.Errorf("%q", got)
	}
}

// TestPointsStartOnTheCurve: a bar that was first weighed a week after the cut
// lies on the curve of the others, not a week above it.
func TestPointsStartOnTheCurve(t *testing.T) {
	s := told(1, 0.0, cut(1))
	for week := range 6 {
		d := float64(7 * week)
		part := 1 - 0.11*(1-math.Exp(-d/10))
		s = s.With(weighed("1", quantity.FromGrams(100*part)), at(d))
		if week > 0 {
			s = s.With(weighed("2", quantity.FromGrams(80*part)), at(d))
		}
	}
	c := curing.Of(s)
	d, err := c.Drying(0.3)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range c.Points(&d) {
		if want := 1 - 0.11*(1-math.Exp(-p.Days/10)); math.Abs(p.Part-want) > 2e-4 {
			t.Errorf("bar %s on day %.0f stands at %.4f, not %.4f", p.Bar, p.Days, p.Part, want)
		}
	}
}
