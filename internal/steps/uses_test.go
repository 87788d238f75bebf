package steps_test

import (
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/quantity"
)

// TestTooSmall: a vessel of the workshop whose brim is stated is held to it in the plan;
// the volume is worked out by hand here.
func TestTooSmall(t *testing.T) {
	c := harbour()
	c.Vessels[0].Brim = 2 * quantity.Litre // 1862 g of batter at 0.889 g/ml are 2094 ml.
	c.Vessels[1].Brim = 3 * quantity.Litre
	words := strings.Join(begin(c).plan().Warnings, "\n")
	if !strings.Contains(words, "pot 1 holds 2000 ml to the brim, and the 1862 g that go into it may take 2094 ml: take a larger one") || strings.Contains(words, "pot 2") {
		t.Errorf("warned:\n%s", words)
	}
	b := begin(c)
	b.put(batch.VesselReplaced{Vessel: "pot 1", By: "kettle", Tare: 900 * g, Brim: 2200 * quantity.Millilitre})
	if words := strings.Join(b.plan().Warnings, "\n"); strings.Contains(words, "brim") {
		t.Errorf("a large kettle was taken, and warned:\n%s", words)
	}
}

// TestClashes: before a batch, what others have of its vessels and moulds is told.
func TestClashes(t *testing.T) {
	a := begin(harbour())
	a.workTo(t, "sea/sea/scent in")
	others := a.plan().Occupies("26K25A")
	if words := strings.Join(begin(harbour()).plan().Clashes(others), "\n"); !strings.Contains(words, "cup 1 holds the harbour rope for sea of batch 26K25A") {
		t.Errorf("the scent waits in its cup:\n%s", words)
	}
	a.workTo(t, "sea/sea/loaf 3")
	others = a.plan().Occupies("26K25A")
	words := strings.Join(begin(harbour()).plan().Clashes(others), "\n")
	for _, want := range []string{
		"pot 1 holds the sea batter of batch 26K25A: have another ready for the sea oils",
		"jug 1 holds loaf 1's portion of sea of batch 26K25A", "jug 2 holds loaf 2's",
		"3 of 3 moulds called loaf mould are in use for batch 26K25A, and this one wants 3 moulds",
	} {
		if !strings.Contains(words, want) {
			t.Errorf("%q is not among:\n%s", want, words)
		}
	}
	if strings.Contains(words, "jug 3") || strings.Contains(words, "pot 2") {
		t.Errorf("those are free:\n%s", words)
	}
	if got := begin(harbour()).plan().Clashes(nil); len(got) > 0 {
		t.Errorf("nobody else is at work: %q", got)
	}
	few := harbour()
	few.Loaves, few.Recipe.Loaves, few.Mould.Count = 1, 1, 4
	if words := strings.Join(begin(few).plan().Clashes(others), "\n"); strings.Contains(words, "mould") {
		t.Errorf("one of four is free:\n%s", words)
	}
}
