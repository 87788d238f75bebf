package reply_test

import (
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/cut"
	"bench/internal/front"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/reply"
	"bench/internal/sample"
	"bench/internal/steps"
	"bench/internal/uses"
	"bench/internal/work"
)

func task(t *testing.T, p steps.Plan, id string) work.Task {
	t.Helper()
	found, _, ok := p.Task(id)
	if !ok {
		t.Fatalf("no task %s", id)
	}
	return found
}

// TestAskShared: a vessel that another batch has is asked about until it was said which
// was taken, or that it is free and why; moulds and open lye are answered in words.
func TestAskShared(t *testing.T) {
	full := []uses.Occupied{
		{Batch: "26K25A", Vessel: "Lye jug A", What: "the sea lye solution", Alkali: true},
		{Batch: "26K25A", Vessel: "jug 6", What: "loaf 1's portion of base"},
		{Batch: "26K25A", Vessel: "lye jug C", What: "the dusk lye solution"},
		{Batch: "26K25A", Vessel: "harbour loaf", Moulds: 3},
	}
	const held = "Lye jug A holds the sea lye solution of batch 26K25A"
	b := at(t, 1, "sea/water")
	p := b.Plan()
	q, asked := reply.AskShared("B", p, task(t, p, "sea/water"), full)
	if !asked || !strings.Contains(q.Hint, held) || !strings.Contains(q.Hint, "stainless steel") {
		t.Fatalf("%v, %q", asked, q.Hint)
	}
	for text, want := range map[string]batch.Fact{
		"beaker 214.0 g":      batch.VesselReplaced{Vessel: "lye jug A", By: "beaker", Tare: 214 * quantity.Gram, Held: "the sea lye solution"},
		"free: poured out":    batch.SharedAnswered{Shared: held, Answer: "poured out"},
		"free, it was rinsed": batch.SharedAnswered{Shared: held, Answer: "it was rinsed"},
	} {
		act, word := q.Make(text, b.Now)
		if keep, ok := act.(reply.Keep); !ok || keep.Fact != want || keep.Code != "B" {
			t.Errorf("%q: %+v, %q", text, act, word)
			continue
		}
		after := p.With(want, b.Now)
		if _, again := reply.AskShared("B", after, task(t, after, "sea/water"), full); again || reply.Shared(after, task(t, after, "sea/water"), full) != "" {
			t.Errorf("%q was said, and it is asked again", text)
		}
	}
	for text, want := range map[string]string{
		"": "Say which vessel was taken.", "free": "Say how it stands now.", "freezer": "no vessel called", "lye jug a": held + ": take an empty one.",
		"lye jug C 150.0 g": "lye jug C holds the dusk lye solution of batch 26K25A: take an empty one.",
	} {
		if act, word := q.Make(text, b.Now); act != nil || !strings.Contains(word, want) {
			t.Errorf("%q: %+v, %q", text, act, word)
		}
	}
	if _, asked := reply.AskShared("B", p, task(t, p, "sea/water"), full[1:]); asked {
		t.Error("its jug is free")
	}
	start := at(t, 1, "set out/moulds").Plan()
	moulds := task(t, start, "set out/moulds")
	q, asked = reply.AskShared("B", start, moulds, full)
	if act, _ := q.Make("the old ones", b.Now); !asked || q.Title != "Moulds enough?" || act.(reply.Keep).Fact.(batch.SharedAnswered).Answer != "the old ones" {
		t.Errorf("%v, %+v", asked, q)
	}
	if words := reply.Shared(start, moulds, full); !strings.Contains(words, "3 of 3 moulds called harbour loaf") {
		t.Errorf("warned: %q", words)
	}
}

// TestHydroxideWanted: who puts the hydroxide away is told that another batch still wants
// it, and is asked nothing.
func TestHydroxideWanted(t *testing.T) {
	wharf := at(t, 1, "sea/water").Plan()
	others := front.Occupied([]front.UnderWay{{BatchItem: front.BatchItem{Code: "A"}, Plan: wharf}, {BatchItem: front.BatchItem{Code: "B"}, Plan: wharf}}, "A")
	p := at(t, 1, "clean up/hydroxide").Plan()
	away := task(t, p, "clean up/hydroxide")
	if words := reply.Shared(p, away, others); words != "hydroxide is still wanted for batch B: lid it tight and keep it for that, out of reach; or put it away and fetch it again" {
		t.Errorf("%q", words)
	}
	if q, asked := reply.AskShared("A", p, away, others); asked {
		t.Errorf("%+v", q)
	}
}

