package rack

import "bench/internal/recipe"

// place is where a vessel stands on the rack; what it is for goes by its place.
type place struct {
	kind recipe.VesselKind
	i    int
}

// alkali is the place of the cup that takes dry alkali and nothing else.
func alkali() place { return place{recipe.Cup, 0} }

// mostLacking is how many vessels of a kind beyond those of the workshop are looked
// through for one that was replaced: more than any table has room for.
const mostLacking = 100

// Replace puts another vessel in the place of one that the rack hands out, for
// everything that one is for. A vessel of the rack that is taken changes places with
// it, so that none is handed out twice; but what took dry alkali is given to nothing
// else, nor is one of another kind. A vessel that is never handed out changes nothing.
func (r *Rack) Replace(vessel string, by recipe.Vessel) {
	at, ok := r.find(vessel)
	if !ok || vessel == by.Name {
		return
	}
	old := r.nth(at.kind, at.i)
	from, exchanged := r.find(by.Name)
	if r.instead == nil {
		r.instead = map[place]recipe.Vessel{}
	}
	by.Kind = at.kind
	r.instead[at] = by
	if !exchanged {
		return
	}
	if from.kind != at.kind || from == alkali() || at == alkali() {
		old = recipe.Vessel{Name: "another " + string(from.kind) + " (for " + by.Name + ")", Kind: from.kind}
	}
	r.instead[from] = old
}

// find gives the place of the vessel of that name, as it stands now.
func (r Rack) find(name string) (place, bool) {
	for _, kind := range []recipe.VesselKind{recipe.Pot, recipe.LyeJug, recipe.Jug, recipe.Cup} {
		for i := range len(r.byKind[kind]) + mostLacking {
			if r.nth(kind, i).Name == name {
				return place{kind, i}, true
			}
		}
	}
	return place{}, false
}

// Kind gives what the vessel of that name is used for; one that is not handed out, or
// was replaced, is taken for a cup.
func (r Rack) Kind(name string) recipe.VesselKind {
	if at, ok := r.find(name); ok {
		return at.kind
	}
	return recipe.Cup
}

// Cups are those that take anything but dry alkali, as they stand now.
func (r Rack) Cups() []recipe.Vessel {
	var cups []recipe.Vessel
	for i := 1; i < len(r.byKind[recipe.Cup]); i++ {
		cups = append(cups, r.nth(recipe.Cup, i))
	}
	return cups
}
