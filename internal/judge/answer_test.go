package judge_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/quantity"
	"bench/internal/sample"
	"bench/internal/steps"
)

// held says the value of a fact, for a table.
func held(f batch.Fact) string {
	switch f := f.(type) {
	case batch.Weighed:
		return fmt.Sprint(f.Mass)
	case batch.Grossed:
		return fmt.Sprint("whole ", f.Gross)
	case batch.TemperatureTaken:
		return fmt.Sprint(f.Temperature)
	case batch.BarsCut:
		return fmt.Sprintf("loaf %d: %d of %d", f.Loaf, f.Bars, f.Planned)
	case batch.BarsWeighed:
		return fmt.Sprintf("%d: %s", f.Count, f.Mass)
	case batch.SetAside:
		return fmt.Sprintf("%d %s: %s", f.Count, f.Piece, f.Mass)
	case batch.WeighedIn:
		return fmt.Sprint(f.Bar, ": ", f.Mass, f.When.Format(" 2006-01-02 15:04"))
	case batch.Tested:
		return fmt.Sprintf("%s %g %v", f.Test, f.Value, f.Passed)
	case batch.Ticked:
		return strings.TrimSpace("done " + f.When.Format("15:04"))
	default:
		return fmt.Sprintf("%T", f)
	}
}

// TestFact: what is typed, and the fact that it is. A day is written as in ISO 8601.
// pH to 10.5 passes (common practice, no source); free alkali to 0.05 % as sodium
// hydroxide is that of a combination toilet bar, ASTM D2179-65 (1990), second-hand.
func TestFact(t *testing.T) {
	b := lighthouse(t)
	b.WorkTo(t, "release/decide") // An answer is read whether its task is done or not.
	p := b.Plan()
	for _, c := range []struct{ task, text, want, no string }{
		{"sea/olive", "112.7", "112.7 g", ""},
		{"sea/olive", "112,7", "112.7 g", ""},
		{"sea/olive", "0.1127 kg", "112.7 g", ""},
		{"sea/olive", "some", "", "some"},
		{"sea/olive", "", "", "type a number first"},
		{"sea/lye jug", "256.7", "whole 256.7 g", ""},
		{"sea/lye temperature", "35", "35 °C", ""},
		{"sea/lye temperature", "95 F", "35 °C", ""},
		{"sea/lye temperature", "warm", "", "warm"},
		{"cut/loaf 1", "7", "loaf 1: 7 of 8", ""},
		{"cut/loaf 1", "-1", "", "is not a number of bars"},
		{"cut/loaf 1", "7.5", "", "is not a number of bars"},
		{"bars/loaf 1", "108.4", "1: 108.4 g", ""},
		{"bars/loaf 1", "10 x 1124", "10: 1124 g", ""},
		{"bars/loaf 1", "0 x 1124", "", "is not a number of bars"},
		{"clean up/leftover", "12", "1 leftover batter: 12 g", ""},
		{"clean up/leftover", "0", "0 leftover batter: 0 g", ""},
		{"cure/bar 1", "108.4", "1: 108.4 g 0001-01-01 00:00", ""},
		{"cure/bar 1", "108.4 on 2026-12-01", "1: 108.4 g 2026-12-01 12:00", ""},
		{"cure/bar 1", "108.4 on 2026-12-01 09:30", "1: 108.4 g 2026-12-01 09:30", ""},
		{"cure/bar 1", "108.4 on 1 December", "", "is not a day"},
		{"test/alkali", "10.5", "pH 10.5 true", ""},
		{"test/alkali", "10,6", "pH 10.6 false", ""},
		{"test/alkali", "0.05 %", "free alkali 0.05 true", ""},
		{"test/alkali", "0.06%", "free alkali 0.06 false", ""},
		{"test/alkali", "9", "pH 9 true", ""},
		{"test/alkali", "8.9", "pH 8.9 false", ""},
		{"test/alkali", "0.2", "pH 0.2 false", ""},
		{"test/alkali", "14", "pH 14 false", ""},
		{"test/alkali", "15", "", "15 is no pH: that is from 0 to 14"},
		{"test/alkali", "-1", "", "-1 is no pH"},
		{"test/alkali", "-0.1 %", "", "is no share"},
		{"test/alkali", "101 %", "", "is no share"},
		{"test/alkali", "NaN", "", "neither a pH nor a share"},
		{"test/alkali", "pink", "", "neither a pH nor a share"},
		{"test/look", "sound", "", "choose one of the answers"},
		{"fog", "1", "", `no task "fog"`},
	} {
		f, err := judge.Fact(p, c.task, judge.Answer{How: batch.Typed, Text: c.text, Now: b.Now.Wall})
		switch {
		case c.no != "" && (err == nil || !strings.Contains(err.Error(), c.no)):
			t.Errorf("%s, %q: %v, %v; want %q", c.task, c.text, f, err, c.no)
		case c.no == "" && (err != nil || held(f) != c.want):
			t.Errorf("%s, %q: %q, %v; want %q", c.task, c.text, held(f), err, c.want)
		}
	}
}

