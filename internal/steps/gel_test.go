package steps_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/quantity"
	"bench/internal/steps"
	"bench/internal/timer"
)

// looksDue gives the hours at which a look at the gel waits or is asked for.
func looksDue(b *bencher) []string {
	var list []string
	for _, x := range b.plan().Timers {
		if hour, ok := strings.CutPrefix(x.ID, "gel look/"); ok {
			list = append(list, hour)
		}
	}
	return list
}

// TestOverheatedIsLookedAtAgain: ten minutes after a look that found it rising comes the
// next, until one finds it well, and none twelve hours after the pour (common practice, no
// source). The looks that are planned stand beside them.
func TestOverheatedIsLookedAtAgain(t *testing.T) {
	b := resting(t, harbour())
	b.wait(50 * time.Minute)
	due := func(want ...string) {
		t.Helper()
		if got := looksDue(b); !slices.Equal(got, want) {
			t.Errorf("%v, want %v", got, want)
		}
	}
	look := func(task string, as batch.GelLook) string {
		t.Helper()
		b.allows(t, batch.GelLooked{Task: task, Look: as})
		return fmt.Sprintf("again %d", len(b.state.Entries))
	}
	due("1", "3")
	b.wait(10 * time.Minute)
	again := look("gel/1 h", batch.Rising)
	due(again, "3")
	if id, ok := b.plan().Next(b.moment()); ok {
		t.Errorf("asked at once: %s", id)
	}
	b.wait(10 * time.Minute)
	if id, _ := b.plan().Next(b.moment()); id != "gel/"+again {
		t.Errorf("ten minutes later: %s", id)
	}
	again = look("gel/"+again, batch.Rising)
	due(again, "3")
	look("gel/"+again, batch.FullGel)
	due("3")
	b.wait(2 * time.Hour)
	again = look("gel/3 h", batch.Rising)
	due(again)
	b.wait(9 * time.Hour)
	look("gel/"+again, batch.Rising)
	due()
}

// TestEarlyLookIsOneAtItsMoment: a minute after the covering nothing is known of an hour
// later. What it shows is kept; both planned looks stand, and what rises is looked at again
// in ten minutes.
func TestEarlyLookIsOneAtItsMoment(t *testing.T) {
	b := resting(t, harbour())
	b.wait(time.Minute)
	b.allows(t, batch.GelLooked{Task: "gel/1 h", Look: batch.Rising, Temperature: 88500 * quantity.Degree / 1000})
	again := fmt.Sprintf("again %d", len(b.state.Entries))
	if got := looksDue(b); !slices.Equal(got, []string{again, "1", "3"}) {
		t.Errorf("%v", got)
	}
	if left := b.plan().Timers[0]; left.Left(b.moment()) > 10*time.Minute {
		t.Errorf("asked in %v", left.Left(b.moment()))
	}
	task := b.task(t, "gel/1 h")
	if task.Done || !strings.Contains(task.Hint, "rising") {
		t.Errorf("%+v", task)
	}
	b.allows(t, batch.GelLooked{Task: "gel/" + again, Look: batch.Gelling})
	if got := looksDue(b); !slices.Equal(got, []string{"1", "3"}) {
		t.Errorf("%v", got)
	}
}

// TestPocketsAreNamedAtTheCut: a loaf that overheated is cut with its lye pockets in
// mind, and no other.
func TestPocketsAreNamedAtTheCut(t *testing.T) {
	for look, named := range map[batch.GelLook]bool{batch.Rising: true, batch.Cracked: false, batch.FullGel: false} {
		b := resting(t, harbour())
		b.wait(time.Hour)
		b.put(batch.GelLooked{Task: "gel/1 h", Look: look})
		b.wait(24 * time.Hour)
		b.workTo(t, "cut/loaf 1")
		if hint := b.task(t, "cut/loaf 1").Hint; strings.Contains(hint, "lye pockets") != named {
			t.Errorf("%s: %s", look, hint)
		}
	}
}

