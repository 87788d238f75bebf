package ui

import (
	"slices"
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/memory"
	"bench/internal/recipe"
	"bench/internal/timer"
	"bench/internal/ui/ink"

	tea "github.com/charmbracelet/bubbletea"
)

// TestAlarmOfTheBenchFirst holds a and z to the batch on the bench before any
// other, and the line to saying whose alarm it is.
func TestAlarmOfTheBenchFirst(t *testing.T) {
	s := memory.New()
	p := arrives(t, s).starts().works("dusk/shea").press("esc", "down", "enter", "enter").works("dusk/shea").waits(2 * time.Second)
	p.press("tab", "enter").sees("26K25A")
	p.looks(6*time.Minute).sees("!! look at base", "more").press("a")
	if f := s.Facts("26K25A"); batch.Kind(f[len(f)-1]) != "timer-seen" {
		t.Errorf("kept %+v", f[len(f)-1])
	}
	p.sees("!! 26K25B: look at base").press("z", "x").seesNot("!!")
	f := s.Facts("26K25B")
	if got, ok := f[len(f)-1].(batch.TimerPutOff); !ok || got.For != 10*time.Minute {
		t.Errorf("kept %+v", f[len(f)-1])
	}
}

// TestUnmouldPutOff holds the unmoulding to being put off as every alarm is, and
// the words to the moment at which it comes back: it is late from then on.
func TestUnmouldPutOff(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("").looks(time.Hour + time.Minute).press("a").looks(2 * time.Hour).press("a")
	p.looks(21 * time.Hour).sees("!! unmould 3 loaves").press("z").sees("z 5 min  x 10 min  c 30 min")
	p.press("c").records(batch.TimerPutOff{Timer: "unmould", For: 30 * time.Minute})
	back := p.clock.Add(30 * time.Minute)
	p.sees("put off until " + back.Format("15:04"))
	p.looks(10 * time.Minute).sees("put off until " + back.Format("15:04"))
	p.looks(20*time.Minute).sees("!! unmould 3 loaves", "due now").looks(7 * time.Minute).sees("late by 7 min")
}

// TestOfferIsNoTrap holds a key after the offer that is no answer to doing what
// it always does.
func TestOfferIsNoTrap(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("dusk/shea").looks(5*time.Minute + 4*time.Second)
	before := len(p.store.Facts("26K25A"))
	p.press("z", "!").sees("FIRST AID").press("enter").sees("a seen z later").recorded(before)
	p.press("z", "x").recorded(before + 1).press("x").sees("Leave out")
}

// TestOfferTakesNoFigures: while it is asked for how long, figures land in no number, not
// one of them, and the key that would keep a number typed before does not.
func TestOfferTakesNoFigures(t *testing.T) {
	const refused = "takes no figures"
	for _, w := range []int{80, 120, 40} {
		p := arrives(t, memory.New()).starts().works("dusk/shea").sized(w, 30).types("12").looks(6 * time.Minute)
		before := len(p.store.Facts("26K25A"))
		p.press("z").sees("z 5 min").types("5").sees("z 5 min").types("6.5")
		if w >= ink.MinWidth {
			p.sees(refused)
		}
		if p.m.bench.Typed != "12" {
			t.Errorf("%d wide, typed is %q", w, p.m.bench.Typed)
		}
		p.press("enter").recorded(before).sees("not put off", "12").seesNot(refused, "z 5 min")
		p.press("z", "5", "esc").seesNot(refused, "z 5 min").press("z", "5", "z").seesNot(refused).recorded(before + 1)
		if f, ok := p.last().(batch.TimerPutOff); !ok || f.For != 5*time.Minute || p.m.bench.Typed != "12" {
			t.Errorf("%d wide, kept %+v, typed is %q", w, p.last(), p.m.bench.Typed)
		}
	}
}

