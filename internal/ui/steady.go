package ui

import (
	"strings"
	"time"

	"bench/internal/timer"
	"bench/internal/ui/intent"
	"bench/internal/watch"
)

// steady is the bench around its timers, which seconds do not change: one that
// passes costs the lines of the timers and not a screen.
type steady struct {
	from         timer.Moment
	lasts        time.Duration // lasts is how long no timer does more than count.
	above, below string
	rows         int // rows is how many lines of timers stand between them.
}

// seconds gives what is to be kept of the next view, while nothing but seconds pass;
// nil is nothing.
func (m Model) seconds(list []watch.Timer) *steady {
	if m.page != intent.PageBench || m.small() || m.deps.Practice.On() || !m.bench.Steady(m.now) {
		return nil
	}
	lasts, some := timer.NextChange(timersOf(list), m.now, time.Minute)
	if !some {
		return nil
	}
	return &steady{from: m.now, lasts: lasts}
}

// keep takes up what lies around the timers in a view.
func (s *steady) keep(view, timers string, now timer.Moment) {
	if timers == "" || !s.holds(now) {
		return
	}
	if above, below, ok := strings.Cut(view, timers); ok {
		s.above, s.below, s.rows = above, below, strings.Count(timers, "\n")
	}
}

// with gives the view with its timers as they are now, or "" where it is not kept.
func (s *steady) with(timers string, now timer.Moment) string {
	if !s.holds(now) || s.above == "" || s.rows != strings.Count(timers, "\n") {
		return ""
	}
	return s.above + timers + s.below
}

// holds says that only seconds have passed: neither has a timer done more, nor has the
// minute turned, and with it perhaps the day, which is said of times.
func (s *steady) holds(now timer.Moment) bool {
	if s == nil {
		return false
	}
	gone, _ := now.Since(s.from)
	return gone < s.lasts && now.Wall.Truncate(time.Minute).Equal(s.from.Wall.Truncate(time.Minute))
}

func timersOf(list []watch.Timer) []timer.Timer {
	all := make([]timer.Timer, len(list))
	for i, t := range list {
		all[i] = t.Timer
	}
	return all
}
