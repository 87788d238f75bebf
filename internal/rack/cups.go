package rack

import (
	"slices"

	"bench/internal/recipe"
	"bench/internal/scent"
)

// The policy of this file: no vessel gets a second thing while the first is in it. What waits in a cup has that cup for itself until it is
// stirred in. Those of one batter wait at once; those of two batters have cups of their
// own as well while there are enough, and so they may be weighed out in any order. Where
// there are not, a batter takes those of one that is poured before (see CupsShared), but
// never of one that is poured in turns with it.

// span is from the first layer of a batter to its last, and where its cups are.
type span struct{ batter, first, last, from, to int }

// seatCups gives every layer its places among the cups, counted from the alkali's.
func (r *Rack) seatCups(c recipe.Control) {
	spans := spansOf(c, func(layer int) int {
		scents, wetted := waiting(c, layer)
		return scents + wetted
	})
	r.standing = seat(spans, func(span, span) bool { return true })
	if r.standing >= len(r.byKind[recipe.Cup])-1 { // One is left for what is tipped in at once.
		apart := r.standing
		r.standing = seat(spans, inTurns)
		r.shared = r.standing < apart
	}
	for _, s := range spans {
		at := s.from
		for _, i := range c.Recipe.LayersOf(c.Recipe.Batters[s.batter].Name) {
			scents, wetted := waiting(c, i)
			r.firstCup[i], r.firstWet[i] = at, at+scents
			if at += scents + wetted; scents == 0 { // Weighed and stirred in before anything else is.
				r.firstCup[i] = r.standing
			}
		}
	}
}

// seatJugs gives every loaf a jug, and every layer of a pot that feeds several. A pot's
// are filled at once; those of the next take them again, once all of it is poured.
func (r *Rack) seatJugs(c recipe.Control) {
	spans, meet := spansOf(c, func(layer int) int { return min(1, len(c.Recipe.LayersOf(c.Recipe.Layers[layer].Batter))-1) }), inTurns
	if !c.HoldsOne() {
		meet = func(span, span) bool { return false }
	}
	if c.Loaves > 1 {
		r.jugs = c.Loaves
	}
	layers := seat(spans, meet)
	for _, s := range spans {
		for n, i := range c.Recipe.LayersOf(c.Recipe.Batters[s.batter].Name) {
			r.layerJug[i] = r.jugs + s.from + n
		}
	}
	r.jugs += layers
}

// inTurns says that two batters are poured in turns.
func inTurns(a, b span) bool { return a.first <= b.last && b.first <= a.last }

// seat gives the spans that meet places of their own, and says how many are taken.
func seat(spans []span, meet func(a, b span) bool) (taken int) {
	for i := range spans {
		s := &spans[i]
		s.from, s.to = 0, s.to-s.from
		for _, before := range spans[:i] {
			if meet(before, *s) {
				s.from = max(s.from, before.to)
			}
		}
		s.to += s.from
		taken = max(taken, s.to)
	}
	return taken
}

// spansOf lists the batters in the order in which they are made, with as many places as
// their layers want.
func spansOf(c recipe.Control, places func(layer int) int) []span {
	var spans []span
	for n, b := range c.Recipe.Batters {
		at := c.Recipe.LayersOf(b.Name)
		if len(at) == 0 {
			continue
		}
		s := span{batter: n, first: at[0], last: at[len(at)-1]}
		for _, i := range at {
			s.to += places(i)
		}
		spans = append(spans, s)
	}
	slices.SortFunc(spans, func(a, b span) int { return a.first - b.first })
	return spans
}

// waiting counts the cups of a layer that are filled before the lye solution meets the
// oils and wait, full, until its pour: of scents and of wetted colours.
func waiting(c recipe.Control, layer int) (scents, wetted int) {
	l := c.Recipe.Layers[layer]
	switch place, _ := scent.PlaceOf(c, l); {
	case place == recipe.InPortions:
		scents = c.Loaves * len(l.Scents)
	case place == recipe.InPot && scent.Hurries(c, l):
		scents = len(l.Scents)
	}
	if c.WetsFirst(layer) {
		wetted = len(l.Colours)
	}
	return scents, wetted
}

// CupsShared says that a batter's cups are filled again for a later one: they may not be
// filled for that before the first is poured.
func (r Rack) CupsShared() bool { return r.shared }
