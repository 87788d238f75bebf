package ui

import (
	"errors"
	"fmt"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"bench/internal/golden"
	"bench/internal/memory"
	"bench/internal/timer"
	"bench/internal/ui/ink"

	"github.com/charmbracelet/x/ansi"
)

// scenes are the screens that are kept, each led up to from a fresh start.
var scenes = []struct {
	name string
	lead func(p *person)
}{
	{"home", func(p *person) {
		p.store.HeldBy["26K25B"] = "another bench has it open"
		p.starts().works("sea/shea").press("esc")
		p.press("down", "enter", "enter", "esc", "up")
	}},
	{"home-empty", func(*person) {}},
	{"set-up", func(p *person) { p.press("enter") }},
	{"face", func(p *person) { p.starts().works("dusk/shea").press("f") }},
	{"face-designed", func(p *person) { p.press("enter", "f") }},
	{"weighing", func(p *person) { p.starts().works("sea/olive") }},
	{"typed-and-off", func(p *person) { p.starts().works("sea/olive").types("351.2") }},
	{"along", func(p *person) {
		p.starts().works("sea/olive")
		p.store.HeldBy["26K25A"] = "process 12 has it open since 25 Nov 09:00"
		p.press("esc", "enter")
	}},
	{"doubt", func(p *person) { p.starts().works("sea/olive").types("34.43").press("enter") }},
	{"alkali", func(p *person) { p.starts().works("sea/sodium hydroxide").press("space") }},
	{"lye-jug", func(p *person) { p.starts().works("sea/lye jug") }},
	{"split-typing", func(p *person) { p.starts().works("sea/base/loaf 2").types("1110.0") }},
	{"other-reading", func(p *person) {
		p.starts().works("sea/olive").press("esc").waits(40 * time.Minute).press("enter").types("1080.0")
	}},
	{"taking-back", func(p *person) { p.starts().works("sea/olive").press("u", "down", "x").types("not clear yet") }},
	{"notes", func(p *person) {
		p.starts().works("sea/shea").press("n").types("window open, 19 °C").press("enter").works("sea/olive")
	}},
	{"two-batches", func(p *person) {
		p.starts().works("dusk/shea").press("esc").press("down", "down", "enter", "enter")
	}},
	{"vessel-in-use", func(p *person) {
		p.starts().works("sea/castor").press("esc").press("down", "enter", "enter").works("sea/water").press("space").types("spare jug 214.0 g, 300 ml").press("enter")
	}},
	{"another-vessel", func(p *person) { p.starts().works("sea/shea").press("i").types("stock pot 1,2 kg") }},
	{"set-up-beside", func(p *person) { p.starts().works("sea/shea").press("esc").press("down", "enter") }},
	{"split", func(p *person) { p.starts().works("sea/base/loaf 2") }},
	{"read-back", func(p *person) { p.starts().works("lye/sea/read back") }},
	{"read-back-off", func(p *person) {
		p.starts().works("sea/base/loaf 3").types("735.0").press("enter")
	}},
	{"portion-ways", func(p *person) { p.overpours().press("d") }},
	{"poured-back", func(p *person) { p.overpours().press("d", "enter") }},
	{"before-lye", func(p *person) { p.starts().works("sea/meet") }},
	{"pour", func(p *person) { p.starts().works("sea/base/loaf 2/pour") }},
	{"pour-weighed", func(p *person) { p.starts().works("sea/base/loaf 2/pour").types("340") }},
	{"hold-timer-due", func(p *person) { p.starts().works("dusk/shea").looks(5*time.Minute + 4*time.Second) }},
	{"timers", func(p *person) {
		p.starts().works("dusk/shea").press("esc", "down", "enter", "enter").works("sea/olive").looks(5 * time.Minute).press("m")
	}},
	{"putting-off", func(p *person) {
		p.starts().works("dusk/shea").looks(5*time.Minute + 4*time.Second).press("z")
	}},
	{"embeds", func(p *person) { p.starts().works("base/loaf 2/lighthouse") }},
	{"sky-poured", func(p *person) { p.starts().works("dusk/sky/loaf 3/pour").press("left") }},
	{"by-eye", func(p *person) { p.starts().works("sea/olive").types("340").press("b") }},
	{"waiting", func(p *person) { p.starts().works("").looks(70 * time.Minute) }},
	{"fell-due", func(p *person) {
		p.starts().works("").press("esc").waits(26 * time.Hour).comesIn()
	}},
	{"quiet-hours", func(p *person) {
		p.manner.Quiet = timer.Hours{From: 9 * time.Hour, To: 12 * time.Hour}
		p.comesIn().starts().works("dusk/shea").looks(5*time.Minute + 4*time.Second)
	}},
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
		p.store.Fail = errors.New("write bench.db: no space left on device")
		p.press("space")
	}},
	{"reopened", func(p *person) { p.starts().works("sea/olive").press("esc").waits(40 * time.Minute).press("enter") }},
	{"off-at-the-bench", func(p *person) { p.overweighs() }},
	{"ways", func(p *person) { p.overweighs().press("d") }},
	{"scent-challenge", func(p *person) { p.overscents().press("d", "down").types("12.") }},
	{"ways-warning", func(p *person) { p.overweighs().press("d", "down") }},
	{"weigh-pot", func(p *person) { p.starts().works("sea/castor").press("w").types("1241.") }},
	{"gel-answers", func(p *person) { p.starts().works("").looks(70*time.Minute).types("78").press("enter", "down") }},
	{"gel-of-a-loaf", func(p *person) { p.starts().works("").looks(70*time.Minute).press("enter", "down", "right", "right") }},
	{"in-cure", func(p *person) { p.cures(3).press("enter", "enter") }},
	{"cure-curve", func(p *person) { p.cures(4).waits(7*aDay).press("enter", "enter") }},
	{"rack", func(p *person) { p.cures(4).press("r") }},
	{"release-open", func(p *person) { p.tested(11.3) }},
	{"release-answers", func(p *person) { p.tested(11.3).press("enter") }},
	{"afterwards", func(p *person) { p.tested(9.6).press("c") }},
	{"practice", func(p *person) { p.starts().works("sea/olive").practises(60) }},
	{"practice-home", func(p *person) { p.practises(1).run(p.m.loadCmd("")) }},
	{"practice-note", func(p *person) { p.starts().press("n").types("spoon is wet").practises(10) }},
	{"ending", func(p *person) { p.starts().press("e") }},
}

