package watch

import (
	"time"

	"bench/internal/timer"
)

// Ear notices alarms when they come up, and says when they sound. What fell due
// while bench was closed sounds from when bench was opened. Its zero value has
// heard nothing.
type Ear struct {
	opened timer.Moment
	heard  map[Name]heard
}

// heard is an alarm that was noticed at a moment and has sounded so often.
type heard struct {
	priority timer.Priority
	since    timer.Moment
	times    int
}

// Sound is what is to be heard and seen outside the window.
type Sound struct {
	Bell bool
	New  []Timer // New came up just now, while bench was open.
}

// Opened is when bench was opened, or zero before the first alarms were listened
// to.
func (e Ear) Opened() timer.Moment { return e.opened }

// Listen hears the timers as they stand now. In quiet hours only those of the
// first kind sound; others do when the hours are over, if nobody saw them.
func (e Ear) Listen(list []Timer, now timer.Moment, quiet bool) (Ear, Sound) {
	var sound Sound
	after := Ear{opened: e.opened}
	if e.opened.IsZero() {
		after.opened = now
	}
	for _, t := range list {
		if t.State(now) != timer.Due || quiet && t.Priority != timer.ActNow {
			continue
		}
		id := Name{t.Code, t.ID}
		h, known := e.heard[id]
		if !known {
			h = heard{since: now}
		}
		h.priority = t.Priority // It may have become less pressing.
		asking, _ := now.Since(h.since)
		if times := t.Priority.Sounds(asking); times > h.times {
			sound.Bell = true
			if h.times == 0 && !e.opened.IsZero() {
				sound.New = append(sound.New, t)
			}
			h.times = times
		}
		if after.heard == nil {
			after.heard = map[Name]heard{}
		}
		after.heard[id] = h
	}
	return after, sound
}

// Next gives the time until an alarm sounds again, or false when none will. A sound
// that fell due since it was last listened is waited for no longer.
func (e Ear) Next(now timer.Moment) (time.Duration, bool) {
	next, found := time.Duration(0), false
	for _, h := range e.heard {
		asking, _ := now.Since(h.since)
		if h.priority.Sounds(asking) > h.times {
			return 0, true
		}
		if d, sounds := h.priority.NextSound(asking); sounds && (!found || d < next) {
			next, found = d, true
		}
	}
	return next, found
}
