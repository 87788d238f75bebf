package ui

import (
	"testing"
	"time"
)

// BenchmarkFigure is a figure typed at the bench, and the screen drawn.
func BenchmarkFigure(b *testing.B) {
	p := arrives(b, newMemory()).starts().works("sea/olive")
	for b.Loop() {
		p.gets(keyOf("1"))
		_ = p.m.View()
		p.m.bench.Typed = ""
	}
}

// BenchmarkNote is a fact proposed, kept in memory, planned and drawn.
func BenchmarkNote(b *testing.B) {
	p := arrives(b, newMemory()).starts().works("sea/olive")
	for b.Loop() {
		p.waits(time.Second).gets(keyOf("n")).waits(time.Second).gets(keyOf("x")).waits(time.Second).gets(keyOf("enter"))
		_ = p.m.View()
		p.m.bench.State.Entries = p.m.bench.State.Entries[:30]
	}
}
