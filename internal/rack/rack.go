// Package rack hands out the workshop's vessels and scales: which vessel a thing
// goes into, and on which scale it is weighed.
//
// The rule: the same recipe always gets the same vessels and scales, because they
// are handed out by place and by plan, not by who asks first.
package rack

import (
	"cmp"
	"slices"
	"strconv"

	"bench/internal/recipe"
)

// Rack holds the vessels and scales of one batch.
type Rack struct {
	byKind   map[recipe.VesselKind][]recipe.Vessel
	firstCup []int                   // firstCup is where each layer's scent cups begin, after the alkali's.
	firstWet []int                   // firstWet is where its cups of wetted colours begin, likewise.
	scales   []recipe.Scale          // scales are from the finest to the coarsest.
	batters  int                     // batters is how many lye jugs are in use.
	jugs     int                     // jugs is how many jugs are, for loaves and layers.
	layerJug []int                   // layerJug is the place of each layer's own jug, if it has one.
	standing int                     // standing is how many full cups wait at once, at most.
	shared   bool                    // shared says that a batter's cups wait where an earlier one's did.
	instead  map[place]recipe.Vessel // instead are the vessels that were taken in the place of others.
	kept     []int                   // kept are the places of cups that hold alkali which is kept.
}

// Of gives the rack of a batch.
func Of(c recipe.Control) Rack {
	r := Rack{byKind: map[recipe.VesselKind][]recipe.Vessel{}, batters: len(c.Recipe.Batters), scales: slices.Clone(c.Scales), firstCup: make([]int, len(c.Recipe.Layers)), firstWet: make([]int, len(c.Recipe.Layers)), layerJug: make([]int, len(c.Recipe.Layers))}
	slices.SortStableFunc(r.scales, func(a, b recipe.Scale) int {
		return cmp.Or(cmp.Compare(a.Reads, b.Reads), cmp.Compare(a.Max, b.Max))
	})
	for _, v := range c.Vessels {
		r.byKind[v.Kind] = append(r.byKind[v.Kind], v)
	}
	r.seatJugs(c)
	r.seatCups(c)
	return r
}

// nth gives the i-th vessel of a kind, or what was taken in its place. One that the
// workshop lacks has no stored tare, and the screen asks to tare it.
func (r Rack) nth(kind recipe.VesselKind, i int) recipe.Vessel {
	if by, ok := r.instead[place{kind, i}]; ok {
		return by
	}
	if have := r.byKind[kind]; i < len(have) {
		return have[i]
	}
	return recipe.Vessel{Name: "another " + string(kind) + " (no. " + strconv.Itoa(i+1) + ")", Kind: kind}
}

// Pot is where a batter is made.
func (r Rack) Pot(batter int) recipe.Vessel { return r.nth(recipe.Pot, batter) }

// LyeJug is where its lye solution is made.
func (r Rack) LyeJug(batter int) recipe.Vessel { return r.nth(recipe.LyeJug, batter) }

// Spare finds a vessel for a small lye solution among those that no batter, layer or loaf
// of the batch has: a lye jug first, then another jug. Where the workshop has none that
// fits, it is a lye jug that it lacks, and ok is false.
func (r Rack) Spare(fits func(recipe.Vessel) bool) (v recipe.Vessel, ok bool) {
	lacks := max(r.batters, len(r.byKind[recipe.LyeJug]))
	for i := r.batters; i < lacks; i++ {
		if v = r.nth(recipe.LyeJug, i); fits(v) {
			return v, true
		}
	}
	for i := r.jugs; i < len(r.byKind[recipe.Jug]); i++ {
		if v = r.nth(recipe.Jug, i); fits(v) {
			return v, true
		}
	}
	for i := lacks; ; i++ {
		if v = r.nth(recipe.LyeJug, i); fits(v) {
			return v, false
		}
	}
}

// LoafJug takes a loaf's portion; each loaf keeps its jug through all layers.
func (r Rack) LoafJug(loaf int) recipe.Vessel { return r.nth(recipe.Jug, loaf) }

// LayerJug takes a layer's part of a pot that feeds several layers. A single
// loaf takes no jug of its own.
func (r Rack) LayerJug(layer int) recipe.Vessel { return r.nth(recipe.Jug, r.layerJug[layer]) }

// AlkaliCup takes dry alkali and nothing else.
func (r Rack) AlkaliCup() recipe.Vessel { return r.nth(recipe.Cup, 0) }

// Cup takes the n-th scent of a layer. No cup is given out twice while it
// stands full.
func (r Rack) Cup(layer, n int) recipe.Vessel {
	at := 1 + r.firstCup[layer] + n
	for i := 1 + r.standing; i <= at; i++ {
		if slices.Contains(r.kept, i) {
			at++
		}
	}
	return r.nth(recipe.Cup, at)
}

// WetCup takes the n-th colour of a layer that is wetted before its pot is split.
func (r Rack) WetCup(layer, n int) recipe.Vessel { return r.nth(recipe.Cup, 1+r.firstWet[layer]+n) }

// ColourCup takes colours, additives and toppings: from the far end of the
// shelf, because scent stands waiting in the near cups. They go round, since
// each is emptied before the next round comes to it; a cup that is kept is passed over.
func (r Rack) ColourCup(n int) recipe.Vessel {
	have := len(r.byKind[recipe.Cup])
	if free := r.freeCups(); free > 0 {
		n %= free
		for i := have - 1; ; i-- {
			if slices.Contains(r.kept, i) {
				continue
			}
			if n == 0 {
				return r.nth(recipe.Cup, i)
			}
			n--
		}
	}
	for i := max(have, 1+r.standing); ; i++ {
		if slices.Contains(r.kept, i) {
			continue
		}
		if n == 0 {
			return r.nth(recipe.Cup, i)
		}
		n--
	}
}

// freeCups counts the cups of the workshop in which no scent waits, and no alkali is kept.
func (r Rack) freeCups() int {
	free := max(0, len(r.byKind[recipe.Cup])-1-r.standing)
	for _, i := range r.kept {
		if i > r.standing && i < len(r.byKind[recipe.Cup]) {
			free--
		}
	}
	return free
}

// Keep takes the cup of that name for alkali that is kept, or the next one where there
// is none of that name: it is given to nothing else.
func (r *Rack) Keep(cup string) recipe.Vessel {
	v := r.ColourCup(0)
	if at, ok := r.find(cup); ok && at.kind == recipe.Cup {
		v = r.nth(at.kind, at.i)
	}
	if at, ok := r.find(v.Name); ok {
		r.kept = append(r.kept, at.i)
	}
	return v
}
