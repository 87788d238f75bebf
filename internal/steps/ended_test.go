package steps_test

import (
	"slices"
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/sample"
	"bench/internal/uses"
)

// left answers for all that stands in the vessels of a batch.
func left(b *bencher, emptied func(vessel string) bool) []batch.Left {
	var list []batch.Left
	for _, o := range b.plan().Standing() {
		list = append(list, batch.Left{Vessel: o.Vessel, Held: o.Held(), Emptied: emptied(o.Vessel), Answer: "by the safety data sheet"})
	}
	return list
}

// TestEndsWithLye: a batch ends only when somebody said what becomes of what stands in its
// vessels. What is kept is full for other batches, whatever else was emptied, and can be
// said to be empty later; then the batch is closed, and holds nothing.
func TestEndsWithLye(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/castor")
	b.refuses(t, batch.Closed{Reason: "the power is out"}, "lye jug 1 (the sea lye solution): say what becomes of it")
	b.refuses(t, batch.Stopped{Reason: "the power is out"}, "lye jug 1 (the sea lye solution): say what becomes of it")
	all := left(b, func(string) bool { return true })
	b.refuses(t, batch.Stopped{Reason: "the power is out", Left: all}, "close it")
	b.refuses(t, batch.Stopped{Left: left(b, func(string) bool { return false })}, "say why")
	whole := *b
	whole.allows(t, batch.Closed{Reason: "the power is out", Left: all[0].String()})
	if list := whole.plan().Occupies("A"); len(list) > 0 {
		t.Errorf("all was emptied, and %+v", list)
	}

	kept := left(b, func(vessel string) bool { return vessel != "lye jug 1" })
	b.allows(t, batch.Stopped{Reason: "the power is out", Left: kept})
	p := b.plan()
	if _, next := p.Next(b.moment()); !p.Closed || len(p.Timers) > 0 || next {
		t.Errorf("it has ended: %v, %+v", p.Closed, p.Timers)
	}
	list := p.Occupies("A")
	if len(list) != 1 || list[0].String() != "lye jug 1 holds the sea lye solution of batch A" || uses.LyeOpen(list, true) != "" {
		t.Fatalf("the lye is kept, and %+v", list)
	}
	other := begin(harbour())
	other.workTo(t, "sea/water")
	if got := other.plan().Shared("sea/water", list); got != list[0].String() {
		t.Errorf("water into a jug of lye: %q", got)
	}
	b.refuses(t, batch.Ticked{Task: "sea/combine"}, "closed")
	b.allows(t, batch.Noted{Text: "lid on"})
	b.refuses(t, batch.Closed{Reason: "the power is out"}, "say what becomes of it")
	b.allows(t, batch.Closed{Reason: "the power is out", Left: "poured into the waste can"})
	if list := b.plan().Occupies("A"); len(list) > 0 || !b.state.Closed() {
		t.Errorf("all is empty by now, and %+v", list)
	}
	b.refuses(t, batch.Closed{Reason: "again"}, "closed")
}

// TestWhatBurnsStands: dry hydroxide, lye, batter, and what clings of them to a vessel burn;
// oils do not. A mould that is only lined holds nothing; a cup with two alkalis is one.
func TestWhatBurnsStands(t *testing.T) {
	for _, c := range []struct{ until, want string }{
		{"sea/water", ""},
		{"sea/sodium hydroxide", "lye jug 1"},
		{"sea/dissolve", "lye jug 1, alkali cup!"},
		{"sea/castor", "lye jug 1!, pot 1, lye jug 2!"},
		{"sea/trace/emulsion", "pot 1!, lye jug 2!, lye jug 1!"},
		{"clean up/hydroxide", "lye jug 1!, pot 1!, lye jug 2!, pot 2!, jug 1!, jug 2!, jug 3!, loaf mould"},
	} {
		b := begin(harbour())
		b.workTo(t, c.until)
		var names []string
		for _, o := range b.plan().Standing() {
			name := o.Vessel
			if o.Burns {
				name += "!"
			}
			if !strings.Contains(o.Vessel, "cup") || o.Burns { // Scents wait in theirs, too.
				names = append(names, name)
			}
		}
		if got := strings.Join(names, ", "); got != c.want {
			t.Errorf("at %s: %s, want %s", c.until, got, c.want)
		}
	}
	b := begin(sample.Control(t, "wharf-puck.yaml", 1))
	b.workTo(t, "puck/dissolve")
	cups := slices.DeleteFunc(b.plan().Standing(), func(o uses.Occupied) bool { return !o.Alkali })
	if len(cups) != 1 || !strings.Contains(cups[0].What, "sodium") || !strings.Contains(cups[0].What, "potassium") {
		t.Errorf("%+v", cups)
	}
}
