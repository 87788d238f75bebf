package ui

import (
	"errors"
	"math/rand/v2"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/memory"
	"bench/internal/steps"
	"bench/internal/ui/ink"

	tea "github.com/charmbracelet/bubbletea"
)

// TestRandomKeys presses keys at random and holds the program to its word: it
// does not fail, keeps no fact that the plan would not allow, fits its window,
// and there is always a way back.
func TestRandomKeys(t *testing.T) {
	names := []string{
		"space", "space", "space", "enter", "enter", "0", "1", "2", "5", "9", ".", "+", "b", "up", "down", "left", "right",
		"backspace", "esc", "n", "u", "x", "e", "r", "a", "z", "c", "!", "?", "tab", "f1", "j", "k", "pgdown", "d", "w", "s", "t", "m", "é", "\u202e", "世",
	}
	for seed := range uint64(3) {
		r := rand.New(rand.NewPCG(seed, 1))
		s := memory.New()
		p := arrives(t, s).starts()
		for range 1000 {
			switch r.IntN(40) {
			case 0:
				p.sized(1+r.IntN(140), 1+r.IntN(50))
			case 1:
				p.sized(80, 24)
			case 2:
				p.looks(time.Duration(r.IntN(600)) * time.Second)
			case 3:
				s.Fail = errors.New("no space left on device")
			case 4:
				s.Fail = nil
			case 5:
				p.gets(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("312.0 \rq"), Paste: true})
			case 6:
				number := p.asked()
				p.types(number).press("enter")
			default:
				p.waits(time.Duration(r.IntN(1500)) * time.Millisecond).gets(keyOf(names[r.IntN(len(names))]))
			}
			for _, l := range p.m.lines(p.m.width, p.m.height) {
				if ink.Width(l) > p.m.width {
					t.Fatalf("seed %d: wider than %d: %q", seed, p.m.width, l)
				}
			}
		}
		s.Fail = nil
		p.sized(80, 24)
		for range 12 {
			p.press("esc")
		}
		p.sees("Under way", "Recipes")
		for _, code := range s.Codes {
			allowed(t, s.Entries[code])
		}
	}
}

// allowed holds every fact to one that the plan before it would have allowed.
func allowed(t *testing.T, entries []batch.Entry) {
	t.Helper()
	state := batch.Fold(entries[:1])
	for _, e := range entries[1:] {
		if err := judge.Allows(steps.Of(state), e.Fact, e.At); err != nil {
			t.Errorf("kept %+v: %v", e.Fact, err)
		}
		state = state.Apply(e)
	}
}
