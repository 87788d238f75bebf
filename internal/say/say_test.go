package say_test

import (
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/say"
	"bench/internal/steps"
	"bench/internal/timer"
)

const g, tenth = quantity.Gram, quantity.Gram / 10

// TestFact: without a plan a task has its id for a name.
func TestFact(t *testing.T) {
	noon := time.Date(2026, 3, 9, 12, 0, 0, 0, time.UTC)
	for want, f := range map[string]batch.Fact{
		"batch ended early: the power went":         batch.Closed{Reason: "the power went"},
		"batch closed":                              batch.Closed{},
		"batch closed; jug 1 (lye) emptied: rinsed": batch.Closed{Left: batch.Left{Vessel: "jug 1", Held: "lye", Emptied: true, Answer: "rinsed"}.String()},
		"batch ended, and vessels hold something still: fog; jug 1 (lye) kept: top shelf": batch.Stopped{Reason: "fog", Left: []batch.Left{{Vessel: "jug 1", Held: "lye", Answer: "top shelf"}}},
		"note: fog over the harbour":                                              batch.Noted{Text: "fog over the harbour"},
		"jug 2 taken instead of jug 1 for the sea batter, 214 g empty":            batch.VesselReplaced{Vessel: "jug 1", By: "jug 2", Tare: 214 * g, Held: "the sea batter"},
		"bowl taken instead of jug 1, 214 g empty, 1500 ml to the brim":           batch.VesselReplaced{Vessel: "jug 1", By: "bowl", Tare: 214 * g, Brim: 1500 * quantity.Millilitre},
		"jug 1 holds sea batter of batch 26K25A: free":                            batch.SharedAnswered{Shared: "jug 1 holds sea batter of batch 26K25A", Answer: "free"},
		"sea/water: add what is missing (2.50 g)":                                 batch.Decided{Task: "sea/water", Way: batch.AddMissing, Mass: 2*g + g/2},
		"left out: sea/melt (all soft)":                                           batch.Skipped{Task: "sea/melt", Reason: "all soft"},
		"sea/melt, at 11:15":                                                      batch.Ticked{Task: "sea/melt", When: noon.Add(-45 * time.Minute)},
		"sea/melt, at 2026-03-08 12:00":                                           batch.Ticked{Task: "sea/melt", When: noon.AddDate(0, 0, -1)},
		"seen: look at moon":                                                      batch.TimerSeen{Timer: "look/moon/firm/1"},
		"put off for 10 min: sea batter since the lye went in":                    batch.TimerPutOff{Timer: "batter/sea", For: 10 * time.Minute},
		"Olive oil 12.0 g by eye, not weighed":                                    batch.Weighed{Material: "Olive oil", Mass: 12 * g, Reads: tenth, How: batch.ByEye},
		"Olive oil 12.0 g, asked 13.0":                                            batch.Weighed{Material: "Olive oil", Mass: 12 * g, Target: 13 * g, Reads: tenth},
		"read, and answered 4.8: too little superfat":                             batch.WarningSeen{Warning: "too little superfat", Typed: "4.8"},
		"read: too little superfat":                                               batch.WarningSeen{Warning: "too little superfat"},
		"12 bars went to the market stall":                                        batch.BarsWent{Count: 12, Where: "the market stall"},
		"corrected no. 7: note: dusk (was: no entry; why: nobody had written it)": batch.Corrected{Seq: 7, With: batch.Noted{Text: "dusk"}, Reason: "nobody had written it"},
	} {
		e := batch.Entry{Seq: 1, At: timer.Moment{Wall: noon}, Fact: f}
		if got := say.Fact(e, steps.Plan{}, batch.State{}); got != want {
			t.Errorf("%T is %q, want %q", f, got, want)
		}
	}
}

// TestLastOfSeveral: what the last container brought is no shortfall.
func TestLastOfSeveral(t *testing.T) {
	var s batch.State
	for i, mass := range []quantity.Mass{100_000, 27_600} {
		s = s.Apply(batch.Entry{Seq: i + 1, Fact: batch.Weighed{Task: "sea/castor", Material: "Castor oil", Target: 127_600, Mass: mass, How: batch.Typed, Reads: 100, More: i == 0}})
	}
	for i, want := range []string{"Castor oil 100.0 g, more to come", "Castor oil 27.6 g, asked 127.6 (127.6 g in 2 goes)"} {
		if got := say.Fact(s.Entries[i], steps.Plan{}, s); !strings.HasSuffix(got, want) {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
