package ui

import (
	"bench/internal/ui/ink"
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"
	"time"

	"github.com/charmbracelet/lipgloss"
	"github.com/muesli/termenv"
)

// scenes are the screens that are kept, each led up to from a fresh start.
var scenes = []struct {
	name string
	lead func(p *person)
}{
	{"home", func(p *person) {
		p.store.heldBy["26K25B"] = "another bench has it open"
		p.starts().works("sea/shea").press("esc")
		p.press("down", "enter", "enter", "esc", "up")
	}},
	{"home-empty", func(*person) {}},
	{"set-up", func(p *person) { p.press("enter") }},
	{"face", func(p *person) { p.starts().works("dusk/shea").press("f") }},
	{"face-designed", func(p *person) { p.press("enter", "f") }},
	{"weighing", func(p *person) { p.starts().works("sea/olive") }},
	{"typed-and-off", func(p *person) { p.starts().works("sea/olive").types("351.2") }},
	{"doubt", func(p *person) { p.starts().works("sea/olive").types("34.43").press("enter") }},
	{"alkali", func(p *person) { p.starts().works("sea/sodium hydroxide").press("space") }},
	{"lye-jug", func(p *person) { p.starts().works("sea/lye jug") }},
	{"split", func(p *person) { p.starts().works("sea/base/loaf 2") }},
	{"pour", func(p *person) { p.starts().works("sea/base/loaf 2/pour") }},
	{"hold-timer-due", func(p *person) { p.starts().works("dusk/shea").looks(5*time.Minute + 4*time.Second) }},
	{"putting-off", func(p *person) {
		p.starts().works("dusk/shea").looks(5*time.Minute + 4*time.Second).press("z")
	}},
	{"embeds", func(p *person) { p.starts().works("base/loaf 2/lighthouse") }},
	{"sky-poured", func(p *person) { p.starts().works("dusk/sky/loaf 3/pour").press("left") }},
	{"by-eye", func(p *person) { p.starts().works("sea/olive").types("340").press("b") }},
	{"waiting", func(p *person) { p.starts().works("").looks(70 * time.Minute) }},
	{"first-aid", func(p *person) { p.press("!") }},
	{"keys", func(p *person) { p.press("?") }},
	{"note", func(p *person) { p.starts().press("n").types("window open, 19 °C") }},
	{"record", func(p *person) { p.starts().works("sea/olive").press("u", "up", "enter").types("151.8") }},
	{"record-doubt", func(p *person) {
		p.starts().works("sea/base/loaf 3").press("u", "enter").types("365.5").press("enter").types("misread").press("enter")
		p.press("u", "up", "enter").types("18.3").press("enter")
	}},
	{"not-saved", func(p *person) {
		p.starts().works("sea/olive")
		p.store.fail = errors.New("write bench.db: no space left on device")
		p.press("space")
	}},
	{"reopened", func(p *person) { p.starts().works("sea/olive").press("esc").waits(40 * time.Minute).press("enter") }},
	{"off-at-the-bench", func(p *person) { p.overweighs() }},
	{"ways", func(p *person) { p.overweighs().press("d", "down") }},
	{"ways-warning", func(p *person) { p.overweighs().press("d") }},
	{"weigh-pot", func(p *person) { p.starts().works("sea/castor").press("w").types("1241.") }},
	{"gel-answers", func(p *person) { p.starts().works("").looks(70*time.Minute).types("78").press("enter", "down") }},
	{"in-cure", func(p *person) { p.cures(3).press("enter", "enter") }},
	{"cure-curve", func(p *person) { p.cures(4).waits(7*aDay).press("enter", "enter") }},
	{"rack", func(p *person) { p.cures(4).press("r") }},
	{"release-open", func(p *person) { p.tested(11.3) }},
	{"release-answers", func(p *person) { p.tested(11.3).press("enter") }},
	{"afterwards", func(p *person) { p.tested(9.6).press("c") }},
	{"ending", func(p *person) { p.starts().press("e") }},
}

// TestGolden compares every scene with its file, at two sizes.
func TestGolden(t *testing.T) {
	for _, scene := range scenes {
		for _, size := range []struct{ w, h int }{{80, 24}, {120, 40}} {
			name := fmt.Sprintf("%s-%dx%d", scene.name, size.w, size.h)
			t.Run(name, func(t *testing.T) {
				p := arrives(t, newMemory()).sized(size.w, size.h)
				scene.lead(p)
				p.golden(name)
			})
		}
	}
	t.Run("weighing-200x60", func(t *testing.T) {
		arrives(t, newMemory()).sized(200, 60).starts().works("sea/olive").golden("weighing-200x60")
	})
	t.Run("too-small", func(t *testing.T) {
		p := arrives(t, newMemory()).starts().works("sea/olive").types("34").sized(60, 20)
		p.golden("too-small-60x20").press("space", "5", "enter").sized(80, 24).sees("34")
		if p.m.bench.Typed != "34" {
			t.Errorf("typed is %q", p.m.bench.Typed)
		}
	})
}

// TestFits holds every scene to its window, from far too small to very large.
func TestFits(t *testing.T) {
	for _, scene := range scenes {
		p := arrives(t, newMemory())
		scene.lead(p)
		for w := 20; w <= 200; w += 15 {
			for h := 5; h <= 60; h += 7 {
				p.sized(w, h)
				lines := p.m.lines(w, h)
				if len(lines) > h && !p.m.small() {
					t.Errorf("%s at %dx%d: %d lines", scene.name, w, h, len(lines))
				}
				for i, l := range lines {
					if ink.Width(l) > w {
						t.Errorf("%s at %dx%d: line %d is %d wide: %q", scene.name, w, h, i+1, ink.Width(l), l)
					}
				}
			}
		}
	}
}

// TestNoColour holds a screen without colour to the same text, with bold and
// reverse and no colour code at all.
func TestNoColour(t *testing.T) {
	for _, scene := range scenes {
		p := arrives(t, newMemory())
		scene.lead(p)
		plain := p.m.View()
		r := lipgloss.NewRenderer(io.Discard)
		r.SetColorProfile(termenv.ANSI)
		p.m.deps.Theme = ink.NewTheme(r, false)
		styled := p.m.View()
		if strings.Contains(styled, "[3") && !strings.Contains(plain, "[3") || strings.Contains(styled, ";3") {
			t.Errorf("%s: a colour is left: %q", scene.name, styled)
		}
		if !strings.Contains(styled, "\x1b[1m") {
			t.Errorf("%s: nothing is bold", scene.name)
		}
	}
}
