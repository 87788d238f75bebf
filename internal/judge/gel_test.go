package judge_test

import (
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/quantity"
	"bench/internal/sample"
	"bench/internal/work"
)

// TestWarmthOfALook: a temperature that a loaf which looks like that does not have is asked
// about (the limits are common practice, no source).
func TestWarmthOfALook(t *testing.T) {
	b := lighthouse(t)
	b.WorkTo(t, "gel/1 h")
	for _, c := range []struct {
		look  batch.GelLook
		warm  quantity.Temperature // in °C; 0 was not taken.
		asked string
	}{
		{batch.Rising, 3, "3 °C is too cool for a loaf that is rising"},
		{batch.Rising, 44, "too cool"},
		{batch.Rising, 70, ""},
		{batch.Rising, 0, ""},
		{batch.Gelling, 20, "too cool for a loaf that is gelling"},
		{batch.Gelling, 60, ""},
		{batch.NoGel, 24, ""},
		{batch.NoGel, 3, "no temperature of a loaf"},
		{batch.FullGel, 120, "no temperature of a loaf"},
	} {
		f := batch.GelLooked{Task: "gel/1 h", Look: c.look, Temperature: c.warm * quantity.Degree}
		got := judge.DoubtNow(b.Plan(), f, b.Now)
		if c.asked == "" && got != "" || !strings.Contains(got, c.asked) {
			t.Errorf("%s at %d °C: %q, want %q", c.look, c.warm, got, c.asked)
		}
		if err := judge.Allows(b.Plan(), f, b.Now); (err != nil) != (c.asked != "") {
			t.Errorf("%s at %d °C without an answer: %v", c.look, c.warm, err)
		}
	}
}

// TestOverheats: what is done about a loaf that overheats stands until it is looked at
// again, or that is left out.
func TestOverheats(t *testing.T) {
	b := sample.Begin(sample.Control(t, "lighthouse-at-dusk.yaml", 3))
	b.WorkTo(t, "gel/1 h")
	says := func(want string) {
		t.Helper()
		which, remedy := judge.Overheats(b.Plan())
		if which != want || (want != "") != strings.Contains(remedy, "Unwrap at once, a fan on it") {
			t.Errorf("%q, %q; want %q", which, remedy, want)
		}
	}
	again := func() string {
		t.Helper()
		for _, st := range b.Plan().Stages {
			for _, task := range st.Tasks {
				if st.Kind == work.GelStage && strings.HasPrefix(task.ID, "gel/again ") && !task.Done {
					return task.ID
				}
			}
		}
		t.Fatal("it is not to be looked at again")
		return ""
	}
	says("")
	b.Put(batch.GelLooked{Task: "gel/1 h", Loaves: []int{1, 3}, Look: batch.Rising})
	b.Put(batch.GelLooked{Task: "gel/1 h", Loaves: []int{2}, Look: batch.Gelling})
	says("loaf 1, loaf 3")
	b.Wait(10 * time.Minute)
	says("loaf 1, loaf 3")
	b.Put(batch.GelLooked{Task: again(), Loaves: []int{1}, Look: batch.FullGel})
	says("loaf 3")
	b.Put(batch.GelLooked{Task: again(), Loaves: []int{3}, Look: batch.Rising})
	says("loaf 3")
	b.Put(batch.Skipped{Task: again(), Reason: "it stands in the yard"})
	says("")
}
