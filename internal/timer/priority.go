package timer

import "time"

// Priority ranks an alarm by what it costs to miss it and by how long there is
// to act, as alarm handling has it (IEC 62682, ISA-18.2).
type Priority int

// The priorities, the highest first; an alarm that nobody ranked is loud.
const (
	ActNow Priority = iota // ActNow is lost in minutes: it sounds until somebody answers.
	Soon                   // Soon has hours: it sounds three times.
	Later                  // Later has days: it is listed, and makes no sound.
)

// How often an alarm sounds (our own choice, no source): fast enough to be heard
// over a tap and a mixer, slow enough to work beside.
const (
	soundNow  = 10 * time.Second
	soundSoon = time.Minute
	timesSoon = 3
)

// String names the priority in the words of the screen.
func (p Priority) String() string {
	switch p {
	case ActNow:
		return "act now"
	case Soon:
		return "soon"
	case Later:
		return "later"
	default:
		return "unknown"
	}
}

// Sounds gives how often an alarm has sounded that asks, heard by somebody or
// not, for so long.
func (p Priority) Sounds(asking time.Duration) int {
	switch p {
	case ActNow:
		return 1 + int(asking/soundNow)
	case Soon:
		return min(timesSoon, 1+int(asking/soundSoon))
	default:
		return 0
	}
}

// NextSound gives the time until it sounds again, or false when it does not.
func (p Priority) NextSound(asking time.Duration) (time.Duration, bool) {
	switch {
	case p == ActNow:
		return soundNow - asking%soundNow, true
	case p == Soon && p.Sounds(asking) < timesSoon:
		return soundSoon - asking%soundSoon, true
	}
	return 0, false
}
