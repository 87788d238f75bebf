package plain

import (
	"strconv"

	"bench/internal/batch"
	"bench/internal/reply"
	"bench/internal/timer"
	"bench/internal/ui/alarm"
)

// tellAlarms says once what has fallen due, before the next prompt. What was put
// off and comes back is said again.
func (s *session) tellAlarms() {
	now := s.now()
	for _, t := range s.board().Timers(now) {
		if t.State(now) == timer.Due && !s.told[alarmKey(t)] {
			s.told[alarmKey(t)] = true
			s.warn("ALARM: " + s.timerWords(t.Code, t.Timer, now) + ". seen (a), or later (z) with the minutes.")
		}
	}
}

func alarmKey(t alarm.Watched) string {
	return t.Code + " " + t.ID + " " + t.Deferred.Wall.String()
}

// foremost gives the alarm that comes before the others, of those that were said:
// nobody answers one that they could not have read.
func (s *session) foremost() (alarm.Watched, bool) {
	now := s.now()
	for _, t := range s.board().Timers(now) {
		if t.State(now) == timer.Due && s.told[alarmKey(t)] {
			return t, true
		}
	}
	s.say("No alarm is due.")
	return alarm.Watched{}, false
}

func (s *session) seen(string) {
	if t, ok := s.foremost(); ok {
		s.keep(reply.Keep{Code: t.Code, Fact: batch.TimerSeen{Timer: t.ID}})
	}
}

// later puts an alarm off, for as long as the screen does; alone, for the least.
func (s *session) later(minutes string) {
	t, ok := s.foremost()
	if !ok {
		return
	}
	for _, d := range alarm.Delays() {
		if minutes == "" || minutes == strconv.Itoa(int(d.Minutes())) {
			s.keep(reply.Keep{Code: t.Code, Fact: batch.TimerPutOff{Timer: t.ID, For: d}})
			return
		}
	}
	s.warn("It is put off for 5, 10 or 30 minutes: z 10.")
}
