package ui

import (
	"time"

	"bench/internal/timer"
	"bench/internal/watch"

	tea "github.com/charmbracelet/bubbletea"
)

// tickMsg says that a timer may look different now.
type tickMsg struct{ id int }

// ticks sees to it that one tick at most is on its way, and none without need.
type ticks struct {
	id    int
	due   timer.Moment // due is when the tick on its way comes; zero is none.
	after wait         // after waits by the clock of the program.
	truly wait         // truly waits by the time of hands and disks, whatever that clock does.
}

// wait brings a message after a time.
type wait func(time.Duration, func(time.Time) tea.Msg) tea.Cmd

// quickest keeps a clock that runs fast from being drawn more often than an eye
// can follow.
const quickest = 100 * time.Millisecond

// paced waits by a clock of that speed, which may change; nil is once.
func paced(speed func() float64) wait {
	if speed == nil {
		return tea.Tick
	}
	return func(d time.Duration, f func(time.Time) tea.Msg) tea.Cmd {
		s := speed()
		if s <= 1 && s > 0 { // A clock as slow as can be is looked at all the same.
			return tea.Tick(time.Duration(min(float64(d)/s, float64(time.Hour))), f)
		}
		return tea.Tick(max(quickest, time.Duration(float64(d)/s)), f)
	}
}

// fired takes note of a tick. One that was overtaken by an earlier one is not
// waited for, and changes nothing.
func (t ticks) fired(msg tickMsg) ticks {
	if msg.id == t.id {
		t.due = timer.Moment{}
	}
	return t
}

// changes says when time alone will change something: every second while a timer
// that shows has less than two minutes to go or has run for less, every minute
// otherwise, and when an alarm sounds again; zero is never.
func (m Model) changes(list []watch.Timer) (in time.Duration, at timer.Moment) {
	step := time.Minute
	for _, t := range list {
		if left := t.Left(m.now); left < 2*time.Minute && left > -2*time.Minute && t.State(m.now) != timer.PutOff {
			step = time.Second
		}
	}
	d, some := timer.NextChange(timersOf(list), m.now, step)
	if !some {
		return 0, timer.Moment{}
	}
	d = min(d, untilMinute(m.now)) // The clock beside the timers turns too.
	if sound, sounds := m.ear.Next(m.now); sounds {
		d = min(d, sound)
	}
	return d, timer.Moment{Wall: m.now.Wall.Add(d), Boot: m.now.Boot, SinceBoot: m.now.SinceBoot + d}
}

// schedule asks for the next tick, if one is needed.
func (m *Model) schedule(list []watch.Timer) tea.Cmd {
	d, due := m.changes(list)
	if due.IsZero() {
		m.ticks.due = due
		return nil
	}
	if !m.ticks.due.IsZero() {
		left, _ := m.ticks.due.Since(m.now)
		if left <= d+50*time.Millisecond && left > 0 {
			return nil
		}
	}
	m.ticks.id++
	m.ticks.due = due
	id := m.ticks.id
	return m.ticks.after(d, func(time.Time) tea.Msg { return tickMsg{id} })
}

// untilMinute gives the time until the clock shows another minute.
func untilMinute(now timer.Moment) time.Duration {
	return now.Wall.Truncate(time.Minute).Add(time.Minute).Sub(now.Wall)
}
