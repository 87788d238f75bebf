// Package alarm shows the timers of all batches and takes what is said to one.
//
// The rule: one alarm is foremost; a key answers that one and no other, and
// never one that has only just come up.
package alarm

import (
	"slices"
	"strconv"
	"time"

	"bench/internal/batch"
	"bench/internal/timer"
	"bench/internal/ui/ink"
	"bench/internal/ui/intent"
	"bench/internal/ui/keys"
)

// Board is what runs in all batches.
type Board struct {
	Batches []intent.UnderWay
	Bench   string // bench is the batch that is being worked on.
	Offer   intent.PutOff
	At      *time.Location
}

// Watched is a timer with the batch that it belongs to.
type Watched struct {
	timer.Timer
	code   string
	recipe string
}

// Timers gives what runs in all batches: what is due first, that of the batch on
// the bench before others and the latest one foremost, then what falls due next,
// then what counts up.
func (b Board) Timers(now timer.Moment) []Watched {
	var list []Watched
	for _, each := range b.Batches {
		if each.Plan.Closed {
			continue
		}
		for _, t := range each.Plan.Timers {
			if t.State(now) != timer.Acknowledged {
				list = append(list, Watched{t, each.Code, each.Plan.Recipe})
			}
		}
	}
	slices.SortStableFunc(list, func(one, two Watched) int {
		if x, y := b.rank(one, now), b.rank(two, now); x != y {
			return x - y
		}
		return int(one.Remaining(now).Truncate(time.Second)/time.Second) - int(two.Remaining(now).Truncate(time.Second)/time.Second)
	})
	return list
}

// rank sorts what asks for something before what only runs.
func (b Board) rank(t Watched, now timer.Moment) int {
	switch {
	case b.Offer == (intent.PutOff{Code: t.code, Timer: t.ID}):
		return -1 // A question that is open stays in sight.
	case t.State(now) == timer.Due && t.code == b.Bench:
		return 0
	case t.State(now) == timer.Due:
		return 1
	case t.CountsUp():
		return 3
	default:
		return 2
	}
}

// Answer acknowledges the topmost alarm, or asks for how long it is to be
// put off.
func (b Board) Answer(p keys.Press, putOff, unsaved bool) intent.Action {
	list := b.Timers(p.At)
	if p.Held {
		return nil
	}
	if len(list) == 0 || list[0].State(p.At) != timer.Due {
		return intent.Word{Text: "No alarm is due."}
	}
	top := list[0]
	if -top.Remaining(p.At) < keys.Startle && top.Deferred.IsZero() {
		return intent.Word{Text: "An alarm has just come up; read it first."}
	}
	if unsaved {
		return intent.Word{Text: "First: r saves the last entry again, esc lets it go."}
	}
	if putOff {
		return intent.PutOff{Code: top.code, Timer: top.ID}
	}
	return intent.Keep{Code: top.code, Fact: batch.TimerSeen{Timer: top.ID}}
}

// Lines shows the timers in at most rows lines of w cells. The clock is
// there only while a timer keeps it going: a clock that stands still lies.
func (b Board) Lines(t ink.Theme, w, rows int, now timer.Moment) []string {
	list := b.Timers(now)
	if len(list) == 0 {
		return []string{" " + t.Quiet.Render("no timer runs")}
	}
	clock := now.Wall.In(b.At).Format("15:04")
	var lines []string
	for i, each := range list {
		if i == rows {
			break
		}
		more := ""
		if left := len(list) - rows; i == rows-1 && left > 0 {
			more = strconv.Itoa(left) + " more  "
			if w >= ink.WideAt {
				more = ink.Count(left, "more timer", "more timers") + "   "
			}
		}
		tail := more
		if i == 0 {
			tail = more + clock + " "
		}
		lines = append(lines, b.alarmLine(t, each, tail, w, now))
	}
	return lines
}

// alarmLine is one timer: what, and when. The words for what give way first.
func (b Board) alarmLine(t ink.Theme, each Watched, tail string, w int, now timer.Moment) string {
	what := ink.Clean(each.Label)
	if each.code != b.Bench {
		what = ink.Clean(each.code) + ": " + what
	}
	when := ink.Timing(each.Timer, now, b.At)
	if each.State(now) == timer.Due {
		when += "   a seen z later"
		if b.Offer == (intent.PutOff{Code: each.code, Timer: each.ID}) {
			when, tail = "later: "+offerWords(b.Offer), ""
		}
	}
	what = ink.Cut(what, w-ink.Width(when)-ink.Width(tail)-7)
	if each.State(now) == timer.Due {
		return t.Alarm.Render(ink.Between(" "+ink.SignOff+ink.SignOff+" "+what+"  "+when, tail, w))
	}
	return ink.Between(" "+t.Quiet.Render(ink.SignLater+" "+what)+"  "+when, t.Quiet.Render(tail), w)
}
