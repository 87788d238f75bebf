package paper_test

import (
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/golden"
	"bench/internal/paper"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/sample"
	"bench/internal/steps"
	"bench/internal/timer"
)

func lighthouse(t *testing.T) recipe.Control {
	t.Helper()
	return sample.Control(t, "lighthouse-at-dusk.yaml", 3)
}

// begun is a batch with one of most kinds of fact, a minute apart.
func begun(t *testing.T) batch.State {
	t.Helper()
	at := time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)
	weighed := func(task, material string, target, mass quantity.Mass, how batch.How) batch.Weighed {
		return batch.Weighed{
			Task: task, Material: material, Lot: "L-1", Target: target, Mass: mass, How: how,
			Scale: "bench scale", Reads: quantity.Gram / 10, Vessel: "large pot", Tare: 712 * quantity.Gram,
		}
	}
	shea := weighed("sea/shea", "shea butter", 153*quantity.Gram, 155*quantity.Gram, batch.Typed)
	right := shea
	right.Mass = 153 * quantity.Gram
	var s batch.State
	for i, f := range []batch.Fact{
		batch.Started{Control: lighthouse(t)},
		batch.Ticked{Task: "set out/protection"},
		shea,
		weighed("sea/coconut", "coconut oil", 214_200, 214_200, batch.AtTarget),
		weighed("sea/castor", "castor oil", 53_600, 53_600, batch.ByEye),
		batch.Corrected{Seq: 3, Reason: "read the wrong line", With: right},
		batch.Noted{Stage: "oils/sea", Text: "the shea was lumpy"},
	} {
		s = s.Apply(batch.Entry{Seq: i + 1, At: timer.Moment{Wall: at.Add(time.Duration(i) * time.Minute)}, Fact: f})
	}
	return s
}

func TestGolden(t *testing.T) {
	now := timer.Moment{Wall: time.Date(2026, 3, 2, 10, 30, 0, 0, time.UTC)}
	plan := steps.Of(batch.State{Control: lighthouse(t)})
	planJSON, err := paper.PlanJSON(plan, nil)
	if err != nil {
		t.Fatal(err)
	}
	dueJSON, err := paper.DueJSON(timers(now), now)
	if err != nil {
		t.Fatal(err)
	}
	for name, got := range map[string]string{
		"plan.txt":   paper.PlanText(plan),
		"plan.json":  string(planJSON),
		"record.txt": paper.RecordOf("260302A", begun(t), time.UTC).Text(),
		"due.txt":    paper.DueText(timers(now), now),
		"due.json":   string(dueJSON),
	} {
		t.Run(name, func(t *testing.T) {
			golden.Equal(t, filepath.Join("testdata", name+".golden"), got)
		})
	}
}

// timers are one of each state.
func timers(now timer.Moment) []paper.Timer {
	before := func(d time.Duration) timer.Moment { return timer.Moment{Wall: now.Wall.Add(-d)} }
	return []paper.Timer{
		{Batch: "260302A", Timer: timer.Timer{ID: "unmould", Label: "unmould 3 loaves", Start: before(time.Hour), After: 24 * time.Hour}},
		{Batch: "260302A", Timer: timer.Timer{ID: "gel look/1", Label: "look at the gel", Start: before(70 * time.Minute), After: time.Hour}},
		{Batch: "260301B", Timer: timer.Timer{ID: "lye/sea", Label: "sea lye solution cooling", Start: before(9 * time.Minute)}},
	}
}

// The record keeps what was said first, and says what was not weighed.
func TestRecordKeepsTheFirstValue(t *testing.T) {
	text := paper.RecordOf("260302A", begun(t), time.UTC).Text()
	for _, want := range []string{
		"shea butter 155.0 g, asked 153.0", "corrected no. 3", "L-1", "CORRECTIONS", "Its clauses were not read", "read the wrong line", "by eye, not weighed", "the shea was lumpy", "09:06:00",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the record does not say %q", want)
		}
	}
}

// docs/json.md and the JSON name the same fields.
func TestTheContractIsDocumented(t *testing.T) {
	doc, err := os.ReadFile("../../docs/json.md")
	if err != nil {
		t.Fatal(err)
	}
	now := timer.Moment{Wall: time.Date(2026, 3, 2, 10, 30, 0, 0, time.UTC)}
	plan, err := paper.PlanJSON(steps.Of(batch.State{Control: lighthouse(t)}), nil)
	if err != nil {
		t.Fatal(err)
	}
	due, err := paper.DueJSON(timers(now), now)
	if err != nil {
		t.Fatal(err)
	}
	record, err := paper.RecordJSON(paper.RecordOf("260302A", finished(t), time.UTC))
	if err != nil {
		t.Fatal(err)
	}
	words := regexp.MustCompile(`[a-z_0-9]+`).FindAllString(string(doc), -1)
	for _, out := range [][]byte{plan, due, record} {
		var value any
		if err := json.Unmarshal(out, &value); err != nil {
			t.Fatal(err)
		}
		for _, name := range fieldsOf(value) {
			if !slices.Contains(words, name) {
				t.Errorf("docs/json.md does not name %q", name)
			}
		}
	}
}

func fieldsOf(value any) []string {
	var names []string
	switch v := value.(type) {
	case map[string]any:
		for name, inside := range v {
			names = append(names, name)
			names = append(names, fieldsOf(inside)...)
		}
	case []any:
		for _, inside := range v {
			names = append(names, fieldsOf(inside)...)
		}
	}
	return names
}

// A weight that was off is printed with every way to go on and what each comes
// to, and exactly one of them is preselected.
func TestDeviations(t *testing.T) {
	s := batch.State{Control: lighthouse(t)}
	s = s.Apply(batch.Entry{Seq: 1, Fact: batch.Started{Control: s.Control}})
	water, _, _ := steps.Of(s).Task("sea/water")
	s = s.Apply(batch.Entry{Seq: 2, Fact: batch.Weighed{
		Task: water.ID, Material: water.Material, Target: water.Target, Mass: water.Target + 30*quantity.Gram, How: batch.Typed, Reads: water.Reads,
	}})
	plan := steps.Of(s)
	text, err := paper.PlanJSON(plan, nil)
	if err != nil {
		t.Fatal(err)
	}
	var out struct {
		Deviations []struct {
			Task string  `json:"task"`
			Off  float64 `json:"off_g"`
			Ways []struct {
				Way         string  `json:"way"`
				Preselected bool    `json:"preselected"`
				G           float64 `json:"g"`
				Rise        float64 `json:"rise_mm"`
			} `json:"ways"`
		} `json:"deviations"`
	}
	if err := json.Unmarshal(text, &out); err != nil {
		t.Fatal(err)
	}
	if len(out.Deviations) != 1 || out.Deviations[0].Task != "sea/water" || out.Deviations[0].Off != 30 {
		t.Fatalf("%+v", out)
	}
	preselected := 0
	for _, w := range out.Deviations[0].Ways {
		if w.Preselected {
			preselected++
		}
		if w.Way == "take out" && (w.G != 30 || w.Rise >= 0) {
			t.Errorf("%+v", w)
		}
		if !strings.Contains(paper.PlanText(plan), "OFF sea: water 30.0 g over") {
			t.Error("the text does not say it")
		}
	}
	if preselected != 1 || len(out.Deviations[0].Ways) < 3 {
		t.Errorf("%+v", out.Deviations[0].Ways)
	}
}
