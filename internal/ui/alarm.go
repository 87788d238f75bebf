package ui

import (
	"slices"
	"strconv"
	"time"

	"bench/internal/batch"
	"bench/internal/timer"

	tea "github.com/charmbracelet/bubbletea"
)

// startle is how long what has just come up by itself takes no answer: a key
// already on its way was not meant for it.
const startle = time.Second

// watched is a timer with the batch that it belongs to.
type watched struct {
	timer.Timer
	code   string
	recipe string
}

// timers gives what runs in all batches: what is due first, that of the batch on
// the bench before others and the latest one foremost, then what falls due next,
// then what counts up.
func (m Model) timers(now timer.Moment) []watched {
	var list []watched
	for _, b := range m.home.batches {
		plan := b.plan
		if b.Code == m.bench.code {
			plan = m.bench.plan
		}
		if plan.Closed {
			continue
		}
		for _, t := range plan.Timers {
			if t.State(now) != timer.Acknowledged {
				list = append(list, watched{t, b.Code, plan.Recipe})
			}
		}
	}
	slices.SortStableFunc(list, func(a, b watched) int {
		if x, y := m.rank(a, now), m.rank(b, now); x != y {
			return x - y
		}
		return int(a.Remaining(now).Truncate(time.Second)/time.Second) - int(b.Remaining(now).Truncate(time.Second)/time.Second)
	})
	return list
}

// rank sorts what asks for something before what only runs.
func (m Model) rank(t watched, now timer.Moment) int {
	switch {
	case m.offer == (putOffer{t.code, t.ID}):
		return -1 // A question that is open stays in sight.
	case t.State(now) == timer.Due && t.code == m.bench.code:
		return 0
	case t.State(now) == timer.Due:
		return 1
	case t.CountsUp():
		return 3
	default:
		return 2
	}
}

// answerAlarm acknowledges the topmost alarm, or asks for how long it is to be
// put off.
func (m Model) answerAlarm(p press, putOff bool) action {
	list := m.timers(p.at)
	if p.held {
		return nil
	}
	if len(list) == 0 || list[0].State(p.at) != timer.Due {
		return word{"No alarm is due."}
	}
	top := list[0]
	if -top.Remaining(p.at) < startle && top.Deferred.IsZero() {
		return word{"An alarm has just come up; read it first."}
	}
	if m.bench.unsaved != nil {
		return word{"First: r saves the last entry again, esc lets it go."}
	}
	if putOff {
		return putOffer{code: top.code, timer: top.ID}
	}
	return keep{code: top.code, fact: batch.TimerSeen{Timer: top.ID}}
}

// alarmLines shows the timers in at most rows lines of w cells. The clock is
// there only while a timer keeps it going: a clock that stands still lies.
func (m Model) alarmLines(w, rows int, now timer.Moment) []string {
	t, list := m.deps.Theme, m.timers(now)
	if len(list) == 0 {
		return []string{" " + t.quiet.Render("no timer runs")}
	}
	clock := now.Wall.In(m.deps.Location).Format("15:04")
	var lines []string
	for i, each := range list {
		if i == rows {
			break
		}
		more := ""
		if left := len(list) - rows; i == rows-1 && left > 0 {
			more = strconv.Itoa(left) + " more  "
			if w >= wideAt {
				more = count(left, "more timer", "more timers") + "   "
			}
		}
		tail := more
		if i == 0 {
			tail = more + clock + " "
		}
		lines = append(lines, m.alarmLine(each, tail, w, now))
	}
	return lines
}

// alarmLine is one timer: what, and when. The words for what give way first.
func (m Model) alarmLine(each watched, tail string, w int, now timer.Moment) string {
	t := m.deps.Theme
	what := clean(each.Label)
	if each.code != m.bench.code {
		what = clean(each.code) + ": " + what
	}
	when := timing(each.Timer, now, m.deps.Location)
	if each.State(now) == timer.Due {
		when += "   a seen z later"
		if m.offer == (putOffer{each.code, each.ID}) {
			when, tail = "later: "+m.offer.words(), ""
		}
	}
	what = cut(what, w-width(when)-width(tail)-7)
	if each.State(now) == timer.Due {
		return t.alarm.Render(between(" "+signOff+signOff+" "+what+"  "+when, tail, w))
	}
	return between(" "+t.quiet.Render(signLater+" "+what)+"  "+when, t.quiet.Render(tail), w)
}

// timing says when a timer falls due, or until when it was put off.
func timing(t timer.Timer, now timer.Moment, at *time.Location) string {
	switch state := t.State(now); {
	case state == timer.PutOff:
		gone, _ := now.Since(t.Deferred)
		back := timer.Moment{Wall: now.Wall.Add(t.DeferFor - gone)}
		return "put off until " + stamp(back, now, at)
	case state == timer.Running && !t.CountsUp():
		return t.Say(now) + " (" + stamp(timer.Moment{Wall: t.DueAt(now)}, now, at) + ")"
	}
	return t.Say(now)
}

// tickMsg says that a timer may look different now.
type tickMsg struct{ id int }

// ticks sees to it that one tick at most is on its way, and none without need.
type ticks struct {
	id    int
	due   timer.Moment // due is when the tick on its way comes; zero is none.
	after func(time.Duration, func(time.Time) tea.Msg) tea.Cmd
}

// fired takes note of a tick. One that was overtaken by an earlier one is not
// waited for, and changes nothing.
func (t ticks) fired(msg tickMsg) ticks {
	if msg.id == t.id {
		t.due = timer.Moment{}
	}
	return t
}

// schedule asks for the next tick: every second while a timer that shows has
// less than two minutes to go or has run for less, every minute otherwise.
func (m *Model) schedule() tea.Cmd {
	list := m.timers(m.now)
	all := make([]timer.Timer, len(list))
	step := time.Minute
	for i, t := range list {
		all[i] = t.Timer
		if left := t.Remaining(m.now); left < 2*time.Minute && left > -2*time.Minute && t.State(m.now) != timer.PutOff {
			step = time.Second
		}
	}
	d, some := timer.NextChange(all, m.now, step)
	if !some {
		m.ticks.due = timer.Moment{}
		return nil
	}
	d = min(d, untilMinute(m.now)) // The clock beside the timers turns too.
	due := timer.Moment{Wall: m.now.Wall.Add(d), Boot: m.now.Boot, SinceBoot: m.now.SinceBoot + d}
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
