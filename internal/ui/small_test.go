package ui

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/golden"
	"bench/internal/memory"
	"bench/internal/readback"
	"bench/internal/ui/ink"
	"bench/internal/ui/intent"
	"bench/internal/work"

	"github.com/charmbracelet/x/ansi"
)

// flat gives the words of the screen, line ends taken out.
func (p *person) flat() string {
	return strings.Join(strings.Fields(ansi.Strip(p.m.View())), " ")
}

// TestSmall keeps what windows below the smallest size show: the weight, its unit,
// where it goes and the keys, down to twenty by six.
func TestSmall(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/olive")
	text := ""
	for _, size := range []struct{ w, h int }{{79, 24}, {60, 20}, {40, 12}, {30, 8}, {20, 6}, {20, 5}, {12, 6}, {6, 2}} {
		p.sized(size.w, size.h)
		text += fmt.Sprintf("== %dx%d\n%s\n", size.w, size.h, p.m.View())
	}
	p.sized(40, 12).types("34")
	for _, size := range []struct{ w, h int }{{40, 12}, {20, 8}} {
		p.sized(size.w, size.h)
		text += fmt.Sprintf("== %dx%d, typed\n%s\n", size.w, size.h, p.m.View())
	}
	p.sized(80, 24).press("enter", "n").sized(40, 12)
	text += fmt.Sprintf("== 40x12, a note\n%s\n", p.m.View())
	for _, each := range []struct {
		name string
		p    *person
	}{
		{"read back", arrives(t, memory.New()).starts().works("lye/sea/read back")},
		{"answers", arrives(t, memory.New()).starts().works("").looks(70*time.Minute).press("enter", "down")},
		{"an alarm", arrives(t, memory.New()).starts().works("dusk/shea").looks(6 * time.Minute)},
		{"the first screen", arrives(t, memory.New()).starts().works("dusk/shea").press("esc")},
		{"the record", arrives(t, memory.New()).starts().works("dusk/shea").press("u")},
	} {
		for _, size := range []struct{ w, h int }{{60, 18}, {40, 12}, {24, 7}} {
			each.p.sized(size.w, size.h)
			text += fmt.Sprintf("== %dx%d, %s\n%s\n", size.w, size.h, each.name, each.p.m.View())
		}
	}
	golden.Equal(t, filepath.Join("testdata", "too-small.golden"), text)
}

// TestSmallestThatAnswers: twenty by six is enough for an oil, and nothing smaller is.
func TestSmallestThatAnswers(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/olive").waits(time.Second)
	before := len(p.store.Facts("26K25A"))
	for _, size := range []struct{ w, h int }{{19, 6}, {20, 5}, {19, 200}, {200, 3}, {1, 1}} {
		p.sized(size.w, size.h).press("space", "5", "enter")
		if n := len(p.store.Facts("26K25A")); n != before || p.m.bench.Typed != "" {
			t.Errorf("%dx%d: %d facts, typed %q", size.w, size.h, n-before, p.m.bench.Typed)
		}
	}
	p.sized(20, 6).types("344.5")
	if p.m.bench.Typed != "344.5" {
		t.Fatalf("typed is %q:\n%s", p.m.bench.Typed, p.m.View())
	}
	p.sized(20, 8).press("enter").recorded(before + 1)
	if w, ok := p.last().(batch.Weighed); !ok || w.Mass != 344_500 {
		t.Errorf("kept %+v", p.last())
	}
}

