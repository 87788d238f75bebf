package plain

import (
	"slices"
	"strconv"

	"bench/internal/batch"
	"bench/internal/recipe"
	"bench/internal/reply"
	"bench/internal/timer"
	"bench/internal/watch"
)

// untold gives the alarms that are due and were not said. What was put off and
// comes back is said again.
func (s *session) untold() []watch.Timer {
	now := s.now()
	return slices.DeleteFunc(s.board().Timers(now), func(t watch.Timer) bool {
		return t.State(now) != timer.Due || s.told[alarmKey(t)]
	})
}

// tell says alarms, once each.
func (s *session) tell(due []watch.Timer) {
	for _, t := range due {
		s.told[alarmKey(t)] = true
		s.warn("ALARM: " + s.timerWords(t.Code, t.Timer, s.now()) + ". seen (a), or later (z) with the minutes.")
	}
}

// ring rings the bell for what is due, as often as its priority asks.
func (s *session) ring() {
	var sound watch.Sound
	now := s.now()
	s.ear, sound = s.ear.Listen(s.board().Timers(now), now, s.manner.Quiet.Covers(now.Wall))
	if sound.Bell && s.Bell != nil && s.manner.Sound != recipe.Off {
		s.Bell()
	}
}

func alarmKey(t watch.Timer) string {
	return t.Code + " " + t.ID + " " + t.Deferred.Wall.String()
}

// foremost gives the alarm that comes before the others, of those that were said:
// nobody answers one that they could not have read.
func (s *session) foremost() (watch.Timer, bool) {
	now := s.now()
	for _, t := range s.board().Timers(now) {
		if t.State(now) == timer.Due && s.told[alarmKey(t)] {
			return t, true
		}
	}
	s.say("No alarm is due.")
	return watch.Timer{}, false
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
	for _, d := range watch.Delays() {
		if minutes == "" || minutes == strconv.Itoa(int(d.Minutes())) {
			s.keep(reply.Keep{Code: t.Code, Fact: batch.TimerPutOff{Timer: t.ID, For: d}})
			return
		}
	}
	s.warn("It is put off for 5, 10 or 30 minutes: z 10.")
}
