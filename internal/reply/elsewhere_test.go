package reply_test

import (
	"strings"
	"testing"
	"time"

	"bench/internal/front"
	"bench/internal/reply"
)

// TestAskedElsewhere: an alarm and lye solution that stands come before work that can be
// done; how many batches one goes on is counted in the order of going round; a batch that
// waits for a timer asks for nothing.
func TestAskedElsewhere(t *testing.T) {
	under := func(code, task string) front.UnderWay {
		b := at(t, 1, task)
		return front.Planned(front.BatchItem{Code: code, State: b.State})
	}
	b := at(t, 1, "gel/1 h")
	waits := front.Planned(front.BatchItem{Code: "waits", State: b.State})
	now := b.Now // The look fell due 5 min ago.
	now.Wall = now.Wall.Add(-10 * time.Minute)
	list := reply.AskedElsewhere([]front.UnderWay{under("work", "sea/water"), waits, under("lye", "sea/lye temperature")}, now)
	if len(list) != 2 || list[0].Code != "lye" || list[0].Round != 3 || list[1].Code != "work" || list[1].Round != 1 {
		t.Fatalf("%+v", list)
	}
	if lye := list[0]; len(lye.Waits) == 0 || !strings.HasPrefix(lye.Waits[0], "sea lye solution cooling for ") || !strings.HasPrefix(lye.Now, "gate") {
		t.Errorf("%+v", lye)
	}
	if work := list[1]; len(work.Waits) != 0 || !strings.Contains(work.Now, "Water into") {
		t.Errorf("%+v", work)
	}
	now = b.Now
	if list = reply.AskedElsewhere([]front.UnderWay{waits}, now); len(list) != 1 || !strings.HasPrefix(list[0].Waits[0], "look at the gel") || !strings.HasSuffix(list[0].Waits[0], "late by 5 min") {
		t.Errorf("an alarm: %+v", list)
	}
}