// TestNoKeyIsTakenBlind goes through a whole batch in windows that are too small for
// the bench: a key that is taken had all that it answers in sight, and the key itself;
// where it is not taken nothing changes.
func TestNoKeyIsTakenBlind(t *testing.T) {
	p := arrives(t, memory.New()).starts()
	sizes := []struct{ w, h int }{{20, 6}, {24, 10}, {40, 7}, {40, 16}, {79, 24}, {79, 8}, {80, 23}, {120, 12}, {30, 40}, {24, 7}}
	taken := map[string]int{}
	for i := range 200 {
		task, _, ok := p.m.bench.Current(p.moment())
		if !ok {
			break
		}
		size := sizes[i%len(sizes)]
		p.sized(size.w, size.h).waits(20 * time.Second)
		for _, key := range []string{"n", "x", "u", "tab", "left", "down", "esc", "a", "z", "x", "space", "enter"} {
			p.waits(time.Second).gets(tickMsg{p.m.ticks.id})
			seen, facts := p.flat(), len(p.store.Facts("26K25A"))
			wants := p.answeredBy(task)
			p.gets(keyOf(key))
			if now := p.store.Facts("26K25A"); len(now) > facts {
				taken[key]++
				switch now[facts].(type) {
				case batch.TimerSeen, batch.TimerPutOff:
					wants = []string{"look at base: do embeds stay put?", key + " "}
				default:
					wants = append(wants, key+" ")
				}
				for _, want := range wants {
					if !strings.Contains(seen, want) && !large(seen, want) {
						t.Errorf("%s at %dx%d: %s was taken, and %q was not in sight:\n%s", task.ID, size.w, size.h, key, want, seen)
					}
				}
				break
			}
			if now := p.task(); now != task.ID || p.m.page != intent.PageBench {
				t.Fatalf("%s: %s moved to %s, page %d", task.ID, key, now, p.m.page)
			}
		}
		p.m.offer = intent.PutOff{}
		p.sized(80, 24)
		if p.task() == task.ID {
			p.doesOne()
		}
	}
	if taken["space"] < 40 || taken["enter"] < 3 || taken["a"]+taken["x"] < 1 {
		t.Errorf("keys were taken %v times", taken)
	}
}

// answeredBy gives what must be in sight for a key to answer the task.
func (p *person) answeredBy(task work.Task) []string {
	wants := []string{strings.Join(strings.Fields(ink.Clean(task.Title)), " ")}
	if asked := p.asked(); asked != "" {
		wants = append(wants, asked)
	}
	if task.Do == work.Confirm {
		for _, l := range readback.Of(p.m.bench.Plan, task.ID) {
			wants = append(wants, ink.Clean(l.What+" "+l.Was))
		}
	}
	return wants
}

// TestSmallAnswers: what interrupts the work is answered in a window too small for its
// page, while all of it is in sight; one row less, and the window says what it needs.
func TestSmallAnswers(t *testing.T) {
	at := func(task string) *person { return arrives(t, memory.New()).starts().works(task) }
	unsaved := at("sea/olive")
	unsaved.store.Fail = errors.New("no space left on device")
	unsaved.press("space").store.Fail = nil
	for name, c := range map[string]struct {
		p    *person
		w, h int
		keys []string
		sees []string
		fact string
	}{
		"read back":     {at("lye/sea/read back"), 24, 9, []string{"enter"}, []string{"106.49 g", "enter it is so"}, "ticked"},
		"off":           {at("sea/base/loaf 3").types("735.0").press("enter"), 40, 6, []string{"enter"}, []string{"! loaf 3 364.1 g, asked 367.1"}, "ticked"},
		"alarm":         {at("dusk/shea").looks(6 * time.Minute), 40, 8, []string{"a"}, []string{"126.7", "look at base", "a seen"}, "timer-seen"},
		"alarm, hidden": {at("dusk/shea").looks(6*time.Minute).sized(24, 7).sees("m shows an alarm").press("m"), 24, 5, []string{"a"}, []string{"embeds stay put", "a seen"}, "timer-seen"},
		"put off":       {at("dusk/shea").looks(6*time.Minute).sized(40, 12).press("z"), 24, 5, []string{"x"}, []string{"x 10 min"}, "timer-put-off"},
		"gel":           {at("").looks(70*time.Minute).sized(40, 12).press("enter", "down"), 40, 11, []string{"down", "enter"}, []string{"No gel", "2 of 6", "Gelling: dark in the middle"}, "gel-looked"},
		"note":          {at("sea/olive").press("n").types("window open"), 24, 6, []string{"enter"}, []string{"window open", "enter keep"}, "noted"},
		"not saved":     {unsaved, 24, 7, []string{"r"}, []string{"NOT SAVED", "olive oil 344.3 g", "No space left"}, "weighed"},
		"on the scale":  {at("sea/olive").press("esc").waits(40 * time.Minute).press("enter"), 40, 6, []string{"enter", "space"}, []string{"olive oil", "untared 1079.2 g"}, "weighed"},
	} {
		t.Run(name, func(t *testing.T) {
			c.p.t = t
			n := len(c.p.store.Facts("26K25A"))
			need := c.p.sized(c.w, c.h).m.smallPage(c.w, 0).Rows()
			if need > c.h {
				t.Errorf("%d rows are needed", need)
			}
			c.p.sized(c.w, need-1).sees("!").press(c.keys...).recorded(n)
			if want := fmt.Sprintf("needs %d by %d", c.w, need); !strings.Contains(c.p.flat(), want) {
				t.Errorf("it does not say %q:\n%s", want, c.p.m.View())
			}
			c.p.sized(c.w, c.h)
			for _, text := range c.sees {
				if !strings.Contains(c.p.flat(), text) {
					t.Errorf("it does not show %q:\n%s", text, c.p.m.View())
				}
			}
			c.p.press(c.keys...).recorded(n + 1)
			if got := batch.Kind(c.p.last()); got != c.fact {
				t.Errorf("kept a fact of kind %s", got)
			}
		})
	}
}

