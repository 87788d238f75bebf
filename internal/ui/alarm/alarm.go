// Package alarm shows the timers of all batches and takes what is said to one.
//
// The rule: one alarm is foremost; a key answers that one and no other, and
// never one that has only just come up.
package alarm

import (
	"strconv"
	"time"

	"bench/internal/batch"
	"bench/internal/front"
	"bench/internal/phrase"
	"bench/internal/quantity"
	"bench/internal/reply"
	"bench/internal/timer"
	"bench/internal/ui/ink"
	"bench/internal/ui/intent"
	"bench/internal/ui/keys"
	"bench/internal/watch"
)

// Board is what runs in all batches.
type Board struct {
	Batches []front.UnderWay
	Bench   string // bench is the batch that is being worked on.
	Along   bool   // Along says that another bench writes that batch.
	Offer   intent.PutOff
	Writing bool   // Writing says that keys are text just now, so that none answers an alarm.
	Hush    string // Hush is why alarms make no sound just now, in a word, or "".
	At      *time.Location
}

// Timers gives what runs in all batches, the foremost first.
func (b Board) Timers(now timer.Moment) []watch.Timer {
	return b.watched().Timers(now)
}

// UntilNext gives how long it is until just before the next timer asks.
func (b Board) UntilNext(now timer.Moment) (time.Duration, bool) { return b.watched().UntilNext(now) }

func (b Board) watched() watch.Board {
	return watch.Board{Batches: b.Batches, Bench: b.Bench, Along: b.Along, Asked: watch.Name(b.Offer)}
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
	if top.Asking(p.At) < p.Startle() {
		return intent.Word{Text: "An alarm has just come up; read it first."}
	}
	if unsaved {
		return intent.Word{Text: "First: r saves the last entry again, esc lets it go."}
	}
	if top.There {
		return intent.Word{Text: "Another bench has batch " + ink.Clean(top.Code) + ": the alarm is answered there."}
	}
	if putOff {
		return intent.PutOff{Code: top.Code, Timer: top.ID}
	}
	return intent.Of(reply.Keep{Code: top.Code, Fact: batch.TimerSeen{Timer: top.ID}})
}

// Lines shows at most so many timers in lines of w cells. The clock is
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
		tail := ""
		if left := len(list) - rows; i == rows-1 && left > 0 {
			tail = b.more(left, w)
		}
		if i == 0 {
			tail += b.hush() + clock + " "
		}
		lines = append(lines, b.timerLines(t, each, tail, w, now)...)
	}
	return lines
}

// more says how many timers there are besides, and the key that shows them.
func (b Board) more(left, w int) string {
	words := more(left) + "  "
	if w >= ink.WideAt {
		words = quantity.Count(left, "more timer", "more timers") + "   "
	}
	if !b.Writing {
		words = keys.Timers.Help().Key + " " + words
	}
	return words
}

func more(n int) string { return strconv.Itoa(n) + " more" }

func (b Board) hush() string {
	if b.Hush == "" {
		return ""
	}
	return b.Hush + "  "
}

// timerLines are one timer: what, and when; on a line of its own where both find
// no room on one, so that nothing is cut.
func (b Board) timerLines(t ink.Theme, each watch.Timer, tail string, w int, now timer.Moment) []string {
	what := ink.Clean(each.Label)
	if each.Code != b.Bench {
		what = ink.Clean(each.Code) + ": " + what
	}
	sign, when := Sign(each.Timer, now), phrase.Timing(each.Timer, now, b.At)
	if each.State(now) == timer.Due {
		switch {
		case each.There:
			when += "   answered at the other bench"
		case !b.Writing:
			when += "   a seen z later"
		}
		if b.Offer == (intent.PutOff{Code: each.Code, Timer: each.ID}) {
			when, tail = "later: "+offerWords(), ""
		}
	}
	loud := each.State(now) == timer.Due && each.Priority != timer.Later
	set := func(head, text, tail string) string {
		if loud {
			return t.Alarm.Render(ink.Between(" "+head+text, tail, w))
		}
		return ink.Between(" "+t.Quiet.Render(head)+text, t.Quiet.Render(tail), w)
	}
	head := sign + " "
	if ink.Width(head+what+when+tail)+4 <= w {
		return []string{set(head+what+"  ", when, tail)}
	}
	var lines []string
	for i, l := range ink.Wrap(what, w-ink.Width(head+tail)-2) {
		if i > 0 {
			head, tail = ink.Spaces(ink.Width(head)), ""
		}
		lines = append(lines, set(head+l, "", tail))
	}
	return append(lines, set(ink.Spaces(ink.Width(head)), when, ""))
}

// Sign tells the priority of what is due at a glance: more of it is more (IEC
// 60601-1-8 marks alarms by one to three exclamation marks, from memory).
func Sign(t timer.Timer, now timer.Moment) string {
	if t.State(now) != timer.Due {
		return ink.SignLater
	}
	switch t.Priority {
	case timer.ActNow:
		return ink.SignOff + ink.SignOff + ink.SignOff
	case timer.Soon:
		return ink.SignOff + ink.SignOff
	default:
		return ink.SignOff
	}
}
