package paper_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/paper"
	"bench/internal/quantity"
	"bench/internal/sample"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/work"
)

// finished is a batch that was worked as asked, cut, weighed and released, with
// a note that tries to break what it is written into.
func finished(t *testing.T) batch.State {
	t.Helper()
	at := time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)
	s := batch.State{}
	say := func(f batch.Fact) {
		at = at.Add(90 * time.Second)
		s = s.With(f, timer.Moment{Wall: at})
	}
	say(batch.Started{Control: lighthouse(t)})
	plan := steps.Of(s)
	for _, st := range plan.Stages {
		for _, task := range st.Tasks {
			switch task.Do {
			case work.Weigh, work.Portion:
				say(batch.Weighed{
					Task: task.ID, Material: task.Material, Lot: task.Lot, Target: task.Target, Mass: task.Target, How: batch.AtTarget,
					Scale: task.Scale, Reads: task.Reads, Vessel: task.Vessel, Tare: task.Tare,
				})
			case work.Tick:
				say(batch.Ticked{Task: task.ID})
			case work.Temperature:
				say(batch.TemperatureTaken{Task: task.ID, Temperature: 38 * quantity.Degree})
			default:
			}
		}
	}
	say(batch.Noted{Stage: "cut", Text: "pipes | stars * tags <b> and _lines_ & [links](x) ± ½ 灯"})
	say(batch.BarsCut{Task: "cut/loaf 1", Loaf: 1, Bars: 7, Planned: 8, Why: "one crumbled"})
	say(batch.BarsWeighed{Task: "test/weight", Count: 7, Mass: 665 * quantity.Gram, Scale: "bench scale", Reads: quantity.Gram / 10})
	say(batch.Tested{Test: batch.PHTest, Value: 9.8, Passed: true})
	say(batch.Released{By: "the keeper", Bars: 7, Reason: "all is well"})
	say(batch.Complained{About: batch.Complaint, Words: "smells of tar"})
	say(batch.BarsWent{Where: "the market hall", Count: 7})
	return s
}

// The same facts stand in each form of the record.
func TestEveryFormSaysTheSame(t *testing.T) {
	r := paper.RecordOf("260302A", finished(t), time.UTC)
	doc, err := r.PDF()
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "r.pdf")
	if err := os.WriteFile(path, doc, 0o600); err != nil {
		t.Fatal(err)
	}
	data, err := paper.RecordJSON(r)
	if err != nil {
		t.Fatal(err)
	}
	forms := map[string]string{"text": r.Text(), "markdown": r.Markdown(), "json": string(data)}
	if pdf := pdfText(t, path); pdf != "" {
		forms["pdf"] = pdf
	}
	for name, text := range forms {
		text = strings.Join(strings.Fields(text), " ")
		for _, want := range []string{"260302A", "Lighthouse at dusk", "OO-1180", "one crumbled", "pH 9.8", "the keeper", "smells of tar", "the market hall", "ISO 22716", "38 °C", "tripped over nothing"} {
			if has := strings.Contains(text, want); has != (want != "tripped over nothing") {
				t.Errorf("%s: %q is there: %v", name, want, has)
			}
		}
	}
}

// TestNotesHaveTheirOwnPlace: a note stands before all facts, under its own head, as it
// now stands; and the yield begins with where the batter went.
func TestNotesHaveTheirOwnPlace(t *testing.T) {
	s := finished(t)
	s = s.Apply(batch.Entry{Seq: len(s.Entries) + 1, Fact: batch.Noted{Stage: "cut", Text: "no such thing"}})
	s = s.Apply(batch.Entry{Seq: len(s.Entries) + 1, Fact: batch.Withdrawn{Seq: len(s.Entries), Reason: "another batch"}})
	r := paper.RecordOf("260302A", s, time.UTC)
	before, _, found := strings.Cut(r.Markdown(), "All facts")
	_, notes, head := strings.Cut(before, "Notes of the day")
	if !found || !head || !strings.Contains(notes, "pipes") || strings.Contains(notes, "no such thing") {
		t.Errorf("%s", notes)
	}
	if !strings.HasPrefix(r.Yield[0], "mass balance of the batter, without embeds and toppings: weighed in ") {
		t.Errorf("%q", r.Yield)
	}
}

// pdfText reads a PDF with poppler, or gives nothing where it is missing.
func pdfText(t *testing.T, path string) string {
	t.Helper()
	text := ""
	t.Run("poppler", func(t *testing.T) { text = look(t, "pdftotext", path, "-") })
	return text
}

