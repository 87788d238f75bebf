// Package agenda gives the days that lie ahead of a batch as events that keep
// their identity while their dates move.
//
// The rule: everything follows from the facts, the count of moves too, so that
// two calendars written from the same facts are the same. No clock is asked.
package agenda

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"
	"time"

	"bench/internal/batch"
	"bench/internal/rest"
	"bench/internal/steps"
	"bench/internal/work"
)

// Event is one day, or moment, of a batch.
type Event struct {
	ID       string // ID is the same for this event of this batch for ever, and for no other anywhere.
	Batch    string
	Step     string // Step is the id that steps gives it, such as "unmould".
	Label    string
	At       time.Time
	Known    bool // Known says that it counts from something that has happened.
	Gone     bool // Gone says that it was done, or is not to be any more.
	Sequence int  // Sequence counts how often it changed (RFC 5545, 3.8.7.4).
	Revised  time.Time
}

// still is how little a date may differ and count as the same: clocks are set
// right by seconds all day long.
const still = time.Minute

// Of gives the events of a batch in the order in which they first came up. Each
// fact from the last pour on is asked what it moves.
func Of(code string, s batch.State) []Event {
	var list []Event
	place := map[string]int{}
	for n := firstPour(s); n > 0 && n <= len(s.Entries); n++ {
		e := s.Entries[n-1]
		if !moves(e.Fact) {
			continue
		}
		plan := steps.Of(batch.Fold(s.Entries[:n]))
		seen := map[string]bool{}
		for _, d := range plan.Ahead(e.At) {
			seen[d.ID] = true
			i, ok := place[d.ID]
			if !ok {
				place[d.ID] = len(list)
				list = append(list, Event{
					ID: identity(code, d.ID, s), Batch: code, Step: d.ID, Label: d.Label, At: d.At, Known: d.Known, Revised: e.At.Wall,
				})
				continue
			}
			list[i].revise(d, e.At.Wall)
		}
		for i := range list {
			if !seen[list[i].Step] && !list[i].Gone {
				list[i].Gone = true
				list[i].changed(e.At.Wall)
			}
		}
	}
	return list
}

// Lasting leaves out what was done or given up and whose day is over: it takes up
// nobody's days ahead. What was given up and lies ahead stays, as cancelled under the
// same identity with a higher sequence (RFC 5545, 3.8.1.11 and 3.8.7.4), or a calendar
// that has it would keep it.
func Lasting(events []Event, now time.Time) []Event {
	return slices.DeleteFunc(events, func(e Event) bool { return e.Gone && e.At.Before(now) && !sameDay(e.At, now) })
}

func sameDay(a, b time.Time) bool {
	return a.Format(time.DateOnly) == b.In(a.Location()).Format(time.DateOnly)
}

// MayHaveDays says whether days of a batch may still lie ahead, from its rules and
// without a plan: none comes later than its usual cure and some weeks of putting off.
func MayHaveDays(s batch.State, now time.Time) bool {
	if !s.Begun() {
		return false
	}
	r := s.Control.Recipe
	last := s.Entries[len(s.Entries)-1].At.Wall
	return last.Add(r.Unmould + r.Cure.Or().Usual + putOffAtMost).After(now)
}

// putOffAtMost is longer than an unmoulding is put off (common practice, no source).
const putOffAtMost = 30 * 24 * time.Hour

func (e *Event) revise(d rest.Date, at time.Time) {
	off := d.At.Sub(e.At).Abs()
	if off < still && d.Label == e.Label && d.Known == e.Known && !e.Gone {
		return
	}
	if off >= still {
		e.At = d.At
	}
	e.Label, e.Known, e.Gone = d.Label, d.Known, false
	e.changed(at)
}

func (e *Event) changed(at time.Time) {
	e.Sequence++
	e.Revised = at
}

// moves says that a fact may move a date. Weighings, notes and readings do not.
func moves(f batch.Fact) bool {
	switch f.(type) {
	case batch.Weighed, batch.Grossed, batch.TemperatureTaken, batch.Noted, batch.Decided, batch.WarningSeen, batch.PotWeighed, batch.PotAnswered, batch.VesselReplaced, batch.SharedAnswered,
		batch.GelLooked, batch.SetAside, batch.Reworks, batch.LimitStated, batch.Complained, batch.BarsWent:
		return false
	case batch.Started, batch.Ticked, batch.Skipped, batch.TimerSeen, batch.TimerPutOff, batch.Corrected, batch.Withdrawn, batch.Closed, batch.Stopped,
		batch.UnmouldPutOff, batch.BarsCut, batch.BarsWeighed, batch.Marked, batch.WeighedIn, batch.Tested, batch.Released, batch.Held:
		return true
	}
	return true
}

// firstPour gives the number of the fact from which on dates can be known: the
// first pour of the last layer; 0 is none yet.
func firstPour(s batch.State) int {
	layers := s.Control.Recipe.Layers
	if len(layers) == 0 {
		return 0
	}
	last, first := layers[len(layers)-1].Name, 0
	for _, st := range steps.Of(s).Stages {
		if st.Layer != last || st.Kind != work.Pour && st.Kind != work.ScentAndPour {
			continue
		}
		for _, t := range st.Tasks {
			if t.Seq > 0 && (first == 0 || t.Seq < first) {
				first = t.Seq
			}
		}
	}
	return first
}

// identity is unique beyond one store: two makers may use one code.
func identity(code, step string, s batch.State) string {
	sum := sha256.Sum256(fmt.Appendf(nil, "%s\n%s\n%s", code, s.Entries[0].At.Wall.UTC().Format(time.RFC3339Nano), s.Control.Hash))
	return fmt.Sprintf("%s.%s.%s@bench", step, code, hex.EncodeToString(sum[:8]))
}
