package judge_test

import (
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/judge"
)

// TestReworkable: a batch is made of another that there is, and of no more than it was.
func TestReworkable(t *testing.T) {
	b := lighthouse(t)
	b.WorkTo(t, "gel/1 h")
	made := b.Plan().Poured().All
	for _, c := range []struct {
		f       batch.Reworks
		earlier batch.State
		want    string
	}{
		{batch.Reworks{Batch: "26C02A", Mass: made}, b.State, ""},
		{batch.Reworks{Batch: "26C02A"}, b.State, ""},
		{batch.Reworks{Batch: "26C02A", Mass: made * 11 / 10}, b.State, "more than batch 26C02A was"},
		{batch.Reworks{Batch: "999999Z"}, batch.State{}, "there is no batch 999999Z"},
		{batch.Reworks{Batch: "26C03A"}, b.State, "not made of itself"},
	} {
		err := judge.Reworkable("26C03A", c.f, c.earlier)
		if c.want == "" && err != nil || c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)) {
			t.Errorf("%+v: %v, want %q", c.f, err, c.want)
		}
	}
}
