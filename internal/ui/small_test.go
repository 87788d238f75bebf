package ui

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/memory"
	"bench/internal/ui/ink"

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
	golden(t, "too-small", text+fmt.Sprintf("== 40x12, a note\n%s\n", p.m.View()))
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
// the bench: a key that is taken had all of the order, its number and its unit in
// sight, and the key itself; where it is not taken nothing changes.
func TestNoKeyIsTakenBlind(t *testing.T) {
	p := arrives(t, memory.New()).starts()
	sizes := []struct{ w, h int }{{20, 6}, {24, 10}, {40, 7}, {40, 16}, {79, 24}, {79, 8}, {80, 23}, {120, 12}, {30, 40}}
	taken := 0
	for i := range 200 {
		task, _, ok := p.m.bench.Current(p.moment())
		if !ok {
			break
		}
		size := sizes[i%len(sizes)]
		p.sized(size.w, size.h)
		seen, asked, before := p.flat(), p.asked(), len(p.store.Facts("26K25A"))
		p.press("n", "x", "u", "tab", "left", "down", "esc", "a", "z", "space")
		if n := len(p.store.Facts("26K25A")); n != before {
			taken++
			for _, want := range []string{strings.Join(strings.Fields(ink.Clean(task.Title)), " "), asked, "space "} {
				if !strings.Contains(seen, want) && (want != asked || !large(seen, asked)) {
					t.Errorf("%s at %dx%d: space was taken, and %q was not in sight:\n%s", task.ID, size.w, size.h, want, seen)
				}
			}
		}
		if now := p.task(); len(p.store.Facts("26K25A")) == before && now != task.ID {
			t.Fatalf("%s: a key moved to %s", task.ID, now)
		}
		p.sized(80, 24)
		if p.task() == task.ID {
			p.doesOne()
		}
	}
	if taken < 40 {
		t.Errorf("only %d keys were taken", taken)
	}
}

// large says that the first row of a number in large figures is in sight.
func large(seen, number string) bool {
	return strings.Contains(seen, strings.Join(strings.Fields(ink.Big(number, 1)[0]), " "))
}