// sizes are the windows that every scene is kept at.
var sizes = []struct{ w, h int }{{80, 24}, {120, 40}, {200, 60}}

// looks are the letters of the inks on a map of the smallest window.
var looks = map[string]string{
	"": ".", "1": "b", "1;38;5;117": "a", "1;38;5;214": "o", "1;7;38;5;214": "A", "38;5;247": "q", "7": "c",
}

// TestGolden compares every scene with its file: the text at each size, and
// where the inks are at the smallest. Colour and its absence change no text, and
// without colour nothing but bold, faint and reverse is left (no-color.org).
func TestGolden(t *testing.T) {
	drawn := 0
	for _, scene := range scenes {
		t.Run(scene.name, func(t *testing.T) {
			drawn++
			p := arrives(t, memory.New())
			scene.lead(p)
			text := ""
			for _, size := range sizes {
				p.sized(size.w, size.h)
				plain := p.inked(ink.Bare, ink.Unknown)
				text += fmt.Sprintf("== %dx%d\n%s\n", size.w, size.h, plain)
				for _, c := range []ink.Colours{ink.None, ink.Sixteen, ink.Many} {
					if styled := p.inked(c, ink.Dark); !slices.Equal(trimmed(ansi.Strip(styled)), trimmed(plain)) {
						t.Errorf("%dx%d: colours %d change the text", size.w, size.h, c)
					} else if codes := usedCodes(styled); c == ink.None && strings.Trim(codes, "127;m\x1b[0") != "" {
						t.Errorf("%dx%d: a colour is left: %q", size.w, size.h, codes)
					}
				}
				p.pictured(scene.name, size.w)
			}
			p.sized(80, 24)
			text += "== inks: b bold, q quiet, a accent, o off, A alarm, c cursor\n" + inkMap(t, p.inked(ink.Many, ink.Dark)) + "\n"
			golden.Equal(t, filepath.Join("testdata", scene.name+".golden"), text)
		})
	}
	if drawn == len(scenes) { // Not with -run, which would leave the others out.
		contactSheet(t)
	}
}

// trimmed gives the lines without the spaces at their ends, which take no ink.
func trimmed(text string) []string {
	lines := strings.Split(text, "\n")
	for i, l := range lines {
		lines[i] = strings.TrimRight(l, " ")
	}
	return lines
}

// inked gives the screen in other colours.
func (p *person) inked(c ink.Colours, g ink.Ground) string {
	before, kept := p.m.deps.Theme, p.m.steady
	p.m.steady = nil // It is kept in the colours of before.
	p.m.deps.Theme = ink.NewTheme(c, g)
	p.m.deps.Theme.Picture = before.Picture
	defer func() { p.m.deps.Theme, p.m.steady = before, kept }()
	return p.m.View()
}

var sgr = regexp.MustCompile("\x1b\\[([0-9;]*)m")

func usedCodes(styled string) string { return strings.Join(sgr.FindAllString(styled, -1), "") }

// inkMap gives the frame with the letter of its ink in the place of each
// character.
func inkMap(t *testing.T, frame string) string {
	t.Helper()
	var out strings.Builder
	look := "."
	for line := range strings.Lines(frame) {
		start := out.Len()
		for line != "" {
			if at := sgr.FindStringSubmatchIndex(line); at != nil && at[0] == 0 {
				code, known := line[at[2]:at[3]], false
				if look, known = looks[strings.TrimPrefix(code, "0")]; !known {
					t.Errorf("no letter for the ink %q", code)
				}
				line = line[at[1]:]
				continue
			}
			r, n := utf8.DecodeRuneInString(line)
			switch {
			case r == '\n':
			case r == ' ' && look != "c" && look != "A":
				out.WriteByte(' ')
			default:
				out.WriteString(look)
			}
			line = line[n:]
		}
		kept := strings.TrimRight(out.String()[start:], " ")
		before := out.String()[:start]
		out.Reset()
		out.WriteString(before + kept + "\n")
	}
	return strings.TrimRight(out.String(), "\n")
}

// TestFits holds every scene to its window, from far too small to very large.
func TestFits(t *testing.T) {
	for _, scene := range scenes {
		p := arrives(t, memory.New())
		scene.lead(p)
		for w := 20; w <= 250; w += 23 {
			for h := 5; h <= 80; h += 15 {
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