// TestInstead: whichever task is at hand, its vessel can be said to be another; of a task
// that has two the other one, too, and of one that has none any.
func TestInstead(t *testing.T) {
	b := at(t, 3, "sea/base/loaf 2")
	p := b.Plan()
	full := []uses.Occupied{{Batch: "26K25A", Vessel: "jug 5", What: "batter"}}
	for _, c := range []struct{ task, text, hint, vessel string }{
		{"sea/base/loaf 2", "pail 180 g", "Jug 2 is for loaf 2's portion of base", "jug 2"},
		{"sea/base/loaf 2", "jug 6", "(not in use: jug 4, jug 6)", "jug 2"},
		{"sea/base/loaf 2", "pail 180 g for jug 1", `write "for large pot" behind`, "jug 1"},
		{"sea/base/loaf 1/pour", "pail 180 g for jug 1", "such as spare jug 214.0 g for large pot; wanted are large pot, lye jug B, ", "jug 1"},
		{"dusk/lye jug", "lye jug C 150.0 g", "Lye jug B holds the dusk lye solution. Say which vessel that stands in", "lye jug B"},
	} {
		q := instead(t, p, c.task, full)
		if !strings.Contains(q.Hint, c.hint) {
			t.Errorf("%s: %q", c.task, q.Hint)
		}
		act, word := q.Make(c.text, b.Now)
		keep, _ := act.(reply.Keep)
		if f, ok := keep.Fact.(batch.VesselReplaced); !ok || f.Vessel != c.vessel {
			t.Errorf("%s: %q: %+v, %q", c.task, c.text, act, word)
		}
	}
	q := instead(t, p, "sea/base/loaf 2", full)
	for text, want := range map[string]string{
		"jug 5":                      "jug 5 holds batter of batch 26K25A: take an empty one.",
		"kettle 900 g for large pot": "take those weights back first", // A portion was poured out of it.
	} {
		if act, word := q.Make(text, b.Now); act != nil || !strings.Contains(word, want) {
			t.Errorf("%q: %+v, %q", text, act, word)
		}
	}
	closed := p.With(batch.Closed{Reason: "dusk"}, b.Now)
	if act, word := reply.Instead("B", closed, work.Task{}, nil); act != nil || word != "The batch is closed." {
		t.Errorf("%+v, %q", act, word)
	}
}

func instead(t *testing.T, p steps.Plan, id string, others []uses.Occupied) reply.Question {
	t.Helper()
	act, word := reply.Instead("B", p, task(t, p, id), others)
	q, ok := act.(reply.Question)
	if !ok {
		t.Fatalf("%s: %q", id, word)
	}
	return q
}

// TestSticksAreAskedAbout: sticks that went into another batch are warned of and asked
// about where they are set out, once.
func TestSticksAreAskedAbout(t *testing.T) {
	c := sample.Control(t, "lighthouse-at-dusk.yaml", 1)
	length := 300 * quantity.Millimetre
	c.Sticks = []recipe.StickPlan{{
		Stick: "keel", Plan: cut.Plan{Sticks: []cut.Strip{{N: 1, Lot: "K-1", Length: length}}},
		Stock: []recipe.StickStock{{Lot: "K-1", Length: length, Listed: 1, Taken: []recipe.StickUse{
			{Batch: "26K25A", N: 1, Cut: time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)},
		}}},
	}}
	b := sample.Begin(c)
	b.WorkTo(t, "set out/keel/stick 1")
	stick := func() work.Task { return task(t, b.Plan(), "set out/keel/stick 1") }
	const want = "keel of 300 mm, lot K-1: stick 1 went into batch 26K25A on 25 Nov: measure what is left"
	if words := reply.Shared(b.Plan(), stick(), nil); words != want {
		t.Errorf("%q, want %q", words, want)
	}
	q, asked := reply.AskShared("B", b.Plan(), stick(), nil)
	if !asked || q.Title != "Sticks enough?" {
		t.Fatalf("%v, %+v", asked, q)
	}
	act, word := q.Make("a new one, 302 mm", b.Now)
	if word != "" {
		t.Fatal(word)
	}
	b.Put(act.(reply.Keep).Fact)
	if _, again := reply.AskShared("B", b.Plan(), stick(), nil); again || reply.Shared(b.Plan(), stick(), nil) != "" {
		t.Error("it is asked about twice")
	}
}
