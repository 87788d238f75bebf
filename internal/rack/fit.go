package rack

import (
	"slices"

	"bench/internal/quantity"
	"bench/internal/recipe"
)

// The policy of this file: vessels are taken in the order of the shelf, but one that is
// too small for what is planned for it is passed over while a larger one is free.

// Loads are the most that the pots, the lye jugs and the jugs of loaves are planned to hold,
// and those of layers, of which only some have one.
type Loads struct{ Pots, LyeJugs, Loaves, Layers []quantity.Mass }

// Fit gives every place a vessel that holds what is planned for it, where there is one.
// Fits says whether a vessel of the workshop does.
func (r *Rack) Fit(l Loads, fits func(v recipe.Vessel, load quantity.Mass) bool) {
	jugs := make([]quantity.Mass, r.jugs)
	if r.jugs >= len(l.Loaves) && len(l.Loaves) > 1 {
		copy(jugs, l.Loaves)
	}
	for i, load := range l.Layers {
		if load > 0 && r.layerJug[i] < len(jugs) {
			jugs[r.layerJug[i]] = max(jugs[r.layerJug[i]], load)
		}
	}
	r.fit(recipe.Pot, l.Pots, fits)
	r.fit(recipe.LyeJug, l.LyeJugs, fits)
	r.fit(recipe.Jug, jugs, fits)
}

// fit changes places, the heaviest load first: it takes the smallest that is free and
// holds it. What is not known to be too small stays where it is.
func (r *Rack) fit(kind recipe.VesselKind, loads []quantity.Mass, fits func(recipe.Vessel, quantity.Mass) bool) {
	have := r.byKind[kind]
	order := make([]int, 0, len(loads))
	for i := range loads {
		if i < len(have) {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return int(loads[b] - loads[a]) })
	for _, i := range order {
		if fits(have[i], loads[i]) {
			continue
		}
		best := -1
		for j, v := range have {
			free := j >= len(loads) || loads[j] < loads[i] && (fits(have[i], loads[j]) || !fits(v, loads[j]))
			if free && fits(v, loads[i]) && (best < 0 || smaller(v, have[best])) {
				best = j
			}
		}
		if best >= 0 {
			have[i], have[best] = have[best], have[i]
		}
	}
}

// smaller says that a vessel is known to hold less than another.
func smaller(v, than recipe.Vessel) bool {
	return v.Brim > 0 && (than.Brim == 0 || v.Brim < than.Brim)
}
