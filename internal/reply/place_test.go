package reply_test

import (
	"strings"
	"testing"
	"time"

	"bench/internal/front"
	"bench/internal/reply"
)

// TestComesNext: of the days ahead and the timers that run, the first is told: the first
// look at the gel comes an hour after the pour, the unmoulding a day after it.
func TestComesNext(t *testing.T) {
	b := at(t, 1, "gel/1 h")
	here := func() front.UnderWay {
		return front.Planned(front.BatchItem{Code: "A", State: b.State})
	}
	if got := reply.ComesNext(here(), b.Now); !strings.HasPrefix(got, "look at the gel in ") {
		t.Errorf("after the pour comes %q", got)
	}
	b.Wait(20 * time.Hour) // All looks are due by then, and ask for themselves.
	if got := reply.ComesNext(here(), b.Now); !strings.HasPrefix(got, "unmould 1 loaf in ") {
		t.Errorf("20 h later comes %q", got)
	}
	b = at(t, 1, "sea/water")
	if got := reply.ComesNext(here(), b.Now); got != "" {
		t.Errorf("before the pour comes %q", got)
	}
}
