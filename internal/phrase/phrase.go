// Package phrase says moments, timers and errors in words, the same on every front.
//
// The rule: words come out, without a width, a colour or a key.
package phrase

import (
	"strings"
	"time"

	"bench/internal/recipe"
	"bench/internal/timer"
)

// Stamp gives the time of day, with the date when it is not today's.
func Stamp(m, now timer.Moment, at *time.Location) string {
	then := m.Wall.In(at)
	if then.Format(time.DateOnly) == now.Wall.In(at).Format(time.DateOnly) {
		return then.Format("15:04")
	}
	return then.Format("2 Jan 15:04")
}

// Sentence makes an error into one: it begins large and ends with a stop.
func Sentence(err error) string {
	s := strings.TrimSpace(recipe.Clean(err.Error()))
	if s == "" {
		return s
	}
	if !strings.HasPrefix(s, "pH ") { // A symbol keeps its letters.
		s = recipe.Capital(s)
	}
	if strings.ContainsAny(s[len(s)-1:], ".!?") {
		return s
	}
	return s + "."
}

// Timing says when a timer falls due, or until when it was put off.
func Timing(t timer.Timer, now timer.Moment, at *time.Location) string {
	switch state := t.State(now); {
	case state == timer.PutOff:
		return "put off until " + Stamp(timer.Moment{Wall: t.AsksAt(now)}, now, at)
	case state == timer.Running && !t.CountsUp():
		return t.Say(now) + " (" + Stamp(timer.Moment{Wall: t.AsksAt(now)}, now, at) + ")"
	}
	return t.Say(now)
}
