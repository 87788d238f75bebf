package timer

import "time"

// State is what a timer asks of the person. The words are those of alarm
// handling (ISA-18.2, IEC 62682).
type State int

// The states of a timer.
const (
	Running      State = iota // Running has not fallen due.
	Due                       // Due has fallen due and nobody has said so yet.
	PutOff                    // PutOff was due, and comes back by itself.
	Acknowledged              // Acknowledged was seen; it asks for nothing more.
)

// String names the state in the words of the screen.
func (s State) String() string {
	switch s {
	case Running:
		return "running"
	case Due:
		return "due"
	case PutOff:
		return "put off"
	case Acknowledged:
		return "seen"
	default:
		return "unknown"
	}
}

// Timer is a length of time from a start, with what was said about it.
type Timer struct {
	ID    string        // ID is stable across replans, such as "unmould".
	Label string        // Label says what to do then, in the imperative.
	Start Moment        // Start is the stamp of the fact that started it.
	After time.Duration // After is the length; zero counts up and never falls due.
	// Priority is how much it matters that somebody comes, and Presses for how long
	// it matters most: after that it is no more than Soon. Zero is without an end.
	Priority Priority
	Presses  time.Duration

	Seen     bool          // Seen says that the person acknowledged it.
	Deferred Moment        // Deferred is when it was last put off, or zero.
	DeferFor time.Duration // DeferFor is for how long, from Deferred.
}

// CountsUp says that the timer is a stopwatch: it shows the time gone.
func (t Timer) CountsUp() bool { return t.After == 0 }

// Remaining gives the time until the timer falls due; below zero it is late.
// For a stopwatch it is the time gone, below zero.
func (t Timer) Remaining(now Moment) time.Duration {
	gone, _ := now.Since(t.Start)
	return t.After - gone
}

// DueAt gives the wall time at which the timer falls due for the first time, by
// the wall clock as it stands now.
func (t Timer) DueAt(now Moment) time.Time { return now.Wall.Add(t.Remaining(now)) }

// Left gives the time until the timer falls due, or comes back after it was put
// off. Below zero it has asked for so long.
func (t Timer) Left(now Moment) time.Duration {
	if left := t.Remaining(now); left > 0 {
		return left
	}
	return t.AsksAt(now).Sub(now.Wall)
}

// AsksAt gives the wall time at which the timer asks: when it falls due, or later
// where it was put off for longer.
func (t Timer) AsksAt(now Moment) time.Time {
	left := t.Remaining(now)
	if !t.Deferred.IsZero() && !t.CountsUp() {
		gone, _ := now.Since(t.Deferred)
		left = max(left, t.DeferFor-gone)
	}
	return now.Wall.Add(left)
}

// PriorityAt gives what it costs to miss the timer at this moment.
func (t Timer) PriorityAt(now Moment) Priority {
	if t.Presses > 0 && -t.Remaining(now) >= t.Presses {
		return max(t.Priority, Soon)
	}
	return t.Priority
}

// State says what the timer asks for at this moment.
func (t Timer) State(now Moment) State {
	switch {
	case t.Seen:
		return Acknowledged
	case t.CountsUp() || t.Remaining(now) > 0:
		return Running
	case t.Left(now) > 0:
		return PutOff
	default:
		return Due
	}
}

// Asking gives how long the timer has been due, or due again.
func (t Timer) Asking(now Moment) time.Duration { return -t.Left(now) }

// NextChange gives the time until any of the timers looks different when shown
// to the given step (a second, a minute), or false when none will.
func NextChange(timers []Timer, now Moment, step time.Duration) (time.Duration, bool) {
	next, found := time.Duration(0), false
	for _, t := range timers {
		if t.State(now) == Acknowledged {
			continue
		}
		if change := t.nextChange(now, step); !found || change < next {
			next, found = change, true
		}
	}
	return next, found
}

// nextChange follows Say: what is put off is rounded down, what is still to come
// has a second's grace, and what is late or counts up changes on the step.
func (t Timer) nextChange(now Moment, step time.Duration) time.Duration {
	left := t.Left(now)
	switch state := t.State(now); {
	case state == PutOff:
		return min(left, left%step+1)
	case state == Running && !t.CountsUp():
		return min(left, (left+time.Second-1)%step+1)
	default:
		return left%step + step // left is zero or below.
	}
}