// ringsOver looks each second and gives the seconds at which the bell rang.
func (p *person) ringsOver(d time.Duration) []int {
	p.t.Helper()
	var at []int
	for s := 1; s <= int(d/time.Second); s++ {
		before := p.bells
		if p.looks(time.Second); p.bells > before {
			at = append(at, s)
		}
	}
	return at
}

// TestBellByPriority holds the look at a layer to three bells, that at the gel to
// ringing until it is answered, and an answer to silence.
func TestBellByPriority(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("dusk/shea")
	p.bells = 0
	p.looks(p.until() - time.Second)
	if at := p.ringsOver(10 * time.Minute); !slices.Equal(at, []int{1, 61, 121}) {
		t.Errorf("the look rang at %v", at)
	}
	if want := []string{"look at base: do embeds stay put? (Lighthouse at dusk, batch 26K25A)"}; !slices.Equal(p.notices, want) {
		t.Errorf("notices %q", p.notices)
	}
	p.press("z", "z")
	if at := p.ringsOver(5*time.Minute + 10*time.Second); !slices.Equal(at, []int{300}) {
		t.Errorf("put off by five minutes, it rang at %v", at)
	}
	p.press("a").works("")
	p.bells = 0
	p.looks(p.until() - time.Second).sees("in 1 s")
	if at := p.ringsOver(35 * time.Second); !slices.Equal(at, []int{1, 11, 21, 31}) {
		t.Errorf("the look at the gel rang at %v", at)
	}
	p.sees("!!! look at the gel").press("a").seesNot("!!!")
	if at := p.ringsOver(time.Minute); len(at) > 0 {
		t.Errorf("answered, it rang at %v", at)
	}
}

// TestGelIsOver: a look that nobody came for rings until the gel is over, and is
// one of those that can wait from then on.
func TestGelIsOver(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("").looks(time.Hour).sees("!!! look at the gel")
	p.bells = 0
	p.looks(6*time.Hour - 11*time.Second).looks(10 * time.Second)
	if p.bells != 2 {
		t.Errorf("%d bells while it gels", p.bells)
	}
	p.press("a") // Of the two that are due by now, the other.
	p.looks(time.Minute).sees("!! look at the gel").seesNot("!!!")
	p.bells = 0
	if at := p.ringsOver(10 * time.Minute); len(at) > 0 {
		t.Errorf("over, it rang at %v", at)
	}
}

// until is how long the foremost timer still runs.
func (p *person) until() time.Duration {
	return p.m.board().Timers(p.moment())[0].Remaining(p.moment())
}

// TestBellComesWithoutAKey holds the program to waking itself for each bell.
func TestBellComesWithoutAKey(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("").looks(90 * time.Minute)
	var asked []time.Duration
	p.m.ticks.after = func(d time.Duration, _ func(time.Time) tea.Msg) tea.Cmd {
		asked = append(asked, d)
		return nil
	}
	for range 12 {
		before := p.bells
		p.looks(10 * time.Second)
		if p.bells != before+1 {
			t.Fatalf("%d bells after ten seconds", p.bells-before)
		}
	}
	for _, d := range asked {
		if d > 10*time.Second {
			t.Errorf("the next look is %v away", d)
		}
	}
}

// TestFellDueWhileClosed holds what nobody was there for to being listed at start
// with how late it is, and to sounding then.
func TestFellDueWhileClosed(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("").press("esc").sees("Under way").seesNot("while bench was closed")
	p.waits(26 * time.Hour)
	p.bells = 0
	p.comesIn().sees("Fell due while bench was closed", "!!  look at the gel", "!!  unmould 3 loaves · Lighthouse at dusk, batch 26K25A", "late by 2 h 00 min")
	if p.bells != 1 || len(p.notices) > 0 {
		t.Errorf("%d bells, notices %q", p.bells, p.notices)
	}
	p.press("a", "a", "a").seesNot("while bench was closed", "!!")
	f := p.store.Facts("26K25A")
	if got := f[len(f)-1]; got != (batch.TimerSeen{Timer: "unmould"}) {
		t.Errorf("the last to be answered is %+v", got)
	}
}