// TestSmallHome: a batch is opened from a small window, and an alarm answered; a recipe
// is not begun, because its plan finds no room.
func TestSmallHome(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("dusk/shea").press("esc", "down", "enter", "enter", "esc").looks(6 * time.Minute)
	n := len(p.store.Facts("26K25A"))
	p.sized(24, 5).sees("! no keys: needs 24 by 6").press("up", "enter").sees("! no keys")
	p.sized(24, 8).sees("▶ 26K25B", "m shows an alarm").press("up").sees("▶ 26K25A").press("down", "enter").sees("Gloves").press("q")
	p = arrives(t, p.store).waits(20*time.Minute).sized(40, 14).sees("!! look at base", "a seen").press("a")
	if got := p.store.Facts("26K25A"); len(got) != n+1 || batch.Kind(got[n]) != "timer-seen" {
		t.Errorf("kept %v", got[n:])
	}
	p.press("down", "down", "enter").sees("needs 80 by 24", "esc goes").press("enter", "space").sees("needs 80 by 24").press("esc").sees("▶ Recipe Lighthouse at dusk")
	if len(p.store.Codes) != 2 {
		t.Errorf("%d batches", len(p.store.Codes))
	}
}

// TestOfferHidesTheTask: in a small window the question for how long hides the task,
// and a key that is no answer calls it off and does nothing else.
func TestOfferHidesTheTask(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("dusk/shea").looks(6*time.Minute).sized(40, 12)
	n := len(p.store.Facts("26K25A"))
	p.press("z").sees("x 10 min").seesNot("126.7").press("space").recorded(n).sees("126.7").press("space").recorded(n + 1)
	p.press("z", "!").sees("FIRST AID")
}

// TestSmallUnguarded: gloves and goggles that were left out are seen in a small window
// too; where there is no room to say so no key is taken.
func TestSmallUnguarded(t *testing.T) {
	const says = "! put on gloves, goggles, sleeves: lye burns"
	p := arrives(t, memory.New()).starts().press("x").types("at hand").press("enter").works("lye/sea/read back").sized(24, 20)
	if !strings.Contains(p.flat(), says) {
		t.Errorf("it is not said where it is read back:\n%s", p.m.View())
	}
	p.sized(80, 24).works("sea/olive")
	n := len(p.store.Facts("26K25A"))
	for _, w := range []int{20, 24, 40, 79} {
		need := p.sized(w, 20).m.smallPage(w, 0).Rows()
		if p.sized(w, need); !strings.Contains(p.flat(), says) {
			t.Errorf("at %dx%d it is not said:\n%s", w, need, p.m.View())
		}
		p.sized(w, need-1).sees("no keys").press("space").recorded(n)
	}
	p.sized(40, 10).press("space").recorded(n + 1)
	p.sized(80, 24).works("clean up/gloves").doesOne().sized(40, 20)
	if strings.Contains(p.flat(), says) {
		t.Errorf("it is still said:\n%s", p.m.View())
	}
}

// large says that the first row of a number in large figures is in sight.
func large(seen, number string) bool {
	return strings.Trim(number, "0123456789.–") == "" && strings.Contains(seen, strings.Join(strings.Fields(ink.Big(number, 1)[0]), " "))
}
