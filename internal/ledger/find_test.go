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
	"bench/internal/quantity"
	"bench/internal/recipe"
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
			if _, err := w.Append(kind, body, termsOf(f), journal.Stamp{Wall: at}); err != nil {
				t.Fatal(err)
			}
		}
		if err := w.Release(); err != nil {
			t.Fatal(err)
		}
	}
	return Of(store, t.TempDir())
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

// TestFindInBars: what lies in the bars without having been weighed in the batch
// is found, and so is where the bars went.
func TestFindInBars(t *testing.T) {
	control := recipe.Control{
		Recipe: recipe.Recipe{Name: "Quay", Layers: []recipe.Layer{{Embeds: []recipe.Embed{
			{Name: "left", Stick: "Keel", Dough: "harbour dough"}, {Name: "right", Stick: "Keel", Dough: "harbour dough"}, {Name: "moon"},
		}}}},
		Materials: []recipe.Material{{Name: "harbour dough", Lot: "HD-0012"}},
		Sticks: []recipe.StickPlan{{Stick: "Keel", Plan: cut.Plan{Sticks: []cut.Strip{
			{N: 1, Lot: "K-1"}, {N: 2, Lot: "L-3"}, {N: 3, Fresh: true},
		}}}},
	}
	terms := termsOf(batch.Started{Control: control})
	want := []string{"recipe:quay", "material:harbour dough", "material:keel", "lot:HD-0012", "material:moon", "lot:K-1", "lot:L-3"}
	if !slices.Equal(terms, want) {
		t.Errorf("%q, want %q", terms, want)
	}
	if went := termsOf(batch.BarsWent{Where: "the harbour market stall", Count: 16}); !slices.Contains(went, "note:harbour") {
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
