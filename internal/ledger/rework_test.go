package ledger

import (
	"errors"
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/front"
	"bench/internal/quantity"
	"bench/internal/sample"
	"bench/internal/timer"
)

// TestReworkOfNoBatch: what points at a batch that is not there, or was less, is not kept,
// and what points at one that is, is.
func TestReworkOfNoBatch(t *testing.T) {
	l := past(t, 0)
	at := timer.Moment{Wall: time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)}
	control := sample.Control(t, "lighthouse-at-dusk.yaml", 1)
	earlier, _, err := l.Start(control, at)
	if err != nil {
		t.Fatal(err)
	}
	code, _, err := l.Start(control, at)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		f    batch.Reworks
		want string
	}{
		{batch.Reworks{Batch: "999999Z", Reason: "too soft"}, "there is no batch 999999Z"},
		{batch.Reworks{Batch: code, Reason: "too soft"}, "not made of itself"},
		{batch.Reworks{Batch: earlier, Mass: 9000 * quantity.Gram, Reason: "too soft"}, "more than batch " + earlier},
		{batch.Reworks{Batch: earlier, Mass: 900 * quantity.Gram, Reason: "too soft"}, ""},
	} {
		_, err := l.Append(code, c.f, at)
		if c.want == "" && err != nil || c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)) {
			t.Errorf("%+v: %v, want %q", c.f, err, c.want)
		}
		var refused *front.RefusedError
		if errors.As(err, &refused) != (c.want != "") {
			t.Errorf("%+v: %v is said as a write that failed", c.f, err)
		}
	}
	s, err := l.State(code)
	if kept := batch.All[batch.Reworks](s); err != nil || len(kept) != 1 || kept[0].Fact.Mass != 900*quantity.Gram {
		t.Errorf("%+v, %v", kept, err)
	}
}