// TestDoubt: a weight is asked about from a tenth beyond what was asked, a bar from half
// of what is expected or half as much again, a temperature outside of what soap is made
// at (common practice, no source). Nothing is refused for it.
func TestDoubt(t *testing.T) {
	b := lighthouse(t)
	b.WorkTo(t, "bars/loaf 1")
	p := b.Plan()
	bar, _, _ := p.Task("bars/loaf 1")
	weighed := func(m quantity.Mass, more bool) batch.Fact {
		return batch.Weighed{Task: "sea/castor", Mass: m, How: batch.Typed, More: more}
	}
	early := lighthouse(t)
	early.WorkTo(t, "sea/castor")
	castor, _, _ := early.Plan().Task("sea/castor")
	tenth := castor.Target / 10
	poured := lighthouse(t)
	poured.WorkTo(t, "sea/lye jug")
	jug, _, _ := poured.Plan().Task("sea/lye jug")
	whole := func(m quantity.Mass) batch.Fact { return batch.Grossed{Task: jug.ID, Gross: m, Tare: jug.Tare} }
	for _, c := range []struct {
		what string
		p    steps.Plan
		f    batch.Fact
		want string
	}{
		{"as asked", early.Plan(), weighed(castor.Target, false), ""},
		{"a tenth over", early.Plan(), weighed(castor.Target+tenth, false), ""},
		{"more than a tenth over", early.Plan(), weighed(castor.Target+tenth+1, false), "asked "},
		{"more than a tenth under", early.Plan(), weighed(castor.Target-tenth-1, false), "asked "},
		{"the first of two containers", early.Plan(), weighed(castor.Target/3, true), ""},
		{"the whole weight", poured.Plan(), whole(jug.Target), ""},
		{"without the vessel", poured.Plan(), whole(jug.Target - jug.Tare), "without the vessel (then type " + jug.Target.At(jug.Reads) + ")?"},
		{"neither with it nor without", poured.Plan(), whole(jug.Target - jug.Tare/2), "perhaps another vessel"},
		{"too cold", early.Plan(), batch.TemperatureTaken{Temperature: 9 * quantity.Degree}, "9 °C is unusual"},
		{"too hot", early.Plan(), batch.TemperatureTaken{Temperature: 101 * quantity.Degree}, "101 °C is unusual"},
		{"warm", early.Plan(), batch.TemperatureTaken{Temperature: 35 * quantity.Degree}, ""},
		{"a usual bar", p, batch.BarsWeighed{Task: bar.ID, Loaf: 1, Count: 1, Mass: bar.Target}, ""},
		{"a light bar", p, batch.BarsWeighed{Task: bar.ID, Loaf: 1, Count: 1, Mass: bar.Target * 68 / 100}, "expected about"},
		{"a heavy bar", p, batch.BarsWeighed{Task: bar.ID, Loaf: 1, Count: 1, Mass: bar.Target * 122 / 100}, "expected about"},
		{"a bar cut thick", p, batch.BarsWeighed{Task: bar.ID, Loaf: 1, Count: 1, Mass: bar.Target * 114 / 100}, ""},
		{"more than the loaf", p, batch.BarsWeighed{Task: bar.ID, Loaf: 1, Count: 10, Mass: 10 * bar.Target}, "together the bars weigh"},
		{"more bars than there can be", p, batch.BarsCut{Task: "cut/loaf 1", Bars: 9, Planned: 8}, "no more than 8"},
		{"a pH of no soap", p, batch.Tested{Task: "test/alkali", Test: batch.PHTest, Value: 8.9}, "pH 8.9 is not what soap gives (9 to 10.5), so it does not pass"},
		{"a share without its sign", p, batch.Tested{Task: "test/alkali", Test: batch.PHTest, Value: 0.02}, "type it with its sign, 0.02 %"},
	} {
		got := judge.Doubt(c.p, c.f)
		if c.want == "" && got != "" || !strings.Contains(got, c.want) {
			t.Errorf("%s: %q, want %q", c.what, got, c.want)
		}
	}
}

