package ui

import (
	"strings"
	"testing"
	"time"

	"bench/internal/front"
	"bench/internal/memory"
)

// practises makes a practice of the sitting, with a clock that runs so many times
// as fast.
func (p *person) practises(speed int) *person {
	p.m.deps.Practice, p.m.steady = front.Practice{Speed: func() int { return speed }, Turn: func() { speed = 60 }}, nil
	return p
}

// TestEveryScreenSaysPractice holds every page to the mark with
// the speed of the clock, and to the rest of the page being what it was.
func TestEveryScreenSaysPractice(t *testing.T) {
	for _, scene := range scenes {
		p := arrives(t, memory.New())
		scene.lead(p)
		p.m.deps.Practice, p.m.drawn = front.Practice{}, "" // Without a message, what was drawn ahead would stay.
		before := strings.Split(p.m.View(), "\n")
		p.practises(60).sees("PRACTICE", "clock 60 times as fast", "v speed", "V to what is due next")
		after := strings.Split(p.m.View(), "\n")
		changed := 0
		for i := range before {
			if i >= len(after) || before[i] != after[i] {
				changed++
			}
		}
		if len(before) != len(after) || changed != 1 {
			t.Errorf("%s: the mark changes %d lines:\n%s", scene.name, changed, p.m.View())
		}
		p.sized(40, 12).sees("PRACTICE")
	}
	arrives(t, memory.New()).seesNot("PRACTICE")
}

// TestSpeedIsTurned turns the clock with its key, which means nothing while a
// note is written or when it is no practice.
func TestSpeedIsTurned(t *testing.T) {
	p := arrives(t, memory.New()).practises(1).starts().sees("clock as usual")
	p.press("v").sees("clock 60 times as fast").recorded(0)
	arrives(t, memory.New()).practises(1).starts().press("n").types("v").sees("▶ v", "clock as usual")
	arrives(t, memory.New()).starts().press("v").seesNot("times as fast").recorded(0)
}

// TestFastClockTicksNothingTwice holds a key that is kept down to acting once,
// however fast the clock of a practice runs: hands are as slow as ever.
func TestFastClockTicksNothingTwice(t *testing.T) {
	p := arrives(t, memory.New()).starts().practises(60).waits(time.Minute)
	for range 20 {
		p.waits(60 * 30 * time.Millisecond).gets(keyOf("space"))
	}
	p.recorded(1)
	p.waits(60 * time.Second).gets(keyOf("space")).recorded(2)
}

// TestNewcomerIsShownPractice holds an empty home to pointing there, and any
// other home to keeping quiet about it.
func TestNewcomerIsShownPractice(t *testing.T) {
	s := memory.New()
	arrives(t, s).sized(120, 40).sees("bench --practice").sized(80, 24).sees("bench --practice").starts().press("esc").seesNot("bench --practice")
	arrives(t, s).seesNot("bench --practice")
	p := arrives(t, memory.New()).practises(1)
	p.run(p.m.loadCmd(""))
	p.seesNot("bench --practice")
}

// TestPracticeHasTheBench: what other batches have is told before a batch begins, and not
// in a practice.
func TestPracticeHasTheBench(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/shea").press("esc").press("down", "enter")
	p.sees("lye jug A holds", "in use for batch 26K25A").press("esc")
	p.m.deps.Practice = front.Practice{Speed: func() int { return 1 }, Turn: func() {}}
	p.press("enter").sees("enter start the batch").seesNot("lye jug A holds", "in use for")
}

// TestForwardToWhatIsDue: in a practice one key leads to just before the next alarm, so
// that the days after the pour can be practised.
func TestForwardToWhatIsDue(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("")
	p.m.deps.Practice, p.m.steady = front.Practice{Speed: func() int { return 1 }, Turn: func() {}, Forward: func(by time.Duration) { p.clock = p.clock.Add(by) }}, nil
	before := p.clock
	p.press("V")
	if gone := p.clock.Sub(before); gone < 40*time.Minute || gone > time.Hour {
		t.Errorf("the look at the gel comes after an hour, and the clock was put forward by %v", gone)
	}
	p.looks(30 * time.Second).sees("look at the gel")
	arrives(t, memory.New()).starts().press("V").seesNot("PRACTICE").recorded(0)
}
