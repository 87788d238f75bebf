package work_test

import (
	"testing"

	"bench/internal/work"
)

// TestStageWaits: an open stage in which no task can be done waits for what its first
// task waits for; one task that can be done is enough to begin.
func TestStageWaits(t *testing.T) {
	cut := work.Task{Done: true}
	one, two := work.Task{Waits: "waits for: Cut loaf 1"}, work.Task{Waits: "waits for: Cut loaf 2"}
	for want, s := range map[string]work.Stage{
		"waits for cut":         {Blocked: "waits for cut", Tasks: []work.Task{{Open: true}}},
		"waits for: Cut loaf 1": {Tasks: []work.Task{cut, one, two}},
		"":                      {Tasks: []work.Task{one, {Open: true}}},
	} {
		if got := s.Waits(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
