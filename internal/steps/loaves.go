package steps

import (
	"slices"

	"bench/internal/fill"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/rest"
	"bench/internal/work"
)

// alike is how far two portions may be apart that are both within what is asked
// of them: loaves that differ by no more share a layer as the recipe does.
const alike = 4 * quantity.Gram

// leftOut finds the embeds that each loaf goes without.
func (p *planner) leftOut() []fill.Out {
	loaves := make([]fill.Out, p.c.Loaves)
	for loaf := range loaves {
		for i, l := range p.c.Recipe.Layers {
			for n, e := range l.Embeds {
				if d, ok := p.s.Done(EmbedTask(l.Name, loaf, e.Name)); ok && d.Skipped != "" {
					if loaves[loaf] == nil {
						loaves[loaf] = p.noneOut()
					}
					loaves[loaf][i][n] = true
				}
			}
		}
	}
	return loaves
}

func (p *planner) noneOut() fill.Out {
	out := make(fill.Out, len(p.c.Recipe.Layers))
	for i, l := range p.c.Recipe.Layers {
		out[i] = make([]bool, len(l.Embeds))
	}
	return out
}

// sharesOf gives in what proportion the loaves share a layer: as the recipe states,
// or where they have come to differ by what takes each of them to the surface that
// is drawn. What there is too little or too much of falls to all of them alike, so
// that they end at one height.
func (p *planner) sharesOf(layer int, there quantity.Mass) []int64 {
	if len(p.c.Recipe.LoafShares) == p.c.Loaves || !p.differ(layer) {
		return p.weights
	}
	weights, over := make([]int64, p.c.Loaves), int64(there)
	like := max(0, p.firstKept(layer)) // A loaf that was given up stands as the first that was not: it takes nothing from them.
	for loaf := range weights {
		of := loaf
		if p.givenUp(loaf, layer) {
			of = like
		}
		need := p.size.Need(p.got[of].masses, p.out[of])
		weights[loaf] = int64(need + p.c.LeftInVessel) // Its jug keeps some of it.
		over -= weights[loaf]
	}
	for loaf := range weights {
		weights[loaf] = max(1, weights[loaf]+over/int64(len(weights)))
	}
	return weights
}

// unlike says why the loaves do not get the same of a layer, where that can be told, or "".
func (p *planner) unlike(r *pour) string {
	if len(p.c.Recipe.LoafShares) == p.c.Loaves || len(r.shares) == 0 || !p.differ(r.at) {
		return ""
	}
	if least, most := slices.Min(r.shares), slices.Max(r.shares); most-least < most/200 { // Half a part in a hundred, of which nobody sees anything.
		return ""
	}
	return "The loaves stand unlike so far: each gets what brings all to one height."
}

// loafGot is what a loaf gets of each layer that is worked out, from the floor up.
type loafGot struct {
	masses  []quantity.Mass
	givenUp int // givenUp is the lowest layer of which it got nothing; -1 is none.
}

func (p *planner) gotNothing() []loafGot {
	got := make([]loafGot, p.c.Loaves)
	for loaf := range got {
		got[loaf] = loafGot{make([]quantity.Mass, 0, len(p.c.Recipe.Layers)), -1}
	}
	return got
}

// enter notes what each loaf gets of a layer.
func (p *planner) enter(r *pour) {
	for loaf := range p.got {
		got, mass := &p.got[loaf], p.loafMass(r, loaf)
		tick, _ := p.s.Done(r.pourIDs[loaf])
		leftOut := tick.Skipped != ""
		if leftOut || tick.Mass > 0 { // The scale under the mould knows better.
			mass = tick.Mass
		}
		got.masses = append(got.masses, mass)
		if got.givenUp < 0 && (leftOut || len(r.portions) > 0 && noPortion(&r.portions[loaf])) {
			got.givenUp = r.at
		}
	}
}

// givenUp says that a loaf got nothing of some layer below: it takes no more.
func (p *planner) givenUp(loaf, layer int) bool {
	lowest := p.got[loaf].givenUp
	return lowest >= 0 && lowest < layer
}

// noPortion says that a loaf was poured nothing of a layer.
func noPortion(portion *work.Task) bool { return portion.Done && portion.Mass == 0 }

// firstKept finds a loaf that was not given up, or -1.
func (p *planner) firstKept(layer int) int {
	for loaf := range p.c.Loaves {
		if !p.givenUp(loaf, layer) {
			return loaf
		}
	}
	return -1
}

// differ says that loaves have got different amounts so far, or go without
// embeds; those that were given up do not count.
func (p *planner) differ(layer int) bool {
	kept := p.firstKept(layer)
	if kept < 0 {
		return false
	}
	first := p.got[kept].masses
	for loaf, out := range p.out {
		if p.givenUp(loaf, layer) {
			continue
		}
		if out != nil {
			return true
		}
		for i, m := range p.got[loaf].masses {
			if (m - first[i]).Abs() > alike {
				return true
			}
		}
	}
	return false
}

// unmoulded gives what each loaf is: what it weighed out of its mould, or else as poured.
func (p *planner) unmoulded() []quantity.Mass {
	masses := slices.Clone(p.asPoured)
	for loaf := range masses {
		if d, ok := p.s.Done(rest.UnmouldID(loaf)); ok && d.Mass > 0 {
			masses[loaf] = d.Mass
		}
	}
	return masses
}

// onTop gives what was weighed onto a loaf and is no batter: lines of mica, toppings.
func (p *planner) onTop(loaf int) quantity.Mass {
	m := quantity.Mass(0)
	for _, r := range p.pours {
		if loaf < len(r.mica) {
			m += amount(r.mica[loaf]).Mass
		}
	}
	n := len(p.c.Recipe.Top.Toppings)
	return m + sum(p.toppings[loaf*n:(loaf+1)*n]...)
}

// moulded gives what each mould holds, embeds by their outline included, but for
// those that were left out.
func (p *planner) moulded() []quantity.Mass {
	masses := make([]quantity.Mass, p.c.Loaves)
	for i := range p.pours {
		loaves := p.pours[i].layer.Loaves
		for loaf := range masses {
			masses[loaf] += loaves[loaf].Mass
		}
		for n, e := range p.c.Recipe.Layers[i].Embeds {
			embed := quantity.FromGrams(e.Area() * p.c.Mould.Along().Millimetres() / 1000 * recipe.DefaultDoughDensity)
			for loaf := range masses {
				if !loaves[loaf].Face.Embeds[n].Out {
					masses[loaf] += embed
				}
			}
		}
	}
	return masses
}
