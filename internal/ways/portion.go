package ways

import (
	"cmp"
	"fmt"
	"slices"

	"bench/internal/batch"
	"bench/internal/quantity"
)

// The policy of this file: what was poured out of a pot into jugs can be poured back,
// over or on while it stands there by itself: every portion is of the same batter. Once
// it is coloured, scented or poured, what is there is what there is.

// Portion is one that was off, as it stands in its jug.
type Portion struct {
	Off    quantity.Mass // Off is how far it is from its share, below zero for too little.
	Reads  quantity.Mass // Reads is what the scale of the pot reads to.
	Least  quantity.Mass // Least is worth pouring: what a portion may be off.
	Jug    string
	Pot    string        // Pot is what it came out of.
	InPot  quantity.Mass // InPot is what of the pot may still go out of it.
	ToCome bool          // ToCome says that other portions are still to be poured.
	Others []Other       // Others are those that were poured and stand by themselves, too.
}

// Other is another portion of the same pot.
type Other struct {
	Task string
	Jug  string
	Off  quantity.Mass
}

// mostOthers is how many others are offered: columns to read side by side.
const mostOthers = 2

// OfPortion lists the ways, the simplest first.
func OfPortion(p Portion) []Way {
	carryOn := Way{Fact: batch.Decided{Way: batch.CarryOn}, Title: "Leave it: height, scent and what stays follow from it", Until: anyTime}
	if p.ToCome {
		carryOn.Title = "Leave it: the portions to come share what is left"
	}
	list := []Way{carryOn}
	if p.Off > 0 {
		title := "Pour %s g of %s back into %s, where it stays"
		if p.ToCome {
			title = "Pour %s g of %s back into %s, for the portions to come"
		}
		list = append(list, p.pour(batch.PourBack, p.Off, "", fmt.Sprintf(title, p.Off.At(p.Reads), p.Jug, p.Pot)))
	} else if m := min(-p.Off, p.InPot); m >= p.Least {
		list = append(list, p.pour(batch.AddMissing, m, "", fmt.Sprintf("Pour %s g more out of %s into %s", m.At(p.Reads), p.Pot, p.Jug)))
	}
	best := 1
	if over := p.over(); len(over) > 0 {
		if !p.ToCome { // What goes back then serves no other.
			best = len(list)
		}
		list = append(list, over...)
	}
	best = min(best, len(list)-1)
	list[best].Default = true
	return list
}

// over evens it out with those that are off the other way, the furthest first.
func (p Portion) over() []Way {
	others := slices.DeleteFunc(slices.Clone(p.Others), func(o Other) bool { return p.between(o) < p.Least })
	slices.SortStableFunc(others, func(a, b Other) int { return cmp.Compare(b.Off.Abs(), a.Off.Abs()) })
	var list []Way
	for _, o := range others[:min(mostOthers, len(others))] {
		m := p.between(o)
		from, into := p.Jug, o.Jug
		if p.Off < 0 {
			from, into = into, from
		}
		list = append(list, p.pour(batch.PourOver, m, o.Task, fmt.Sprintf("Pour %s g of %s over into %s", m.At(p.Reads), from, into)))
	}
	return list
}

// between is what evens two portions out, or zero where they are off the same way.
func (p Portion) between(o Other) quantity.Mass {
	if p.Off > 0 == (o.Off > 0) {
		return 0
	}
	return min(p.Off.Abs(), o.Off.Abs()).FloorTo(p.Reads)
}

func (p Portion) pour(way batch.Way, m quantity.Mass, other, title string) Way {
	return Way{Fact: batch.Decided{Way: way, Mass: m, Other: other}, Title: title, Until: untilItGoesOn}
}
