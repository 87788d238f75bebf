package ledger

import (
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/paper"
	"bench/internal/quantity"
	"bench/internal/sample"
	"bench/internal/timer"
)

// TestFindALotSaysWhereItsBarsWent: of a batch that a lot is found in, how many bars were
// cut, where they went and how many are left, as it now stands; nothing of it where no lot
// was asked for.
func TestFindALotSaysWhereItsBarsWent(t *testing.T) {
	l := past(t, 0)
	at := timer.Moment{Wall: time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)}
	code, _, err := l.Start(sample.Control(t, "lighthouse-at-dusk.yaml", 1), at)
	if err != nil {
		t.Fatal(err)
	}
	keep := func(f batch.Fact) {
		t.Helper()
		if _, err := l.Append(code, f, at); err != nil {
			t.Fatal(err)
		}
	}
	keep(batch.Weighed{Task: "lye/water", Material: "sea air", Lot: "SA-9", Mass: 6 * quantity.Gram})
	text := func(want string) {
		t.Helper()
		found, err := l.Find(Query{Lot: "SA-9"})
		if got := paper.FoundText(found); err != nil || got != code+"    2026-03-02  under way "+want {
			t.Errorf("%v\n%s", err, got)
		}
	}
	text(`    2 facts  lighthouse at dusk
           no bars were cut
`)
	keep(batch.BarsCut{Task: "cut/loaf 1", Loaf: 1, Bars: 14, Planned: 14})
	text(`    3 facts  lighthouse at dusk
           14 bars cut, 14 left: nothing says that any went
`)
	keep(batch.SetAside{Task: "cut/retained", Piece: batch.RetainedBar, Count: 1})
	keep(batch.Tested{Task: "test/look", Test: batch.LookTest, Words: "sound", Passed: true})
	keep(batch.BarsWent{Where: "the harbour market", Count: 6})
	keep(batch.BarsWent{Where: "the chandler", Count: 3, Said: batch.Said{When: at.Wall.AddDate(0, 0, -1)}})
	text(`    7 facts  lighthouse at dusk
           14 bars cut, 1 kept back, 1 cut open for a look, 3 left
           2026-03-01  3 to the chandler
           2026-03-02  6 to the harbour market
`)
	keep(batch.Corrected{Seq: 6, Reason: "read wrong", With: batch.BarsWent{Where: "the harbour market", Count: 11}})
	text(`    8 facts  lighthouse at dusk
           14 bars cut, 1 kept back, 1 cut open for a look, 2 more than there were are said to have gone
           2026-03-01  3 to the chandler
           2026-03-02  11 to the harbour market
`)
	keep(batch.Withdrawn{Seq: 7, Reason: "they came back"})
	keep(batch.BarsWent{Where: "my sister"})
	text(`   10 facts  lighthouse at dusk
           14 bars cut, 1 kept back, 1 cut open for a look, at most 1 left: some went uncounted
           2026-03-02  11 to the harbour market
           2026-03-02  some to my sister
`)
	if found, err := l.Find(Query{Material: "sea"}); err != nil || len(found) != 1 || found[0].Bars != nil {
		t.Errorf("without a lot: %+v, %v", found, err)
	}
}

// TestFindNotWhatNeverWentIn: sticks and dough of a batch that was ended before any was laid
// are not found in it.
func TestFindNotWhatNeverWentIn(t *testing.T) {
	l := past(t, 0)
	at := timer.Moment{Wall: time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)}
	control := sample.Control(t, "lighthouse-at-dusk.yaml", 1)
	dough, _ := control.Material(control.Recipe.Layers[0].Embeds[0].Dough)
	code, _, err := l.Start(control, at)
	if err == nil {
		_, err = l.Append(code, batch.Closed{Reason: "fog"}, at)
	}
	found, err2 := l.Find(Query{Lot: dough.Lot})
	if err != nil || err2 != nil || dough.Lot == "" || len(found) > 0 {
		t.Errorf("%q: %+v, %v, %v", dough.Lot, found, err, err2)
	}
}
