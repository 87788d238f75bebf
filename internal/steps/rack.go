package steps

import (
	"fmt"

	"bench/internal/quantity"
	"bench/internal/recipe"
)

// rack hands out the workshop's vessels. The same plan always gets the same
// vessels, because they are handed out by place and not by who asks first.
type rack struct {
	byKind   map[recipe.VesselKind][]recipe.Vessel
	loaves   int
	firstCup []int // firstCup is where each layer's scent cups begin, after the alkali's.
	standing int   // standing is how many scent cups wait at once, at most.
}

func rackOf(c recipe.Control) rack {
	r := rack{byKind: map[recipe.VesselKind][]recipe.Vessel{}, loaves: c.Loaves, firstCup: make([]int, len(c.Recipe.Layers))}
	for _, v := range c.Vessels {
		r.byKind[v.Kind] = append(r.byKind[v.Kind], v)
	}
	for _, b := range c.Recipe.Batters {
		waiting := 0
		for _, i := range c.Recipe.LayersOf(b.Name) {
			r.firstCup[i] = waiting
			waiting += cupsWaiting(c, c.Recipe.Layers[i])
		}
		r.standing = max(r.standing, waiting)
	}
	return r
}

// cupsWaiting counts the scent cups of a layer that are weighed out before the
// lye solution meets the oils and wait, full, until the pour.
func cupsWaiting(c recipe.Control, l recipe.Layer) int {
	switch place, _ := placeOf(c, l); {
	case place == recipe.InPortions:
		return c.Loaves * len(l.Scents)
	case place == recipe.InPot && hurries(c, l):
		return len(l.Scents)
	}
	return 0
}

// nth gives the i-th vessel of a kind. One that the workshop lacks has no
// stored tare, and the screen asks to tare it.
func (r rack) nth(kind recipe.VesselKind, i int) recipe.Vessel {
	if have := r.byKind[kind]; i < len(have) {
		return have[i]
	}
	return recipe.Vessel{Name: fmt.Sprintf("another %s (no. %d)", kind, i+1), Kind: kind}
}

func (r rack) pot(batter int) recipe.Vessel    { return r.nth(recipe.Pot, batter) }
func (r rack) lyeJug(batter int) recipe.Vessel { return r.nth(recipe.LyeJug, batter) }

// loafJug takes a loaf's portion; each loaf keeps its jug through all layers.
func (r rack) loafJug(loaf int) recipe.Vessel { return r.nth(recipe.Jug, loaf) }

// layerJug takes a layer's part of a pot that feeds several layers. A single
// loaf takes no jug of its own.
func (r rack) layerJug(n int) recipe.Vessel {
	if r.loaves > 1 {
		n += r.loaves
	}
	return r.nth(recipe.Jug, n)
}

// alkaliCup takes dry alkali and nothing else.
func (r rack) alkaliCup() recipe.Vessel { return r.nth(recipe.Cup, 0) }

// cup takes the n-th scent of a layer. No cup is given out twice while it
// stands full.
func (r rack) cup(layer, n int) recipe.Vessel { return r.nth(recipe.Cup, 1+r.firstCup[layer]+n) }

// colourCup takes colours, additives and toppings: from the far end of the
// shelf, because scent stands waiting in the near cups. They go round, since
// each is emptied before the next round comes to it.
func (r rack) colourCup(n int) recipe.Vessel {
	have := len(r.byKind[recipe.Cup])
	if free := have - 1 - r.standing; free > 0 {
		return r.nth(recipe.Cup, have-1-n%free)
	}
	return r.nth(recipe.Cup, 1+r.standing+n)
}

// station is where a weighing takes place.
type station struct {
	scale  recipe.Scale
	vessel recipe.Vessel
	into   string // into is the vessel it goes to, when it is weighed in another.
	parts  int    // parts is how many weighings the scale needs.
}

// station chooses the scale for a weighing into a vessel that will carry load
// in the end and is planned to hold before by then: the scale the vessel stands
// on, unless that one is too coarse for the tolerance or too small; then the
// finest that can carry it, in a cup of its own. It goes by the plan and not by
// the facts, so that no target changes its reading half way.
func (p *planner) station(v recipe.Vessel, load, before, target, tolerance quantity.Mass) station {
	home := p.home(v, load)
	fineEnough := tolerance == 0 || home.Reads/2 <= tolerance
	if fineEnough && v.Tare+before+target <= home.Max {
		return station{scale: home, vessel: v, parts: 1}
	}
	cup := p.rack.colourCup(0)
	for _, s := range p.scales {
		if cup.Tare+target <= s.Max {
			return station{scale: s, vessel: cup, into: v.Name, parts: 1}
		}
	}
	largest := p.scales[len(p.scales)-1]
	room := max(largest.Max-cup.Tare, largest.Reads)
	return station{scale: largest, vessel: cup, into: v.Name, parts: int((target + room - 1) / room)}
}

// home is the scale a vessel stands on: the finest that carries it full.
func (p *planner) home(v recipe.Vessel, load quantity.Mass) recipe.Scale {
	for _, s := range p.scales {
		if v.Tare+load <= s.Max {
			return s
		}
	}
	return p.scales[len(p.scales)-1]
}