// TestQuietHours holds them to letting through what must not wait, and to the
// rest being heard when they are over; silence is silent, and says so.
func TestQuietHours(t *testing.T) {
	p := arrives(t, memory.New())
	p.manner.Quiet = timer.Hours{From: 8 * time.Hour, To: 15 * time.Hour}
	p.comesIn().starts().works("dusk/shea").sees("quiet hours")
	p.bells = 0
	p.looks(6 * time.Minute).sees("!! look at base")
	if p.bells != 0 {
		t.Error("a look rang in quiet hours")
	}
	p.looks(15*time.Hour - p.clock.Sub(p.clock.Truncate(24*time.Hour))).seesNot("quiet hours")
	if p.bells != 1 {
		t.Errorf("%d bells when they are over", p.bells)
	}

	p = arrives(t, memory.New())
	p.manner.Quiet = timer.Hours{From: 8 * time.Hour, To: 15 * time.Hour}
	p.comesIn().starts().works("")
	p.bells = 0
	if p.looks(61 * time.Minute); p.bells != 1 || len(p.notices) > 0 {
		t.Errorf("%d bells, notices %q from the gel in quiet hours", p.bells, p.notices)
	}

	for notices, want := range map[recipe.Switch]int{recipe.On: 1, recipe.Off: 0, recipe.OffInQuietHours: 0} {
		p = arrives(t, memory.New())
		p.manner = recipe.Manner{Quiet: timer.Hours{From: 8 * time.Hour, To: 15 * time.Hour}, Notices: notices}
		if p.comesIn().starts().works("").looks(61 * time.Minute); len(p.notices) != want {
			t.Errorf("notices %s: %q in quiet hours", notices, p.notices)
		}
		if p.manner.Quiet = (timer.Hours{}); notices == recipe.Off {
			continue
		}
		p.notices = nil
		if p.comesIn().looks(2 * time.Hour); len(p.notices) != 1 {
			t.Errorf("notices %s: %q by day", notices, p.notices)
		}
	}

	p = arrives(t, memory.New())
	p.manner.Sound = recipe.Off
	p.comesIn().starts().works("").looks(2*time.Hour).sees("!!! look at the gel", "silent")
	if p.bells != 0 || len(p.notices) > 0 {
		t.Errorf("%d bells, notices %q in silence", p.bells, p.notices)
	}
}

// TestLaterIsListed holds a weigh-in that is due to no bell, and to covering
// nothing that the hands are at in another batch.
func TestLaterIsListed(t *testing.T) {
	p := arrives(t, memory.New()).cures(1)
	p.bells = 0
	p.waits(8*aDay).comesIn().sees("!   weigh bar 1", "late by")
	if p.bells != 0 {
		t.Errorf("a weigh-in rang")
	}
	p.press("down", "enter", "enter").works("dusk/shea").sees("· look at base")
	p.press("a").sees("No alarm is due")
}

// TestComesBackUnseen holds an alarm that comes back to taking no key that is on
// its way, as one that comes up.
func TestComesBackUnseen(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("dusk/shea").looks(6*time.Minute).press("z", "z")
	n := len(p.store.Facts("26K25A"))
	p.looks(5 * time.Minute).gets(keyOf("a")).sees("just come up").recorded(n)
}

// TestLatenessIsNotCut: what fell due says how late it is, beside a second column too.
func TestLatenessIsNotCut(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("").waits(3 * time.Hour).comesIn()
	want := strings.Count(p.sized(80, 40).m.View(), "late by")
	for _, w := range []int{100, 120, 200} {
		if got := strings.Count(p.sized(w, 40).m.View(), "late by"); got != want || got < 2 {
			t.Errorf("in %d columns %d say how late they are, not %d:\n%s", w, got, want, p.m.View())
		}
	}
}
