package ledger

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/cut"
	"bench/internal/journal"
	"bench/internal/paper"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/sample"
	"bench/internal/steps"
)

// past makes a store with so many batches, a day apart.
func past(t testing.TB, batches int) *Ledger {
	t.Helper()
	store, err := journal.Open(t.TempDir(), journal.Options{})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = store.Close() })
	for i := range batches {
		at := time.Date(2026, 1, 1, 9, 0, 0, 0, time.UTC).AddDate(0, 0, i)
		w, err := store.Hold(codeOf(at, 0), journal.Stamp{Wall: at})
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range factsOf(i) {
			kind, body, err := batch.Encode(f)
			if err != nil {
				t.Fatal(err)
			}
			if _, err := w.Append(kind, body, termsOf(recipe.Control{}, f), journal.Stamp{Wall: at}); err != nil {
				t.Fatal(err)
			}
		}
		if err := w.Release(); err != nil {
			t.Fatal(err)
		}
	}
	books := Of(store, t.TempDir())
	t.Cleanup(func() { // What is still copied would be in the way of the folder's end.
		for code := range books.open {
			_ = books.Release(code)
		}
	})
	return books
}

func factsOf(i int) []batch.Fact {
	name := []string{"Lighthouse at dusk", "Tide lines", "Moon over the mole"}[i%3]
	olive := batch.Weighed{Task: "sea/olive", Material: "olive oil", Lot: fmt.Sprintf("OO-%04d", i/10), Mass: quantity.Gram}
	right := olive
	right.Lot = fmt.Sprintf("OX-%04d", i)
	facts := []batch.Fact{
		batch.Started{Control: recipe.Control{Recipe: recipe.Recipe{Name: name}}},
		olive,
		batch.Noted{Text: fmt.Sprintf("The batter was Lumpy, on day %d!", i)},
	}
	if i%4 == 0 {
		facts = append(facts, batch.Corrected{Seq: 2, Reason: "wrong label", With: right})
	}
	if i%2 == 0 {
		facts = append(facts, batch.Closed{})
	}
	return facts
}

func TestFind(t *testing.T) {
	books := past(t, 30)
	for name, c := range map[string]struct {
		q    Query
		want string
	}{
		"all, the newest first":     {Query{From: "2026-01-29"}, "260130A 260129A"},
		"part of the recipe":        {Query{Recipe: "LIGHT", To: "2026-01-08"}, "260107A 260104A 260101A"},
		"material and days":         {Query{Material: "olive", From: "2026-01-02", To: "2026-01-03"}, "260103A 260102A"},
		"a lot":                     {Query{Lot: "oo-0001", Recipe: "tide"}, "260120A 260117A 260114A 260111A"},
		"a lot as it was corrected": {Query{Lot: "OX-0008"}, "260109A"},
		"words of a note":           {Query{Note: "lump 17"}, "260118A"},
		"a word that no note has":   {Query{Note: "smooth"}, ""},
		"nothing of that kind":      {Query{Lot: "%_'\""}, ""},
	} {
		t.Run(name, func(t *testing.T) {
			found, err := books.Find(c.q)
			if err != nil {
				t.Fatal(err)
			}
			var codes []string
			for _, f := range found {
				codes = append(codes, f.Batch)
			}
			if got := strings.Join(codes, " "); got != c.want {
				t.Errorf("%q, want %q", got, c.want)
			}
		})
	}
	found, err := books.Find(Query{To: "2026-01-02"})
	if err != nil || len(found) != 2 || !found[0].UnderWay || found[1].UnderWay || found[0].Recipe != "tide lines" {
		t.Errorf("%+v %v", found, err)
	}
}

