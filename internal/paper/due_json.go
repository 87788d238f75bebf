package paper

import (
	"math"
	"time"

	"bench/internal/timer"
)

// Timer is a timer of one batch, for printing.
type Timer struct {
	Batch string
	timer.Timer
}

type timerJSON struct {
	Batch string `json:"batch"`
	ID    string `json:"timer"`
	Label string `json:"label"`
	State string `json:"state"`
	// Priority is of a timer that falls due: "act now", "soon" or "later".
	Priority string `json:"priority,omitempty"`

	Due      string `json:"due,omitempty"`
	FirstDue string `json:"first_due,omitempty"`
	InS      *int64 `json:"in_s,omitempty"`
	ForS     *int64 `json:"for_s,omitempty"`
}

// DueJSON writes the timers as indented JSON with a final line end.
func DueJSON(timers []Timer, now timer.Moment) ([]byte, error) {
	return indented(each(timers, func(t Timer) timerJSON { return timerToJSON(t, now) }))
}

func timerToJSON(t Timer, now timer.Moment) timerJSON {
	j := timerJSON{Batch: t.Batch, ID: t.ID, Label: t.Label, State: t.State(now).String()}
	seconds := int64(math.Ceil(t.Left(now).Seconds()))
	if t.CountsUp() {
		seconds = -seconds
		j.ForS = &seconds
		return j
	}
	j.Priority = t.PriorityAt(now).String()
	j.InS, j.Due = &seconds, t.AsksAt(now).Format(time.RFC3339)
	if first := t.DueAt(now).Format(time.RFC3339); first != j.Due {
		j.FirstDue = first
	}
	return j
}