// TestWeighInDoubt: a bar in cure only loses weight, and no more than 15 % of it between
// two weigh-ins (common practice, no source).
func TestWeighInDoubt(t *testing.T) {
	b := lighthouse(t)
	b.WorkTo(t, "cure/bar 1")
	b.Put(batch.WeighedIn{Task: "cure/bar 1", Bar: "1", Mass: 100 * g, Reads: g / 10})
	b.Wait(7 * 24 * time.Hour)
	for mass, want := range map[quantity.Mass]string{
		100*g + g/10: "", 100*g + g/5: "loses weight", 85 * g: "", 85*g - g/10: "is it the same bar?",
	} {
		f := batch.WeighedIn{Task: "cure/bar 1", Bar: "1", Mass: mass, Reads: g / 10}
		got := judge.Doubt(b.Plan(), f)
		if want == "" && got != "" || !strings.Contains(got, want) {
			t.Errorf("%s: %q, want %q", mass, got, want)
		}
		kept, ok := judge.Answered(f, got, "the other scale")
		if said := batch.SaidOf(kept); !ok || said.Asked != got || said.Answer != "the other scale" {
			t.Errorf("%s: kept as %+v", mass, kept)
		}
	}
	if judge.Keeps(batch.Weighed{}) {
		t.Error("a doubt before the pour is asked twice, and kept nowhere")
	}
}

// TestRespond: a warning is answered with its figure, however its decimals and its sign
// for per cent are written.
func TestRespond(t *testing.T) {
	u := steps.Unread{Hold: steps.Hold{Figure: "0.8", Ask: "how much of the bar it is"}}
	for typed, fits := range map[string]bool{
		"0.8": true, " 0,8 % ": true, "0.80": true, "8": false, "0.7": false, "": false, "yes": false, "0.8.": false,
	} {
		if _, err := judge.Respond(u, typed); (err == nil) != fits {
			t.Errorf("%q: %v", typed, err)
		}
	}
}

// TestAsAskedIsAllowed: what is asked can be said, at every task from the first to the
// release, and raises no doubt.
func TestAsAskedIsAllowed(t *testing.T) {
	b := lighthouse(t)
	for n := 0; ; n++ {
		id, ok := b.Plan().Next(b.Now)
		if !ok {
			b.Wait(time.Hour)
			continue
		}
		f, err := sample.AsAsked(b.Plan(), id)
		if err != nil {
			t.Fatalf("%s: %v", id, err)
		}
		if words := judge.Doubt(b.Plan(), f); words != "" {
			t.Errorf("%s, as asked: %s", id, words)
		}
		if err := b.Say(f); err != nil {
			t.Fatalf("%s: %v", id, err)
		}
		if id == "release/decide" {
			if n < 80 {
				t.Errorf("only %d tasks were asked for", n)
			}
			return
		}
	}
}
