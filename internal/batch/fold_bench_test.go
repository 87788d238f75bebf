package batch_test

import (
	"fmt"
	"testing"

	"bench/internal/batch"
	"bench/internal/quantity"
)

// weighedOnly gives the facts of a batch that does nothing but weigh.
func weighedOnly(n int) []batch.Entry {
	entries := make([]batch.Entry, n)
	for i := range entries {
		entries[i] = batch.Entry{Seq: i + 1, Fact: batch.Weighed{Task: fmt.Sprintf("sea/%d", i), Material: "olive oil", Mass: 344 * quantity.Gram}}
	}
	return entries
}

// BenchmarkFold reads a batch back: what opening it costs beside the store.
func BenchmarkFold(b *testing.B) {
	for _, n := range []int{10, 50, 100, 500} {
		entries := weighedOnly(n)
		b.Run(fmt.Sprintf("facts=%d", n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				batch.Fold(entries)
			}
		})
	}
}

// BenchmarkApply is one more fact.
func BenchmarkApply(b *testing.B) {
	for _, n := range []int{10, 50, 100, 500} {
		entries := weighedOnly(n + 1)
		state := batch.Fold(entries[:n])
		b.Run(fmt.Sprintf("facts=%d", n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				state.Apply(entries[n])
			}
		})
	}
}
