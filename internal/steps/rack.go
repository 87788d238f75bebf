package steps

import (
	"fmt"

	"bench/internal/quantity"
	"bench/internal/recipe"
)

// rack hands out the workshop's vessels. The same plan always gets the same
// vessels, because they are handed out by place and not by who asks first.
type rack struct {
	byKind map[recipe.VesselKind][]recipe.Vessel
	loaves int
}

func rackOf(c recipe.Control) rack {
	r := rack{byKind: map[recipe.VesselKind][]recipe.Vessel{}, loaves: c.Loaves}
	for _, v := range c.Vessels {
		r.byKind[v.Kind] = append(r.byKind[v.Kind], v)
	}
	return r
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

// layerJug takes a layer's part of a pot that feeds several layers.
func (r rack) layerJug(n int) recipe.Vessel { return r.nth(recipe.Jug, r.loaves+n) }

// alkaliCup takes dry alkali and nothing else.
func (r rack) alkaliCup() recipe.Vessel { return r.nth(recipe.Cup, 0) }

// cup takes a scent; the cups go round, since each is emptied before the next
// round comes to it.
func (r rack) cup(n int) recipe.Vessel {
	if spare := len(r.byKind[recipe.Cup]) - 1; spare > 0 {
		return r.nth(recipe.Cup, 1+n%spare)
	}
	return r.nth(recipe.Cup, 1+n)
}

// colourCup takes colours, additives and toppings: from the far end of the
// shelf, because scent stands waiting in the near cups.
func (r rack) colourCup(n int) recipe.Vessel {
	if spare := len(r.byKind[recipe.Cup]) - 1; spare > 0 {
		return r.nth(recipe.Cup, spare-n%spare)
	}
	return r.nth(recipe.Cup, 1+n)
}

// station is where a weighing takes place.
type station struct {
	scale  recipe.Scale
	vessel recipe.Vessel
	into   string // into is the vessel it goes to, when it is weighed in another.
	parts  int    // parts is how many weighings the scale needs.
}

// station chooses the scale for a weighing into a vessel that will carry load
// in the end and holds soFar now: the scale the vessel stands on, unless that
// one is too coarse for the tolerance or too small; then the finest that can
// carry it, in a cup of its own.
func (p *planner) station(v recipe.Vessel, load, soFar, target, tolerance quantity.Mass) station {
	home := p.home(v, load)
	fineEnough := tolerance == 0 || home.Reads/2 <= tolerance
	if fineEnough && v.Tare+soFar+target <= home.Max {
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
