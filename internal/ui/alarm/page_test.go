package alarm

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"bench/internal/front"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/ui/ink"
	"bench/internal/ui/keys"

	tea "github.com/charmbracelet/bubbletea"
)

// TestPageScrolls: where timers find no room the page counts them, and the arrows lead
// to each.
func TestPageScrolls(t *testing.T) {
	var list []timer.Timer
	for i := range 30 {
		list = append(list, timer.Timer{ID: fmt.Sprint(i), Label: fmt.Sprintf("timer %d.", i), Start: moment(0), After: time.Duration(i+1) * time.Minute})
	}
	b := Board{Batches: []front.UnderWay{{BatchItem: front.BatchItem{Code: "A"}, Plan: steps.Plan{Timers: list}}}, At: time.UTC}
	var s Page
	seen := func() string { return strings.Join(s.View(ink.Theme{}, 80, 24, b, moment(0)), "\n") }
	if text := seen(); !strings.Contains(text, "timer 0.") || !strings.Contains(text, "↓ 21 more") || strings.Contains(text, "timer 9.") {
		t.Errorf("at first:\n%s", text)
	}
	for i := range 40 {
		p := keys.Press{KeyMsg: tea.KeyMsg{Type: tea.KeyDown}, At: moment(0)}
		s, _ = s.Update(p)
		s = s.Within(b, p)
		if want := fmt.Sprintf("timer %d.", min(i+1, 29)); !strings.Contains(seen(), want) {
			t.Fatalf("%q is not in sight:\n%s", want, seen())
		}
	}
	if n := len(strings.Split(seen(), "\n")); n != 24 {
		t.Errorf("%d lines", n)
	}
}

func moment(d time.Duration) timer.Moment {
	return timer.Moment{Wall: time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC).Add(d), Boot: "one", SinceBoot: d}
}