// TestFindAgreesWithTheRecord: each material and lot in the materials of a record is found,
// and nothing else: a stick of two lots was planned, and of one it was left out.
func TestFindAgreesWithTheRecord(t *testing.T) {
	control := sample.Control(t, "lighthouse-at-dusk.yaml", 2)
	order := control.Cutting.Order(control.Mould.Along(), control.Loaves, 1)
	order.Sticks = []cut.Stick{{Length: 130 * quantity.Millimetre, Count: 2, Lot: "M-1"}, {Length: 130 * quantity.Millimetre, Count: 2, Lot: "M-2"}}
	plan, err := cut.Solve(order)
	if err != nil {
		t.Fatal(err)
	}
	control.Sticks = []recipe.StickPlan{{Stick: "moon stick", Embeds: []recipe.StickEmbed{{Layer: "base", Embed: "moon"}}, Plan: plan}}
	control.Recipe.Layers[0].Embeds[1].Stick = "moon stick"
	b := sample.Begin(control)
	without := steps.EmbedTask("base", 1, "moon")
	b.WorkTo(t, without)
	b.Put(batch.Skipped{Task: without, Reason: "it broke"})
	b.WorkTo(t, "gel/1 h")

	books := past(t, 0)
	code, _, err := books.Start(control, b.State.Entries[0].At)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range b.State.Entries[1:] {
		if _, err := books.Append(code, e.Fact, e.At); err != nil {
			t.Fatal(err)
		}
	}
	record := paper.RecordOf(code, b.State, time.UTC)
	want := map[string][]string{}
	add := func(kind, value string) {
		if value != "" && !slices.Contains(want[kind], kind+value) {
			want[kind] = append(want[kind], kind+value)
		}
	}
	for _, m := range record.Materials {
		add(materialTerm, strings.ToLower(m.Material))
		add(lotTerm, m.Lot)
	}
	for kind, want := range want {
		slices.Sort(want)
		if got, err := books.store.Terms(kind); err != nil || !slices.Equal(got, want) {
			t.Errorf("found by %q, %v; the record has %q", got, err, want)
		}
	}
	for lot, in := range map[string]bool{"M-1": true, "M-2": false, "HD-0012": true} {
		if found, err := books.Find(Query{Lot: lot}); err != nil || (len(found) == 1) != in || slices.Contains(want[lotTerm], lotTerm+lot) != in {
			t.Errorf("%s: %+v, %v; in the record %q", lot, found, err, want[lotTerm])
		}
	}
	if went := termsOf(control, batch.BarsWent{Where: "the harbour market stall", Count: 16}); !slices.Contains(went, "note:harbour") {
		t.Errorf("where bars went: %q", went)
	}
}

// TestClosedByTheShelf: the newest closed batches come first, no more than a
// shelf has room for, and the older ones are found by words.
func TestClosedByTheShelf(t *testing.T) {
	books := past(t, 2*shelf+10)
	for words, want := range map[string]struct {
		first, last string
		count       int
		more        bool
	}{
		"":               {"260218A", "260111A", shelf, true},
		"lighthouse":     {"260218A", "260101A", 9, false},
		"Tide oo-0000":   {"260105A", "260105A", 1, false},
		"day lump 48":    {"260218A", "260218A", 1, false},
		"2601 LIGHT ox-": {"260125A", "260101A", 3, false},
		"26010":          {"260109A", "260101A", 5, false},
		"fog":            {},
	} {
		got, err := books.Closed(words)
		if err != nil || got.Words != words || got.More != want.more || len(got.Batches) != want.count {
			t.Errorf("%q: %d batches, %v, %v", words, len(got.Batches), got.More, err)
			continue
		}
		if n := want.count; n > 0 && (got.Batches[0].Code != want.first || got.Batches[n-1].Code != want.last) {
			t.Errorf("%q: from %s to %s", words, got.Batches[0].Code, got.Batches[n-1].Code)
		}
	}
}

func BenchmarkFind(b *testing.B) {
	books := past(b, 5000)
	for name, q := range map[string]Query{"all": {}, "recipe": {Recipe: "moon"}, "lot": {Lot: "OO-0040"}, "note": {Note: "lumpy 4711"}} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := books.Find(q); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
