package reply

import (
	"fmt"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/resume"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/work"
)

// InAlready says of a task that by the vessel's weight it was done, though nobody said
// so, or "": what is poured twice is too much.
func InAlready(p steps.Plan, t work.Task) string {
	u, ok := resume.InAlready(p)
	if !ok || u.Task.ID != t.ID {
		return ""
	}
	if t.Do == work.Portion {
		return fmt.Sprintf("it is out already, by the weight of %s: pour none, type %s", t.Vessel, u.Gross.At(t.Reads))
	}
	return fmt.Sprintf("%s is in already, by the weight of %s: pour none, type %s", t.Material, t.Vessel, u.Mass.At(t.Reads))
}

// Found says what was found to be in a vessel without a fact.
func Found(u resume.Unsaid) string {
	t := u.Task
	if t.Do == work.Portion {
		return fmt.Sprintf("%s: it is out already, by the weight of %s: %s g, asked %s. Pour none.", t.Title, t.Vessel, u.Mass.At(t.Reads), t.Remaining().At(t.Reads))
	}
	return fmt.Sprintf("%s is in already, by the weight of %s: %s g, asked %s. Pour none.", t.Material, t.Vessel, u.Mass.At(t.Reads), t.Remaining().At(t.Reads))
}

// KeepInAlready says what was found to be in a vessel without a fact, or out of it, and keeps it as
// the scale read it; nil where nothing was found, or where it must be typed.
func KeepInAlready(code string, p steps.Plan, at timer.Moment) (u resume.Unsaid, act Act) {
	u, ok := resume.InAlready(p)
	if !ok || u.Task.MustType {
		return u, nil
	}
	reads := u.Mass
	if u.Task.Do == work.Portion { // It is answered by what the vessel reads.
		reads = u.Gross
	}
	f, err := judge.Fact(p, u.Task.ID, judge.Answer{How: batch.Typed, Text: reads.At(u.Task.Reads)})
	if err == nil {
		act, _ = allowed(code, p, byLook(p, f), at)
	}
	return u, act
}
