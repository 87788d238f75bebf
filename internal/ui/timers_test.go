package ui

import (
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/memory"

	tea "github.com/charmbracelet/bubbletea"
)

// TestAllTimers: the key that stands beside the number of timers that find no room
// shows them all; alarms are answered there, and esc leads back to what was typed.
func TestAllTimers(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("dusk/shea").press("esc", "down", "enter", "enter").works("sea/olive")
	p.looks(5 * time.Minute).sees("m 3 more").types("34").press("m")
	p.sees("Timers", "!! 26K25A: look at base", "26K25A: dusk lye", "· sea lye", "· dusk lye", "batch 26K25B", "a alarm seen")
	n := len(p.store.Facts("26K25A"))
	p.press("z").sees("z 5 min  x 10 min").press("x").sees("put off until").seesNot("due now")
	if f := p.store.Facts("26K25A"); len(f) != n+1 || f[n] != (batch.TimerPutOff{Timer: "look/base/embeds/1", For: 10 * time.Minute}) {
		t.Errorf("kept %+v", f[n:])
	}
	p.press("a").sees("No alarm is due", "Timers").press("!").sees("FIRST AID").press("enter").sees("Timers").press("esc").sees("enter keep 34")
	p.press("esc", "m").sees("Timers").press("m").sees("olive oil").press("n").sees("Note").seesNot("m 2 more").types("m").press("enter")
	if got, ok := p.last().(batch.Noted); !ok || got.Text != "m" {
		t.Errorf("kept %+v", p.last())
	}
	p.press("f").sees("any key back").press("m").sees("Timers").press("esc").sees("any key back").press("esc").sees("olive oil")
	p.press("?").sees("any key back").seesNot("m 3 more").press("m").sees("olive oil")
	p.press("esc").sees("Recipes").press("m").sees("Timers").press("esc").sees("Recipes")
}

// TestMoreTimersAreClicked: the words beside the clock are a key for a mouse, too.
func TestMoreTimersAreClicked(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/olive")
	for y, l := range p.m.bare() {
		if at := moreTimers.FindStringIndex(l); at != nil {
			p.waits(time.Second).gets(tea.MouseMsg{X: len([]rune(l[:at[0]])) + 3, Y: y, Button: tea.MouseButtonLeft, Action: tea.MouseActionPress})
			p.sees("Timers", "↑ ↓ read on")
			return
		}
	}
	t.Errorf("nothing to click:\n%s", p.m.View())
}
