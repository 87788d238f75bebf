package judge_test

import (
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/quantity"
	"bench/internal/sample"
	"bench/internal/work"
)

// TestAlkaliSlips: alkali is asked about from ten of its shares of the tolerance on, and
// where it is off by more than a pellet and one digit, or two that changed places, away
// from what was asked. 106.49 g is what the lighthouse asks for three loaves.
func TestAlkaliSlips(t *testing.T) {
	b := sample.Begin(sample.Control(t, "lighthouse-at-dusk.yaml", 3))
	b.WorkTo(t, "sea/sodium hydroxide")
	p := b.Plan()
	naoh, _, _ := p.Task("sea/sodium hydroxide")
	if naoh.Target != 106_490*quantity.Milligram || naoh.Tolerance != 200*quantity.Milligram {
		t.Fatalf("%v within %v", naoh.Target, naoh.Tolerance)
	}
	for typed, doubted := range map[string]bool{
		"106.49": false, "106.53": false, "106.45": false, "106.59": false, // In its tolerance.
		"106.79": true, "106.94": true, "104.69": true, "160.49": true, "186.49": true, "106.19": true,
		"106.62": false, "106.31": false, // A little off, and no slip of a finger.
		"108.20": true, "105.00": true, "10.649": true, "1064.9": true,
	} {
		f, err := judge.Fact(p, naoh.ID, judge.Answer{How: batch.Typed, Text: typed})
		if err != nil {
			t.Fatal(err)
		}
		doubt := judge.Doubt(p, f)
		if (doubt != "") != doubted || doubted && !strings.Contains(doubt, "asked 106.49, typed ") {
			t.Errorf("%s: %q", typed, doubt)
		}
		part := f.(batch.Weighed)
		part.More = true
		if doubt := judge.Doubt(p, part); doubt != "" && part.Mass <= naoh.Target {
			t.Errorf("%s of more: %q", typed, doubt)
		}
	}
}

// TestDigitSlips: any weight that is off and one slip away from what was asked is asked
// about, although it is not a tenth off.
func TestDigitSlips(t *testing.T) {
	b := sample.Begin(sample.Control(t, "lighthouse-at-dusk.yaml", 3))
	b.WorkTo(t, "sea/olive")
	p := b.Plan()
	olive, _, _ := p.Task("sea/olive")
	asked := olive.Target.At(olive.Reads)
	for off, doubted := range map[quantity.Mass]bool{20 * g: asked[1] < '8', 0: false, g / 2: false, -11 * g: false, 12*g + g/5: false} {
		f := batch.Weighed{Task: olive.ID, Mass: olive.Target + off, How: batch.Typed, Reads: olive.Reads}
		if doubt := judge.Doubt(p, f); (doubt != "") != doubted {
			t.Errorf("%s and %v: %q", asked, off, doubt)
		}
	}
}

// TestPotAskedAbout: a pot that is lighter than it should be by more than its tolerance is
// asked about, whatever vessel it is.
func TestPotAskedAbout(t *testing.T) {
	b := sample.Begin(sample.Control(t, "lighthouse-at-dusk.yaml", 3))
	b.WorkTo(t, "dusk/sky/gross")
	p := b.Plan()
	pot, _, _ := p.Task("dusk/sky/gross")
	for off, want := range map[quantity.Mass]string{
		0: "", pot.Tolerance: "", -pot.Tolerance: "", -pot.Tolerance - g: "not all is in it", -38_600: "not all is in it", pot.Tolerance + g: "another vessel",
	} {
		doubt := judge.Doubt(p, batch.Grossed{Task: pot.ID, Gross: pot.Target + off, Tare: pot.Tare})
		if want == "" && doubt != "" || !strings.Contains(doubt, want) {
			t.Errorf("%v off: %q", off, doubt)
		}
	}
}

// TestTenthOff: what is more than a tenth off is asked about, however wide its tolerance
// is: a scent as an oil. 26.70 for 22.95 is 16 % over, 31.00 for 26.74 as much.
func TestTenthOff(t *testing.T) {
	b := sample.Begin(sample.Control(t, "lighthouse-at-dusk.yaml", 3))
	b.WorkTo(t, "sea/meet")
	p := b.Plan()
	seen := 0
	for _, st := range p.Stages {
		for _, task := range st.Tasks {
			if st.Kind != work.ScentOut || !task.Done {
				continue
			}
			seen++
			for typed, want := range map[quantity.Mass]bool{task.Target: false, task.Target * 105 / 100: false, task.Target * 116 / 100: true, task.Target * 84 / 100: true} {
				f := batch.Weighed{Task: task.ID, Mass: typed, How: batch.Typed, Reads: task.Reads}
				with := p.With(batch.Withdrawn{Seq: task.Seq, Reason: "again"}, b.Now)
				if doubt := judge.Doubt(with, f); (doubt != "") != want {
					t.Errorf("%s, %s asked, %s typed: %q", task.Title, task.Target, typed, doubt)
				}
			}
		}
	}
	if seen == 0 {
		t.Error("no scent was weighed out")
	}
}