// Each table row keeps its number of cells whatever the words are.
func TestMarkdownTablesHold(t *testing.T) {
	columns := 0
	for line := range strings.Lines(paper.RecordOf("260302A", finished(t), time.UTC).Markdown()) {
		if !strings.HasPrefix(line, "|") {
			columns = 0
			continue
		}
		n := strings.Count(strings.ReplaceAll(line, `\|`, ""), "|")
		if columns == 0 {
			columns = n
		}
		if n != columns {
			t.Errorf("%d bars, not %d: %s", n, columns, line)
		}
	}
}

func TestRecordsAreDeterministic(t *testing.T) {
	r := paper.RecordOf("260302A", finished(t), time.UTC)
	one, err := r.PDF()
	two, err2 := paper.RecordOf("260302A", finished(t), time.UTC).PDF()
	if err != nil || err2 != nil || !bytes.Equal(one, two) {
		t.Errorf("two PDFs of one record differ (%v, %v)", err, err2)
	}
}

// A record without facts is empty and breaks nothing.
func TestRecordOfNothing(t *testing.T) {
	r := paper.RecordOf("none", batch.State{}, time.UTC)
	if _, err := r.PDF(); err != nil {
		t.Error(err)
	}
	data, err := paper.RecordJSON(r)
	if err != nil || bytes.Contains(data, []byte("null")) || !json.Valid(data) {
		t.Errorf("%v: %s", err, data)
	}
}

// A weighing that was corrected to what was asked is no deviation.
func TestDeviationsAreOfWhatStands(t *testing.T) {
	r := paper.RecordOf("260302A", begun(t), time.UTC)
	all := fmt.Sprint(r.Deviations)
	if strings.Contains(all, "155.0") || !strings.Contains(all, "castor oil") {
		t.Errorf("%s", all)
	}
}

// Look at it: RECORD_OUT=/tmp/x go test -run LookAtRecord ./internal/paper.
func TestLookAtRecord(t *testing.T) {
	dir := os.Getenv("RECORD_OUT")
	if dir == "" {
		t.Skip("RECORD_OUT is not set")
	}
	r := paper.RecordOf("260302A", finished(t), time.UTC)
	doc, err := r.PDF()
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "record.pdf"), doc, 0o600); err != nil {
		t.Fatal(err)
	}
}

// TestRecordOfTheGel: what overheats is a deviation, and so is a look that nobody took;
// of each loaf by itself.
func TestRecordOfTheGel(t *testing.T) {
	b := sample.Begin(sample.Control(t, "lighthouse-at-dusk.yaml", 2))
	b.WorkTo(t, "gel/1 h")
	b.Put(batch.GelLooked{Task: "gel/1 h", Loaves: []int{2}, Look: batch.Rising, Temperature: 88500 * quantity.Degree / 1000})
	b.Put(batch.GelLooked{Task: "gel/1 h", Loaves: []int{1}, Look: batch.Gelling})
	deviations := func() string {
		var words []string
		for _, d := range paper.RecordOf("26C02A", b.State, time.UTC).Deviations {
			words = append(words, d.Words)
		}
		return strings.Join(words, "\n")
	}
	if got := deviations(); !strings.Contains(got, "look at the gel of loaf 2: rising, 88.5 °C") || strings.Contains(got, "gelling") || strings.Contains(got, "not looked at") {
		t.Errorf("%s", got)
	}
	b.Put(batch.Tested{Task: "test/alkali", Test: batch.PHTest, Value: 11.2})
	b.Put(batch.Tested{Task: "test/alkali", Test: batch.PHTest, Value: 10, Passed: true})
	if got := deviations(); !strings.Contains(got, "pH 11.2, failed") || strings.Contains(got, "pH 10.0") {
		t.Errorf("%s", got)
	}
	b.Wait(24 * time.Hour)
	b.Put(batch.Ticked{Task: "unmould/loaf 1"})
	if got := deviations(); !strings.Contains(got, "Look at the gel after 3 h: not looked at before the unmoulding") {
		t.Errorf("%s", got)
	}
}

// TestLookIsADeviation: what the weight of a pot showed stands in the deviations, and so
// does what was answered; a pot that is as it should be does not.
func TestLookIsADeviation(t *testing.T) {
	b := sample.Begin(sample.Control(t, "lighthouse-at-dusk.yaml", 1))
	b.WorkTo(t, "sea/meet")
	look := func(off quantity.Mass) {
		for _, v := range b.Plan().Vessels() {
			if f, err := b.Plan().PotCheck(v.Vessel, v.Expected+off); err == nil && v.Vessel == "large pot" {
				b.Put(f.Fact)
			}
		}
	}
	words := func() string {
		var all []string
		for _, d := range paper.RecordOf("260302A", b.State, time.UTC).Deviations {
			all = append(all, d.Words)
		}
		return strings.Join(all, "\n")
	}
	if look(0); words() != "" {
		t.Errorf("as it should be: %q", words())
	}
	look(-50 * quantity.Gram)
	if w := words(); !strings.Contains(w, "50.0 g short") || !strings.Contains(w, "not decided yet: large pot") {
		t.Errorf("off: %q", w)
	}
	b.Put(batch.PotAnswered{Look: len(b.State.Entries), Vessel: "large pot", Finding: "50.0 g short", Answer: "its lid was off"})
	if w := words(); strings.Contains(w, "not decided yet") || !strings.Contains(w, "its lid was off") || !strings.Contains(w, "weighs") {
		t.Errorf("answered: %q", w)
	}
}

