package steps_test

import (
	"fmt"
	"testing"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/steps"
	"bench/internal/work"
)

// grown is the harbour recipe with so many layers, its two batters taking turns,
// for so many loaves.
func grown(layers, loaves int) recipe.Control {
	c := harbour()
	two := c.Recipe.Layers
	c.Recipe.Layers = nil
	for i := range layers {
		l := two[i%2]
		l.Name = fmt.Sprintf("layer %d", i+1)
		l.Surface = 66 * mm * quantity.Length(i+1) / quantity.Length(layers)
		if i > 0 {
			l.Embeds = nil // Thin layers have no room for them.
		}
		c.Recipe.Layers = append(c.Recipe.Layers, l)
	}
	if layers == 1 {
		c.Recipe.Batters = c.Recipe.Batters[:1]
	}
	c.Loaves, c.Recipe.Loaves, c.Mould.Count = loaves, loaves, loaves
	for i := range c.Scales { // Large batches are to be weighed as small ones are.
		c.Scales[i].Max *= 100
	}
	return c
}

// largest is the largest recipe that is promised to be quick: 12 layers, 20 oils
// in each batter, 24 loaves.
func largest() recipe.Control {
	c := grown(12, 24)
	few := c.Oils
	c.Oils = nil
	var shares []recipe.OilShare
	for i := range 20 {
		oil := few[i%len(few)]
		oil.Key = fmt.Sprintf("%s %d", oil.Key, i+1)
		c.Oils = append(c.Oils, oil)
		shares = append(shares, recipe.OilShare{Oil: oil.Key, Share: 5 * quantity.Percent})
	}
	for i := range c.Recipe.Batters {
		c.Recipe.Batters[i].Oils = shares
	}
	return c
}

// BenchmarkLargest is the first plan of the largest recipe, and the one after its
// fiftieth fact.
func BenchmarkLargest(b *testing.B) {
	all := begin(largest())
	b.Run("plan", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			steps.Of(all.state)
		}
	})
	facts := 0
	if err := all.work(func(work.Task) bool { facts++; return facts > 50 }); err != nil {
		b.Fatal(err)
	}
	entries := all.state.Entries
	before, fact := batch.Fold(entries[:len(entries)-1]), entries[len(entries)-1]
	b.Run("replan", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			steps.Of(before.Apply(fact))
		}
	})
}

// BenchmarkPlan is the plan of a batch before its first fact.
func BenchmarkPlan(b *testing.B) {
	run := func(name string, layers, loaves int) {
		c := grown(layers, loaves)
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				steps.Of(batch.State{Control: c})
			}
		})
	}
	for _, n := range []int{1, 2, 4, 8, 12} {
		run(fmt.Sprintf("layers=%d", n), n, 3)
	}
	for _, n := range []int{1, 3, 6, 12, 24} {
		run(fmt.Sprintf("loaves=%d", n), 2, n)
	}
}

// BenchmarkReplan is what each key that makes a fact costs: the fact applied, and
// the plan anew, when so many facts are there.
func BenchmarkReplan(b *testing.B) {
	all := begin(grown(8, 16))
	if err := all.work(never); err != nil {
		b.Fatal(err)
	}
	entries := all.state.Entries
	for _, n := range []int{10, 50, 100, 200, 500} {
		if n > len(entries) {
			b.Fatalf("the batch has only %d facts", len(entries))
		}
		before, fact := batch.Fold(entries[:n-1]), entries[n-1]
		b.Run(fmt.Sprintf("facts=%d", n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				steps.Of(before.Apply(fact))
			}
		})
	}
}