// TestGelIsOverSixHoursAfterItsLook: then a look can wait.
func TestGelIsOverSixHoursAfterItsLook(t *testing.T) {
	b := resting(t, harbour())
	for wait, want := range map[time.Duration]timer.Priority{2 * time.Hour: timer.ActNow, 8 * time.Hour: timer.Soon, 25 * time.Hour: timer.Soon} {
		at := b.moment()
		at.Wall, at.SinceBoot = at.Wall.Add(wait), at.SinceBoot+wait
		if got := b.plan().Timers[0]; got.ID != "gel look/1" || got.PriorityAt(at) != want {
			t.Errorf("%s after %v: %v", got.ID, wait, got.PriorityAt(at))
		}
	}
}

// TestOldTemperaturesOpenNoGate: what was read more than 30 min ago is read again
// (common practice, no source).
func TestOldTemperaturesOpenNoGate(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/meet")
	b.wait(28 * time.Minute)
	if err := judge.Allows(b.plan(), batch.Ticked{Task: "sea/meet"}, b.moment()); err != nil {
		t.Error(err)
	}
	b.wait(3 * time.Minute)
	b.refuses(t, batch.Ticked{Task: "sea/meet"}, " min ago; read both again")
	b.typed(t, "sea/lye temperature", "40")
	b.refuses(t, batch.Ticked{Task: "sea/meet"}, "waits for: How warm are the sea oils?")
	b.typed(t, "sea/oil temperature", "40")
	if err := b.say("sea/meet", judge.Answer{How: batch.AtTarget}); err != nil {
		t.Error(err)
	}
}

// TestLeftOutLooksAreQuiet: a look that is left out is asked for no more, and none is
// once a loaf is out of its mould.
func TestLeftOutLooksAreQuiet(t *testing.T) {
	b := resting(t, harbour())
	b.put(batch.Skipped{Task: "gel/1 h", Reason: "asleep"})
	if got := looksDue(b); !slices.Equal(got, []string{"3"}) {
		t.Errorf("one is left out: %v", got)
	}
	b = resting(t, harbour())
	b.put(batch.Ticked{Task: "unmould/loaf 1"})
	if got := looksDue(b); len(got) > 0 {
		t.Errorf("a loaf is out: %v", got)
	}
}

// TestSeenAlarmIsNoLook: seeing the alarm silences it, and what it asks for stays to be
// said or left out with a reason.
func TestSeenAlarmIsNoLook(t *testing.T) {
	b := resting(t, harbour())
	b.wait(61 * time.Minute)
	b.allows(t, batch.TimerSeen{Timer: "gel look/1"})
	look := b.task(t, "gel/1 h")
	if id, _ := b.plan().Next(b.moment()); look.Done || id != "gel/1 h" {
		t.Errorf("next is %s; %+v", id, look)
	}
	if state := b.plan().Timers[0].State(b.moment()); state != timer.Acknowledged {
		t.Errorf("the alarm is %v", state)
	}
	b.refuses(t, batch.Skipped{Task: "gel/1 h"}, "say why")
	b.put(batch.Ticked{Task: "unmould/loaf 1"})
	if words := b.task(t, "gel/1 h").Skipped; !strings.Contains(words, "the timer was seen") {
		t.Error(words)
	}
}

// TestCoolTimerIsAnswered: once they may meet nobody is called to lye that is cool.
func TestCoolTimerIsAnswered(t *testing.T) {
	b := begin(harbour())
	cools := func() bool {
		return slices.ContainsFunc(b.plan().Timers, func(x timer.Timer) bool { return x.ID == "cool/sea" })
	}
	b.workTo(t, "sea/castor")
	for _, c := range []float64{60, 52} {
		b.put(batch.TemperatureTaken{Task: "sea/lye temperature", Temperature: quantity.Temperature(c) * quantity.Degree})
		b.wait(10 * time.Minute)
	}
	if !cools() {
		t.Fatal("no timer tells when it is cool")
	}
	b.put(batch.Ticked{Task: steps.MeetID("sea")})
	if cools() {
		t.Error("they may meet, and a timer waits for cool lye")
	}
}
