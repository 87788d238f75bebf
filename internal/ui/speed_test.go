package ui

import (
	"testing"
	"time"

	"bench/internal/cells"
	"bench/internal/memory"

	tea "github.com/charmbracelet/bubbletea"
)

// took is the program with a message taken, whatever it asks for.
func took(m Model, msg tea.Msg) Model {
	next, _ := m.Update(msg)
	return next.(Model)
}

// BenchmarkSecond is a second that passes with a timer in sight.
func BenchmarkSecond(b *testing.B) {
	p := arrives(b, memory.New()).starts().works("sea/olive")
	_ = p.m.View()
	for b.Loop() {
		p.m = took(p.m, tickMsg{p.m.ticks.id})
		_ = p.m.View()
	}
}

// BenchmarkFigure is a figure typed at the bench, and the screen drawn.
func BenchmarkFigure(b *testing.B) {
	p := arrives(b, memory.New()).starts().works("sea/olive")
	for b.Loop() {
		p.m = took(p.m, keyOf("1"))
		_ = p.m.View()
		p.m.bench.Typed = ""
	}
}

// BenchmarkFigureBesideTheLoaf is the same in a window that shows the loaf, in
// colour: what the picture costs a key that changes nothing in it.
func BenchmarkFigureBesideTheLoaf(b *testing.B) {
	p := arrives(b, memory.New()).sized(120, 40).starts().works("dusk/shea")
	p.m.deps.Theme.Picture = cells.Look{Pattern: cells.Quadrants, Colours: cells.True, Bold: true}
	for b.Loop() {
		p.m = took(p.m, keyOf("1"))
		_ = p.m.View()
		p.m.bench.Typed = ""
	}
}

// TestAFigureIsCheap: what a figure changes is drawn for it, and not much else.
func TestAFigureIsCheap(t *testing.T) {
	p := arrives(t, memory.New()).sized(120, 40).starts().works("dusk/shea")
	p.m.deps.Theme.Picture = cells.Look{Pattern: cells.Quadrants, Colours: cells.True, Bold: true}
	const most = 450
	if n := testing.AllocsPerRun(50, func() {
		p.m = took(p.m, keyOf("1"))
		_ = p.m.View()
		p.m.bench.Typed = ""
	}); n > most {
		t.Errorf("%.0f objects for a figure, of %d at most", n, most)
	}
}

// BenchmarkNote is a fact proposed, kept in memory, planned and drawn.
func BenchmarkNote(b *testing.B) {
	p := arrives(b, memory.New()).starts().works("sea/olive")
	for b.Loop() {
		p.waits(time.Second).gets(keyOf("n")).waits(time.Second).gets(keyOf("x")).waits(time.Second).gets(keyOf("enter"))
		_ = p.m.View()
		p.m.bench.State.Entries = p.m.bench.State.Entries[:30]
	}
}
