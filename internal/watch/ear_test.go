package watch

import (
	"slices"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/front"
	"bench/internal/steps"
	"bench/internal/timer"
)

// room is a board of timers that are due at moments after the first.
type room struct{ timers []timer.Timer }

func moment(d time.Duration) timer.Moment {
	return timer.Moment{Wall: time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC).Add(d), Boot: "one", SinceBoot: d}
}

func (r room) at(now timer.Moment) []Timer {
	board := Board{Batches: []front.UnderWay{{BatchItem: front.BatchItem{Code: "A", State: batch.State{}}, Plan: steps.Plan{Timers: r.timers}}}}
	return board.Timers(now)
}

// rings gives the seconds at which the bell rings, listened to each second.
func rings(r room, from, to int, quiet func(int) bool) (bells, notices []int) {
	var ear Ear
	for s := from; s <= to; s++ {
		now := moment(time.Duration(s) * time.Second)
		var sound Sound
		ear, sound = ear.Listen(r.at(now), now, quiet != nil && quiet(s))
		if sound.Bell {
			bells = append(bells, s)
		}
		for range sound.New {
			notices = append(notices, s)
		}
	}
	return bells, notices
}

func TestEar(t *testing.T) {
	due := func(id string, p timer.Priority, at time.Duration) timer.Timer {
		return timer.Timer{ID: id, Start: moment(-time.Hour), After: time.Hour + at, Priority: p}
	}
	off := due("off", timer.Soon, 0)
	off.Deferred, off.DeferFor = moment(0), 200*time.Second
	for name, c := range map[string]struct {
		timers         []timer.Timer
		quiet          func(int) bool
		bells, notices []int
	}{
		"nothing":                {nil, nil, nil, nil},
		"act now":                {[]timer.Timer{due("a", timer.ActNow, 290*time.Second)}, nil, []int{290, 300}, []int{290}},
		"soon":                   {[]timer.Timer{due("a", timer.Soon, 30*time.Second)}, nil, []int{30, 90, 150}, []int{30}},
		"later":                  {[]timer.Timer{due("a", timer.Later, 30*time.Second)}, nil, nil, nil},
		"due while closed":       {[]timer.Timer{due("a", timer.Soon, -time.Hour+time.Second)}, nil, []int{0, 60, 120}, nil},
		"both at once, one bell": {[]timer.Timer{due("a", timer.Soon, 30*time.Second), due("b", timer.Soon, 30*time.Second)}, nil, []int{30, 90, 150}, []int{30, 30}},
		"put off":                {[]timer.Timer{off}, nil, []int{200, 260}, []int{200}},
		"soon, in quiet hours":   {[]timer.Timer{due("a", timer.Soon, 30*time.Second)}, func(s int) bool { return s < 240 }, []int{240, 300}, []int{240}},
		"now, in quiet hours":    {[]timer.Timer{due("a", timer.ActNow, 290*time.Second)}, func(int) bool { return true }, []int{290, 300}, []int{290}},
	} {
		t.Run(name, func(t *testing.T) {
			bells, notices := rings(room{c.timers}, 0, 300, c.quiet)
			if !slices.Equal(bells, c.bells) || !slices.Equal(notices, c.notices) {
				t.Errorf("bells at %v, notices at %v; want %v and %v", bells, notices, c.bells, c.notices)
			}
		})
	}
}

// TestEarWakes holds the next sound to the moment that was told, for a program
// that sleeps until then.
func TestEarWakes(t *testing.T) {
	var ear Ear
	r := room{[]timer.Timer{{ID: "a", Start: moment(-time.Hour), After: time.Hour, Priority: timer.Soon}}}
	var bells []time.Duration
	for at := time.Duration(0); ; {
		var sound Sound
		if ear, sound = ear.Listen(r.at(moment(at)), moment(at), false); sound.Bell {
			bells = append(bells, at)
		}
		d, sounds := ear.Next(moment(at))
		if !sounds {
			break
		}
		at += d
	}
	if len(bells) != 3 || bells[2] != 2*time.Minute {
		t.Errorf("rang at %v", bells)
	}
}

// TestEarIsLate: what fell due between listening and asking when to listen again is
// asked for at once, the last sound too.
func TestEarIsLate(t *testing.T) {
	r := room{[]timer.Timer{{ID: "a", Start: moment(-time.Hour), After: time.Hour, Priority: timer.Soon}}}
	ear, _ := Ear{}.Listen(r.at(moment(0)), moment(0), false)
	for _, at := range []time.Duration{time.Minute, 2 * time.Minute, time.Hour} {
		if d, sounds := ear.Next(moment(at)); d != 0 || !sounds {
			t.Errorf("%v later: waits %v, sounds %v", at, d, sounds)
		}
	}
}