// TestRecordOfTheEmbeds: an embed stands in the materials with its lot, its length and what
// that weighs by its outline, its dough beside it: 14 by 36 mm, 220 mm a loaf, 1.05 g/ml are
// 116.4 g. One that was left out does not.
func TestRecordOfTheEmbeds(t *testing.T) {
	b := sample.Begin(sample.Control(t, "lighthouse-at-dusk.yaml", 2))
	b.WorkTo(t, "base/loaf 1/lighthouse")
	b.Put(batch.Skipped{Task: "base/loaf 1/moon", Reason: "it broke"})
	b.Put(batch.Skipped{Task: "base/loaf 2/moon", Reason: "it broke"})
	b.WorkTo(t, "gel/1 h")
	var rows []string
	for _, row := range strings.Split(paper.RecordOf("260302A", b.State, time.UTC).Text(), "\n") {
		if strings.Contains(row, "by its size") || strings.Contains(row, "laid, ") {
			rows = append(rows, strings.Join(strings.Fields(row), " "))
		}
	}
	if len(rows) != 2 || !strings.Contains(rows[0], "lighthouse HD-0012 - - - laid, 440 mm -") ||
		!strings.Contains(rows[1], "harbour dough HD-0012 - - - in lighthouse, some 233 g by its size -") {
		t.Errorf("%s", strings.Join(rows, "\n"))
	}
}

// TestOnlyWhatWasWeighedCameOut: a pot in which an oil, the alkali or the water is missing is
// not among the batters.
func TestOnlyWhatWasWeighedCameOut(t *testing.T) {
	whole := finished(t)
	if got := paper.RecordOf("260302A", whole, time.UTC).Batters; len(got) != len(whole.Control.Recipe.Batters) {
		t.Fatalf("%+v", got)
	}
	for i, e := range whole.Entries {
		if w, ok := e.Fact.(batch.Weighed); ok && w.Material == "olive oil" {
			short := paper.RecordOf("260302A", batch.Fold(append(whole.Entries[:i:i], whole.Entries[i+1:]...)), time.UTC)
			if got := short.Batters; len(got) != len(whole.Control.Recipe.Batters)-1 {
				t.Errorf("without an oil: %+v", got)
			}
			break
		}
	}
}

// TestBarsAddUp: the record counts what became of the bars.
func TestBarsAddUp(t *testing.T) {
	text := paper.RecordOf("260302A", finished(t), time.UTC).Text()
	for _, want := range []string{"  together 7 bars cut, 7 gone, 0 left; planned 8\n", "COMPLAINTS, AND WHERE BARS WENT\n"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in\n%s", want, text)
		}
	}
}

// TestRecordWithoutBars: where none was cut nothing is to be released.
func TestRecordWithoutBars(t *testing.T) {
	b := sample.Begin(sample.Control(t, "lighthouse-at-dusk.yaml", 1))
	release := func() string {
		_, after, _ := strings.Cut(paper.RecordOf("260302A", b.State, time.UTC).Text(), "\nRELEASE\n")
		line, _, _ := strings.Cut(after, "\n")
		return strings.TrimSpace(line)
	}
	if got := release(); got != "No bars yet." {
		t.Error(got)
	}
	b.Put(batch.Closed{Reason: "fog"})
	if got := release(); got != "No bars: none was cut." {
		t.Error(got)
	}
	b = sample.Begin(sample.Control(t, "lighthouse-at-dusk.yaml", 1))
	b.Put(batch.BarsCut{Task: "cut/loaf 1", Loaf: 1, Bars: 8, Planned: 8})
	if got := release(); got != "Neither released nor held yet." {
		t.Error(got)
	}
	b.Put(batch.Closed{Reason: "the bars were thrown away: pockets"})
	if got := paper.RecordOf("260302A", b.State, time.UTC).Release; len(got) != 1 || !strings.Contains(got[0].Words, "the bars were thrown away: pockets") {
		t.Errorf("%+v", got)
	}
}
