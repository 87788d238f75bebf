package ui

import (
	"slices"
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/memory"
	"bench/internal/ui/ink"

	"pgregory.net/rapid"
)

// TestRoomIsUsed: what a larger window is for.
func TestRoomIsUsed(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/shea").press("n").types("window open").press("enter").works("sea/olive")
	for _, each := range []struct{ w, h, scale int }{{80, 24, 1}, {120, 40, 2}, {200, 60, 3}} {
		p.sized(each.w, each.h)
		for _, row := range ink.Big("344.3", each.scale) {
			p.sees(strings.TrimRight(row, " "))
		}
	}
	p.sized(80, 24).seesNot("May be begun now", "to the rim")
	p.sized(120, 40).sees("May be begun now", "○ oils · dusk", "to the rim")
	p.sized(200, 60).sees("May be begun now", "Then", "after oils · sea", "Notes", "window open", "Said before", "coconut oil 214.2 g", "to the rim")
	p.works("sea/base/loaf 2/pour").sized(200, 60).sees("May be begun now", "Said before", "to the rim")
}

// TestPagesLeadLarge: on every page that is more than a list a window with room has in
// large what a person looks for, and the smallest window has no column beside it.
func TestPagesLeadLarge(t *testing.T) {
	at := func(task string) *person { return arrives(t, memory.New()).starts().works(task) }
	for name, c := range map[string]struct {
		p     *person
		large []string
	}{
		"home":    {at("sea/olive").press("esc"), slices.Concat(ink.Letters("olive oil", 1), ink.Big("344.3", 1))},
		"recipe":  {arrives(t, memory.New()), ink.Letters("lighthouse", 1)},
		"record":  {at("sea/olive").press("u", "up", "enter").types("151.8"), ink.Big("151.8", 1)},
		"pot":     {at("sea/castor").press("w").types("1241."), slices.Concat(ink.Letters("large pot", 1), ink.Big("1241.", 2))},
		"note":    {at("sea/olive").press("n"), ink.Letters("note", 1)},
		"ways":    {arrives(t, memory.New()).overweighs().press("d"), ink.Big("5.0", 1)},
		"warning": {arrives(t, memory.New()).overscents().press("d", "down").types("12."), ink.Big("12.", 2)},
		"answers": {at("").looks(70 * time.Minute).press("enter"), ink.Letters("no gel", 1)},
		"gel":     {at("").looks(70 * time.Minute), ink.Letters("look at gel", 1)},
	} {
		c.p.sized(120, 40)
		for _, row := range c.large {
			if !strings.Contains(c.p.m.View(), strings.TrimRight(row, " ")) {
				t.Fatalf("%s: %q is not there:\n%s", name, row, c.p.m.View())
			}
		}
	}
}

// TestColumnsMeet: in any window with room a line between columns begins at a joint
// and goes down to the rule at the foot without a gap.
func TestColumnsMeet(t *testing.T) {
	people := map[string]*person{}
	for _, task := range []string{"sea/olive", "lye/sea/read back", "sea/base/loaf 2", "base/loaf 2/lighthouse"} {
		people[task] = arrives(t, memory.New()).starts().works(task)
	}
	rapid.Check(t, func(r *rapid.T) {
		p := people[rapid.SampledFrom([]string{"sea/olive", "lye/sea/read back", "sea/base/loaf 2", "base/loaf 2/lighthouse"}).Draw(r, "task")]
		p.sized(rapid.IntRange(ink.WideAt, 260).Draw(r, "w"), rapid.IntRange(ink.MinHeight, 90).Draw(r, "h"))
		lines := p.m.bare()
		for y, l := range lines {
			for x, c := range []rune(l) {
				if c != '┬' {
					continue
				}
				at := y + 1
				for at < len(lines) && slices.Equal([]rune(lines[at])[x:x+1], []rune("│")) {
					at++
				}
				if at == y+1 || !strings.HasPrefix(lines[at], "──") {
					r.Fatalf("the column at %d, from line %d, ends at line %d:\n%s", x, y, at, strings.Join(lines, "\n"))
				}
			}
		}
	})
}

// TestReadBackHidesNoLye: what burns, and what was off, is read back at any size with all
// that was decided since, whatever finds no room beside it.
func TestReadBackHidesNoLye(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/olive")
	for range 2 {
		p.types("390").press("enter")
	}
	d := p.m.bench.Plan.Deviations[0]
	for _, w := range p.press("d", "left", "left", "left").m.bench.Plan.Ways(d) {
		if w.Fact.Way == batch.InProportion {
			p.press("enter").records(w.Fact)
			break
		}
		p.press("right")
	}
	p.works("lye/sea/read back")
	for _, size := range sizes {
		p.sized(size.w, size.h).sees("more sodium hydro", "106.49", "lye jug A, full")
	}
	p.works("sea/meet")
	for _, size := range sizes {
		p.sized(size.w, size.h).sees("superfat", "more sodium hydro", "106.49")
	}
}
