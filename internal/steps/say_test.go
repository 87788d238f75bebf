package steps_test

import (
	"strings"
	"testing"

	"bench/internal/batch"
)

// TestLastOfSeveralIsSaidWithItsSum: what the last container brought is no shortfall.
func TestLastOfSeveralIsSaidWithItsSum(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/castor")
	const first, second, all = 100_000, 27_600, 127_600
	b.put(batch.Weighed{Task: "sea/castor", Material: "Castor oil", Target: all, Mass: first, How: batch.Typed, Reads: 100, More: true})
	b.put(batch.Weighed{Task: "sea/castor", Material: "Castor oil", Target: all, Mass: second, How: batch.Typed, Reads: 100})
	n := len(b.state.Entries)
	for i, want := range []string{"Castor oil 100.0 g, more to come", "Castor oil 27.6 g, asked 127.6 (127.6 g in 2 goes)"} {
		if got := b.plan().Say(b.state.Entries[n-2+i], b.state); !strings.HasSuffix(got, want) {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
