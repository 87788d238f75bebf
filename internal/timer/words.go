package timer

import (
	"fmt"
	"time"
)

// Words says a length of time the way a person would: seconds under two
// minutes, minutes under two hours, then hours and days. It rounds down, so
// that "5 min" is never said before five minutes are over.
func Words(d time.Duration) string {
	if d < 0 {
		d = -d
	}
	switch {
	case d < 2*time.Minute:
		return fmt.Sprintf("%d s", int(d.Seconds()))
	case d < 2*time.Hour:
		return fmt.Sprintf("%d min", int(d.Minutes()))
	case d < 48*time.Hour:
		h := int(d.Hours())
		return fmt.Sprintf("%d h %02d min", h, int(d.Minutes())-60*h)
	default:
		days := int(d.Hours()) / 24
		return fmt.Sprintf("%d d %d h", days, int(d.Hours())-24*days)
	}
}

// Say puts the timer in words: "in 14 min", "late by 3 h 10 min", "for 4 min".
func (t Timer) Say(now Moment) string {
	left := t.Left(now)
	switch t.State(now) {
	case Acknowledged:
		return "seen"
	case PutOff:
		return "put off for " + Words(left)
	case Due:
		if left > -time.Minute {
			return "due now"
		}
		return "late by " + Words(left)
	default:
		if t.CountsUp() {
			return "for " + Words(left)
		}
		return "in " + Words(left+time.Second-1)
	}
}
