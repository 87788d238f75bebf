package ui

import (
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/memory"
	"bench/internal/recipe"
	"bench/internal/ui/ink"

	tea "github.com/charmbracelet/bubbletea"
	"pgregory.net/rapid"
)

// clicks presses the left button on the first place, from the bottom, where a
// text stands.
func (p *person) clicks(text string) *person {
	p.t.Helper()
	p.waits(time.Second)
	lines := strings.Split(p.m.View(), "\n")
	for y := len(lines) - 1; y >= 0; y-- {
		if before, _, found := strings.Cut(lines[y], text); found {
			return p.clicksAt(ink.Width(before), y)
		}
	}
	p.t.Fatalf("there is no %q to click on:\n%s", text, p.m.View())
	return p
}

func (p *person) clicksAt(x, y int) *person {
	p.t.Helper()
	return p.gets(tea.MouseMsg{X: x, Y: y, Button: tea.MouseButtonLeft, Action: tea.MouseActionPress})
}

// TestClickIsTheKey goes through the beginning of a batch by clicks alone.
func TestClickIsTheKey(t *testing.T) {
	p := arrives(t, memory.New())
	p.clicks("Tide lines").sees("▶ Tide lines").clicks("Lighthouse at dusk").sees("▶ Lighthouse at dusk")
	p.sized(120, 40).clicks("Tide lines").sees("▶ Tide lines").clicks("   Lighthouse at dusk").sees("▶ Lighthouse at dusk").sized(80, 24)
	p.clicks("set up").sees("start the batch").clicks("start the batch").sees("batch 26K25A")
	p.clicks("done").recorded(1).clicks("first aid").sees("FIRST AID").press("x")
	// A second click at once is a key that is held.
	p.clicks("space").recorded(2)
	y := len(strings.Split(p.m.View(), "\n")) - 1
	p.waits(50*time.Millisecond).clicksAt(2, y).recorded(2)
	p.works("sea/water").clicks("lye · dusk").seesNot("▶ lye · sea").clicks("to next").clicks("i other vessel").sees("esc").clicks("esc")
	p.recorded(len(p.store.Facts("26K25A")))
}

// TestClickMoves goes to the task and the stage that was clicked, and the wheel to
// the next.
func TestClickMoves(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/shea")
	before := len(p.store.Facts("26K25A"))
	p.clicks("olive oil").sees("▶ olive oil")
	if p.task() != "sea/olive" {
		t.Errorf("at %q", p.task())
	}
	p.gets(tea.MouseMsg{Button: tea.MouseButtonWheelUp, Action: tea.MouseActionPress})
	if p.task() != "sea/coconut" {
		t.Errorf("after the wheel at %q", p.task())
	}
	p.recorded(before)
}

// TestClickOnAlarm answers an alarm by its keys, and by nothing else in its line.
func TestClickOnAlarm(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("dusk/shea").looks(6 * time.Minute)
	n := len(p.store.Facts("26K25A"))
	p.clicks("look at base").recorded(n).clicks("later").sees("x 10 min").clicks("10 min").recorded(n + 1)
	if got, ok := p.last().(batch.TimerPutOff); !ok || got.For != 10*time.Minute {
		t.Errorf("kept %+v", p.last())
	}
	id := p.last().(batch.TimerPutOff).Timer
	p.looks(11 * time.Minute).clicks("a seen").records(batch.TimerSeen{Timer: id})
}

// TestClicksAnywhere holds a click above the line of keys to making no fact, and
// to leading nowhere that is no screen.
func TestClicksAnywhere(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		scene := scenes[rapid.IntRange(0, len(scenes)-1).Draw(rt, "scene")]
		p := arrives(t, memory.New())
		scene.lead(p)
		p.sized(rapid.IntRange(80, 200).Draw(rt, "width"), rapid.IntRange(24, 60).Draw(rt, "height"))
		count := func() (n int) {
			for _, code := range p.store.Codes {
				n += len(p.store.Facts(code))
			}
			return n
		}
		before := count()
		for range 5 {
			p.waits(2*time.Second).clicksAt(rapid.IntRange(-1, 210).Draw(rt, "x"), rapid.IntRange(-1, p.m.height-6).Draw(rt, "y"))
		}
		if count() != before {
			rt.Fatalf("%s: a click made a fact", scene.name)
		}
	})
}

// TestMouseOnlyWhenSwitchedOn asks for clicks where the maker's workshop does.
func TestMouseOnlyWhenSwitchedOn(t *testing.T) {
	for _, c := range []struct {
		is   recipe.Switch
		asks int
	}{{"", 0}, {recipe.Off, 0}, {recipe.On, 1}} {
		p := arrives(t, memory.New())
		p.manner.Mouse = c.is
		if p.comesIn(); p.mice != c.asks {
			t.Errorf("%q: asked for %d times", c.is, p.mice)
		}
	}
}

// TestClickWhileWaiting: where nothing is next, a click on an open stage goes there.
func TestClickWhileWaiting(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("").press("n").types("fog").press("enter").sees("○ gel")
	p.clicks("○ gel").sees("▶ gel", "Look at the gel after 1 h")
}
