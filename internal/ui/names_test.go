package ui

import (
	"encoding/json"
	"strings"
	"testing"

	"bench/internal/front"
	"bench/internal/memory"
	"bench/internal/recipe"
	"bench/internal/ui/ink"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"
	"pgregory.net/rapid"
)

// foreign are pieces of names that terminals and programs measure in different
// ways: marks that join (UAX 29), wide and ambiguous characters (UAX 11), text
// that runs from right to left (UAX 9), emoji (UTS 51), and what shows nothing.
var foreign = []string{
	"a", "sea ", "e\u0301", "o\u0308\u0323", "\u0301", "ก\u0e47", "नि", "海", "港町", "ㅎ", "한", "ｱﾞ", "㍿", "שמן ", "زيت ", "١٢", "ﷺ",
	"👩\u200d🚀", "🇳🇴", "🇳", "❤\ufe0f", "☺", "✂\ufe0f", "👍🏽", "½", "°", "·", "…", "ﬁ", "𝓏", "𠀀",
	"1\ufe0f\u20e3", "#\u20e3", "7\ufe0f", "A\u20e3",
	"\u200b", "\u00ad", "\u202e", "\u2066", "\ufeff", "\u061c", "\u00a0", "\u3000", "\x1b[31m", "\a", "\u009b", "\ue000", "\u2028",
}

func names() *rapid.Generator[string] {
	return rapid.Custom(func(t *rapid.T) string {
		return strings.Join(rapid.SliceOfN(rapid.SampledFrom(foreign), 1, 9).Draw(t, "pieces"), "")
	})
}

// renamed gives a control recipe in which words are other words, in names and
// wherever they are referred to.
func renamed(t testing.TB, c recipe.Control, names map[string]string) recipe.Control {
	t.Helper()
	data, err := json.Marshal(c)
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	for from, to := range names {
		quoted, err := json.Marshal(to)
		if err != nil {
			t.Fatal(err)
		}
		text = strings.ReplaceAll(text, from, strings.Trim(string(quoted), `"`))
	}
	var out recipe.Control
	if err := json.Unmarshal([]byte(text), &out); err != nil {
		t.Fatal(err)
	}
	return out
}

// comesTo begins a batch under strange names and works a number of tasks off.
func comesTo(t *rapid.T, tb testing.TB, control recipe.Control, tasks int) *person {
	t.Helper()
	p := &person{t: tb, store: memory.New(), clock: morning}
	p.comesIn()
	name := control.Recipe.Name
	p.m.home = p.m.home.Offered([]front.RecipeItem{{
		Name: name, About: name + " " + name, File: name, Loaves: control.Loaves,
		Resolve: func(int) (recipe.Control, []string) { return control, nil },
	}})
	p.press("enter", "enter")
	for range tasks {
		if _, _, ok := p.m.bench.Current(p.moment()); !ok {
			break
		}
		p.doesOne()
	}
	return p
}

// TestNamesBreakNoFrame holds every screen to its window whatever things are
// called: no line is wider by the one measure that all of them are set with, that
// measure is the drawer's, and the lines between columns stand below each other.
func TestNamesBreakNoFrame(t *testing.T) {
	control, _ := builtin(t)[0].Resolve(3)
	screens := map[string][]string{
		"bench": nil, "set-up": {"esc"}, "record": {"u"}, "correcting": {"u", "enter"}, "ways": {"d"}, "pot": {"w"}, "keys": {"?"},
		"face": {"f"}, "note": {"n"}, "leaving out": {"x"}, "home": {"esc"}, "rack": {"esc", "r"}, "ending": {"e"}, "reopened": {"esc", "enter"},
	}
	rapid.Check(t, func(rt *rapid.T) {
		called := map[string]string{}
		for i, word := range []string{"Lighthouse at dusk", "sea", "dusk", "base", "sky", "olive oil", "shea butter", "large pot", "lye jug A", "bench scale", "lighthouse"} {
			if rapid.Bool().Draw(rt, word) {
				called[word] = names().Draw(rt, word+" is") + string(rune('A'+i)) // No two are called alike.
			}
		}
		p := comesTo(rt, t, renamed(t, control, called), rapid.IntRange(0, 60).Draw(rt, "tasks"))
		p.press("n").gets(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(names().Draw(rt, "note")), Paste: true}).press("enter")
		screen := rapid.SampledFrom([]string{
			"bench", "set-up", "record", "correcting", "ways", "pot", "keys", "face", "note", "leaving out", "home", "rack", "ending", "reopened",
		}).Draw(rt, "screen")
		p.press(screens[screen]...)
		if p.m.writing() {
			p.gets(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(names().Draw(rt, "line")), Paste: true})
		}
		w, h := rapid.IntRange(80, 220).Draw(rt, "width"), rapid.IntRange(24, 70).Draw(rt, "height")
		p.sized(w, h)
		lines := p.m.lines(w, h)
		if len(lines) > h {
			rt.Fatalf("%s: %d lines in %d", screen, len(lines), h)
		}
		bars := map[int]bool{}
		for _, l := range lines {
			if got := ink.Width(l); got > w {
				rt.Fatalf("%s at %dx%d is %d wide: %q", screen, w, h, got, l)
			}
			if got, drawn := ink.Width(l), cellsOf(ansi.Strip(l)); got != drawn {
				rt.Fatalf("%s: %d cells are %d to the drawer: %q", screen, got, drawn, l)
			}
			if strings.ContainsAny(ansi.Strip(l), "\x1b\a\u009b\u202e\u2066") {
				rt.Fatalf("%s: a control is shown: %q", screen, l)
			}
			if before, _, found := strings.Cut(ansi.Strip(l), "│"); found && screen == "bench" {
				bars[ink.Width(before)] = true
			}
		}
		if screen == "bench" && len(bars) > 1 {
			rt.Fatalf("the columns stand askew at %dx%d: %v\n%s", w, h, bars, strings.Join(lines, "\n"))
		}
	})
}

// cellsOf measures a line as the drawer lays it out, grapheme by grapheme.
func cellsOf(line string) int {
	cells := 0
	for line != "" {
		text, n := ansi.FirstGraphemeCluster(line, ansi.GraphemeWidth)
		cells, line = cells+n, line[len(text):]
	}
	return cells
}
