package paper_test

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/paper"
	"bench/internal/quantity"
	"bench/internal/sample"
)

// TestRecordOfAWholeBatch reads the record of a batch up to its release as its maker
// would: the cure lasts from the first weigh-in on, each check has its stage, each stage
// that was read back says so, and bars are summed up.
func TestRecordOfAWholeBatch(t *testing.T) {
	b := sample.Begin(sample.Control(t, "lighthouse-at-dusk.yaml", 3))
	b.WorkTo(t, "sea/castor")
	castor, _, _ := b.Plan().Task("sea/castor")
	for _, more := range []bool{true, false} {
		b.Put(batch.Weighed{Task: castor.ID, Material: castor.Material, Target: castor.Target, Mass: castor.Target/2 + quantity.Gram, How: batch.Typed, Reads: castor.Reads, More: more})
	}
	b.Put(batch.Decided{Task: castor.ID, Off: 2 * quantity.Gram, Within: castor.Tolerance, Way: batch.CarryOn})
	b.WorkTo(t, "release/decide")
	r := paper.RecordOf("260302A", b.State, time.UTC)

	cut, _ := batch.Last[batch.BarsCut](b.State, "cut/loaf 1")
	for _, w := range r.Work {
		if w.Stage == "cure" && (!strings.HasPrefix(w.From, cut.At.Wall.Format(time.DateOnly)) || w.To < cut.At.Wall.AddDate(0, 0, 28).Format(time.RFC3339)) {
			t.Errorf("cut at %v, and the cure lasts from %s to %s", cut.At.Wall, w.From, w.To)
		}
	}
	readBacks := 0
	for _, c := range r.Checks {
		if c.Stage == "" || c.Found != "" && c.Found != "yes" && strings.Contains(c.What, c.Found) {
			t.Errorf("%+v", c)
		}
		if strings.HasPrefix(c.What, "Read back") {
			readBacks++
		}
	}
	if readBacks != 6 { // Two lye solutions, two splits, two pours.
		t.Errorf("%d stages were read back", readBacks)
	}
	three := quantity.Mass(0)
	for _, f := range batch.All[batch.BarsWeighed](b.State) {
		if f.Fact.Loaf == 3 {
			three += f.Fact.Mass
		}
	}
	for _, want := range []string{"together 24 bars cut, 1 kept back, 1 cut open for a look, 22 left; planned 24", "loaf 3: 8 bars weighed, " + three.At(quantity.Gram/10) + " g", "cured: 1 bar weighed, " + (three / 8).At(quantity.Gram/10) + " g"} {
		if !slices.Contains(r.Yield, want) {
			t.Errorf("%q is not in %q", want, r.Yield)
		}
	}
	if said := fmt.Sprint(r.Deviations); !strings.Contains(said, "in 2 goes") {
		t.Errorf("2 g over in two containers is no deviation: %s", said)
	}
}

// TestTablesStayOnThePaper: no table of a record is wider than the paper between its margins,
// and its times are not broken.
func TestTablesStayOnThePaper(t *testing.T) {
	b := sample.Begin(sample.Control(t, "lighthouse-at-dusk.yaml", 3))
	b.WorkTo(t, "gel/1 h")
	r := paper.RecordOf("260302A", b.State, time.UTC)
	if over := r.Overhang(); over > 0.01 {
		t.Errorf("a table stands %.1f mm into the margin", over)
	}
	doc, err := r.PDF()
	path := filepath.Join(t.TempDir(), "r.pdf")
	if err == nil {
		err = os.WriteFile(path, doc, 0o600)
	}
	if err != nil {
		t.Fatal(err)
	}
	lactate := b.State.Weighings("sea/sodium lactate")[0].At.Wall.Format("2006-01-02 15:04:05")
	if text := pdfText(t, path); text != "" && strings.Count(text, lactate) != 2 {
		t.Errorf("%s is not in one line among the materials, and one among the facts", lactate)
	}
}

// TestRecordTellsDoughOfEachStick: 14 by 36 mm of lighthouse and the moon are of one dough,
// and each stands by itself with what it weighs: three loaves of 116.4 g, and what the moon
// takes of its layer at 1.05 g/ml.
func TestRecordTellsDoughOfEachStick(t *testing.T) {
	b := sample.Begin(sample.Control(t, "lighthouse-at-dusk.yaml", 3))
	b.WorkTo(t, "gel/1 h")
	moon := 0.0
	for n := range 3 {
		for _, d := range b.Plan().Displaced(0, n) {
			if d.Embed == "moon" {
				moon += 1.05 * d.Volume.Millilitres()
			}
		}
	}
	got := map[string]float64{}
	for _, u := range paper.RecordOf("260302A", b.State, time.UTC).Materials {
		if u.Material == "harbour dough" {
			got[u.How] = quantity.Mass(u.BySize).Grams()
		}
	}
	want := map[string]float64{"in lighthouse, some 349 g by its size": 349.3, fmt.Sprintf("in moon, some %.0f g by its size", moon): moon}
	if len(got) != len(want) {
		t.Errorf("%v", got)
	}
	for how, grams := range want {
		if off := got[how] - grams; off > 1 || off < -1 {
			t.Errorf("%s: %v, by hand %.1f", how, got, grams)
		}
	}
}

// TestChecksKeepWhatWasAsked: what was asked of oils, of lye solution and of a lye jug stands
// in the record as it was asked, although the plan asks otherwise since.
func TestChecksKeepWhatWasAsked(t *testing.T) {
	b := sample.Begin(sample.Control(t, "lighthouse-at-dusk.yaml", 3))
	say := func(id, text string) {
		f, err := judge.Fact(b.Plan(), id, judge.Answer{How: batch.Typed, Text: text})
		if err == nil {
			err = b.Say(f)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	b.WorkTo(t, "sea/lye jug/dissolved")
	jug, _, _ := b.Plan().Task("sea/lye jug/dissolved")
	say(jug.ID, (jug.Target - 2*quantity.Gram).At(jug.Reads))
	b.WorkTo(t, "sea/lye temperature")
	say("sea/lye temperature", "36")
	oils, _, _ := b.Plan().Task("sea/oil temperature")
	say("sea/oil temperature", "42")
	say("sea/lye temperature", "35.5")
	if now, _, _ := b.Plan().Task(oils.ID); now.Wanted == oils.Wanted {
		t.Fatal("the plan asks what it asked before")
	}
	var got []string
	for _, c := range paper.RecordOf("260302A", b.State, time.UTC).Checks {
		got = append(got, fmt.Sprintf("%s | %s | %s", c.What, c.Found, c.Asked))
	}
	for _, want := range []string{
		fmt.Sprintf("Weigh the sea lye jug again | %s g gross, %s g net | %s g", (jug.Target - 2*quantity.Gram).At(jug.Reads), (jug.Target - 2*quantity.Gram - jug.Tare).At(jug.Reads), jug.Target.At(jug.Reads)),
		"How warm is the sea lye solution? | 36 °C | 38 °C",
		"How warm are the sea oils? | 42 °C | " + oils.Wanted.String(),
	} {
		if !slices.Contains(got, want) {
			t.Errorf("%q is not among %q", want, got)
		}
	}
}
