// Package timer holds when things are due, as values.
//
// The rule: nothing here counts. A timer is a start, a length and what was said
// about it; what it shows follows from the moment that is passed in, so that a
// restart, a suspended laptop or a closed lid changes nothing.
package timer

import "time"

// Moment is an instant as the machine knew it: the wall clock with its offset,
// and the time since which boot. Two moments of one boot are compared by the
// boot clock, which counts through suspend and which nobody sets.
type Moment struct {
	Wall      time.Time     `json:"wall"`
	Boot      string        `json:"boot,omitempty"`
	SinceBoot time.Duration `json:"since_boot,omitempty"`
}

// Since gives the time from start to m, and whether the boot clock vouches for
// it; when it does not, the wall clocks are compared, and a clock that was set
// back gives zero, never a negative time.
func (m Moment) Since(start Moment) (elapsed time.Duration, byBoot bool) {
	if m.Boot != "" && m.Boot == start.Boot {
		return max(0, m.SinceBoot-start.SinceBoot), true
	}
	return max(0, m.Wall.Sub(start.Wall)), false
}

// Same says that two moments are one, with the same offset, however their clocks
// came to know it.
func (m Moment) Same(n Moment) bool {
	_, here := m.Wall.Zone()
	_, there := n.Wall.Zone()
	return m.Wall.Equal(n.Wall) && here == there && m.Boot == n.Boot && m.SinceBoot == n.SinceBoot
}

// Fixed gives the moment as it is kept: its offset stays, and the rules of the
// place that it came from do not.
func (m Moment) Fixed() Moment {
	_, offset := m.Wall.Zone()
	m.Wall = m.Wall.In(time.FixedZone("", offset))
	return m
}

// IsZero says that the moment was never set.
func (m Moment) IsZero() bool { return m.Wall.IsZero() && m.Boot == "" }
