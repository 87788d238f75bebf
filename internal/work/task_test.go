package work

import (
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/timer"
)

const g = quantity.Gram

// TestReadings: what a scale shows at the target, by hand, and which of the two numbers
// a person typed (that one reads the display and not the difference is common practice,
// no source).
func TestReadings(t *testing.T) {
	jug := Task{Do: Weigh, Target: 70 * g, Tare: 150 * g, SoFar: 20 * g, Tolerance: 2 * g, Reads: g / 10}
	second := jug
	second.Mass, second.SoFar = 30*g, 50*g // One container brought 30 g.
	over := jug
	over.Mass, over.SoFar = 75*g, 95*g
	cup := Task{Do: Weigh, Target: 4 * g, SoFar: 4 * g, Tare: 9 * g, FromCup: true, Reads: g / 100}
	fuller := cup
	fuller.SoFar = 5 * g // A gram of it stays.
	portion := Task{Do: Portion, Target: 300 * g, Tare: 600 * g, SoFar: 1500 * g, StopAt: 1200 * g, Reads: g / 10}
	untared := jug
	untared.Tare = 0
	for name, c := range map[string]struct {
		t                         Task
		remaining, stays, untared quantity.Mass
		typed, net                quantity.Mass // net is what went in if typed is the whole reading.
		is                        bool
	}{
		"a jug with something in it":   {jug, 70 * g, 0, 240 * g, 239 * g, 69 * g, true},
		"a second container":           {second, 40 * g, 0, 240 * g, 242 * g, 42 * g, true},
		"more than was asked":          {over, 0, 0, 245 * g, 245 * g, 0, true},
		"what went in":                 {jug, 70 * g, 0, 240 * g, 71 * g, 0, false},
		"neither":                      {jug, 70 * g, 0, 240 * g, 150 * g, 0, false},
		"a cup that is emptied":        {cup, 4 * g, 0, 13 * g, 13 * g, 4 * g, true},
		"a cup that keeps some of it":  {fuller, 4 * g, g, 10 * g, 10*g + g/100, 4*g - g/100, true},
		"a pot that is poured out of":  {portion, 300 * g, 0, 1200 * g, 1200 * g, 0, false},
		"a vessel of no known weight":  {untared, 70 * g, 0, 90 * g, 90 * g, 0, false},
		"at the edge of the tolerance": {jug, 70 * g, 0, 240 * g, 242*g + 1, 0, false},
	} {
		if got := c.t.Remaining(); got != c.remaining {
			t.Errorf("%s: %s to go, want %s", name, got, c.remaining)
		}
		if got := c.t.Stays(); got != c.stays {
			t.Errorf("%s: %s stays, want %s", name, got, c.stays)
		}
		if got := c.t.Untared(); got != c.untared {
			t.Errorf("%s: reads %s, want %s", name, got, c.untared)
		}
		if got, is := c.t.Net(c.typed); is != c.is || got != c.net {
			t.Errorf("%s: typed %s is %s, %v; want %s, %v", name, c.typed, got, is, c.net, c.is)
		}
	}
}

func TestNumeric(t *testing.T) {
	for do, want := range map[Do]bool{
		Tick: false, Look: false, Confirm: false, Choose: false, Weigh: true, Portion: true, Gross: true,
		Temperature: true, Count: true, Bars: true, Aside: true, WeighIn: true, Measure: true,
	} {
		if got := (Task{Do: do}).Numeric(); got != want {
			t.Errorf("%s: %v", do, got)
		}
	}
}

func TestLoaves(t *testing.T) {
	for loaf := range 12 {
		for _, id := range []string{OfLoaf("unmould", loaf), OfLoaf("sea/dusk", loaf) + "/pour"} {
			if got := LoafOf(id); got != loaf+1 {
				t.Errorf("%s is of loaf %d", id, got)
			}
		}
	}
	for _, id := range []string{"", "sea/water", "cut/side", "sea/loaf x"} {
		if got := LoafOf(id); got != 0 {
			t.Errorf("%s is of loaf %d", id, got)
		}
	}
}

// TestTicked: a task is done by a tick, or left out with its reason; a fact that was
// taken back does it no more.
func TestTicked(t *testing.T) {
	at := timer.Moment{Wall: time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)}
	state := func(facts ...batch.Fact) (s batch.State) {
		for i, f := range facts {
			s = s.Apply(batch.Entry{Seq: i + 1, At: at, Fact: f})
		}
		return s
	}
	for name, c := range map[string]struct {
		s       batch.State
		done    bool
		skipped string
	}{
		"not yet":    {state(batch.Ticked{Task: "cover/wrap"}), false, ""},
		"ticked":     {state(batch.Ticked{Task: "cover/cover"}), true, ""},
		"left out":   {state(batch.Skipped{Task: "cover/cover", Reason: "warm night"}), true, "warm night"},
		"taken back": {state(batch.Ticked{Task: "cover/cover"}, batch.Withdrawn{Seq: 1, Reason: "another batch"}), false, ""},
	} {
		got := Ticked(c.s, "cover/cover", "Cover the moulds", "")
		if got.Done != c.done || got.Skipped != c.skipped || got.Do != Tick {
			t.Errorf("%s: %+v", name, got)
		}
		if c.done && (got.Seq != 1 || got.At != at) {
			t.Errorf("%s: by fact %d at %v", name, got.Seq, got.At)
		}
	}
}
