package rack_test

import (
	"strconv"
	"testing"

	"bench/internal/quantity"
	"bench/internal/rack"
	"bench/internal/recipe"
)

const g = quantity.Gram

// workshop is three scales, four cups and one of each other vessel, for two loaves of one
// batter whose layer splits a scent that hurries.
func workshop() recipe.Control {
	return recipe.Control{
		Loaves: 2,
		Scales: []recipe.Scale{
			{Name: "big", Reads: g, Max: 10_000 * g}, {Name: "fine", Reads: g / 100, Max: 200 * g}, {Name: "bench", Reads: g / 10, Max: 3_000 * g},
		},
		Vessels: []recipe.Vessel{
			{Name: "pot", Kind: recipe.Pot, Tare: 700 * g},
			{Name: "lye jug", Kind: recipe.LyeJug, Tare: 150 * g},
			{Name: "jug 1", Kind: recipe.Jug, Tare: 200 * g},
			{Name: "dry cup", Kind: recipe.Cup, Tare: 30 * g},
			{Name: "cup 1", Kind: recipe.Cup, Tare: 25 * g},
			{Name: "cup 2", Kind: recipe.Cup, Tare: 25 * g},
			{Name: "cup 3", Kind: recipe.Cup, Tare: 25 * g},
		},
		Recipe: recipe.Recipe{Batters: []recipe.Batter{{Name: "sea"}}, Layers: []recipe.Layer{{Name: "base", Batter: "sea"}}},
	}
}

// TestVessels: by place; what the workshop lacks is named and has no tare; the first cup
// is for dry alkali; and no cup is given to a colour while scent stands in it.
func TestVessels(t *testing.T) {
	r := rack.Of(workshop())
	waiting := workshop()
	waiting.Recipe.Layers[0].Scents = []recipe.Scent{{Material: "evening rose", Where: recipe.InPortions}}
	full := rack.Of(waiting)
	for what, c := range map[string]struct {
		got  recipe.Vessel
		want string
	}{
		"the pot":                      {r.Pot(0), "pot"},
		"a second pot":                 {r.Pot(1), "another pot (no. 2)"},
		"the lye jug":                  {r.LyeJug(0), "lye jug"},
		"a loaf's jug":                 {r.LoafJug(0), "jug 1"},
		"a layer's, after the loaves'": {r.LayerJug(0), "another jug (no. 3)"},
		"alkali":                       {r.AlkaliCup(), "dry cup"},
		"a scent":                      {r.Cup(0, 0), "cup 1"},
		"a colour, from the far end":   {r.ColourCup(0), "cup 3"},
		"the next":                     {r.ColourCup(1), "cup 2"},
		"they go round":                {r.ColourCup(3), "cup 3"},
		"beside two full cups":         {full.ColourCup(0), "cup 3"},
		"and round":                    {full.ColourCup(1), "cup 3"},
	} {
		if c.got.Name != c.want {
			t.Errorf("%s: %s, want %s", what, c.got.Name, c.want)
		}
		if lacking := c.got.Tare == 0; lacking != (c.want[:3] == "ano") {
			t.Errorf("%s: %s with a tare of %s", what, c.got.Name, c.got.Tare)
		}
	}
}

// TestStation: on the scale that the vessel stands on while that is fine enough for the
// tolerance and carries it, and else in a cup on the finest that does; what no scale
// carries at once takes several weighings (by hand).
func TestStation(t *testing.T) {
	r := rack.Of(workshop())
	pot, jug, dry := r.Pot(0), r.LyeJug(0), r.AlkaliCup()
	single := workshop()
	single.Scales = single.Scales[2:]
	one := rack.Of(single)
	for what, c := range map[string]struct {
		got               rack.Station
		scale, vessel, to string
		parts             int
	}{
		"into the pot":             {r.Station(pot, 2000*g, 0, 500*g, g), "bench", "pot", "", 1},
		"too fine for its scale":   {r.Station(pot, 2000*g, 0, 2*g, g/50), "fine", "cup 3", "pot", 1},
		"as fine as half a step":   {r.Station(pot, 2000*g, 0, 2*g, g/20), "bench", "pot", "", 1},
		"on top of too much":       {r.Station(pot, 2000*g, 2000*g, 400*g, g), "bench", "cup 3", "pot", 1},
		"no other scale":           {one.Station(pot, 2000*g, 0, 2*g, g/50), "bench", "pot", "", 1},
		"dry alkali":               {one.Station(dry, 92*g, 0, 79*g, g/50), "bench", "dry cup", "", 1},
		"the second, finer":        {r.Station(dry, 190*g, 80*g, 14*g, g/50), "fine", "dry cup", "", 1},
		"the first of too much":    {r.Station(dry, 290*g, 0, 80*g, g/50), "fine", "dry cup", "", 1},
		"too much for the fine":    {r.Station(dry, 290*g, 200*g, 14*g, g/50), "bench", "dry cup", "", 1},
		"too heavy for the fine":   {r.Station(jug, 100*g, 0, 40*g, g), "bench", "lye jug", "", 1},
		"no tolerance":             {r.Station(pot, 9000*g, 0, 5*g, 0), "big", "pot", "", 1},
		"more than any carries":    {r.Station(pot, 9000*g, 9000*g, 20_000*g, 10*g), "big", "cup 3", "pot", 3},
		"a load beyond all scales": {r.Station(pot, 99_000*g, 0, 100*g, g), "big", "pot", "", 1},
	} {
		if c.got.Scale.Name != c.scale || c.got.Vessel.Name != c.vessel || c.got.Into != c.to || c.got.Parts != c.parts {
			t.Errorf("%s: %+v", what, c.got)
		}
	}
	if got := r.Finest().Name; got != "fine" {
		t.Errorf("the finest is the %s scale", got)
	}
}

// TestReplace: a vessel that was taken is handed out in the place of the other, for all
// that one is for; one of the rack changes places with it, but not with what takes dry
// alkali, nor across kinds; and nothing changes for a vessel that is never handed out.
func TestReplace(t *testing.T) {
	spare := recipe.Vessel{Name: "spare", Tare: 214 * g}
	for what, c := range map[string]struct {
		vessel string
		by     recipe.Vessel
		want   string
	}{
		"one that the workshop has not": {"jug 1", spare, "spare, another jug (no. 2); dry cup, cup 1, cup 2"},
		"one that it lacks":             {"another jug (no. 2)", spare, "jug 1, spare; dry cup, cup 1, cup 2"},
		"one of the rack":               {"cup 2", recipe.Vessel{Name: "cup 1", Tare: 25 * g}, "jug 1, another jug (no. 2); dry cup, cup 2, cup 1"},
		"the cup of dry alkali":         {"dry cup", recipe.Vessel{Name: "cup 1", Tare: 25 * g}, "jug 1, another jug (no. 2); cup 1, another cup (for cup 1), cup 2"},
		"one of another kind":           {"cup 1", recipe.Vessel{Name: "jug 1", Tare: 200 * g}, "another jug (for jug 1), another jug (no. 2); dry cup, jug 1, cup 2"},
		"none":                          {"bath", spare, "jug 1, another jug (no. 2); dry cup, cup 1, cup 2"},
		"itself":                        {"jug 1", recipe.Vessel{Name: "jug 1"}, "jug 1, another jug (no. 2); dry cup, cup 1, cup 2"},
	} {
		r := rack.Of(workshop())
		r.Replace(c.vessel, c.by)
		got := r.LoafJug(0).Name + ", " + r.LoafJug(1).Name + "; " + r.AlkaliCup().Name + ", " + r.Cup(0, 0).Name + ", " + r.Cup(0, 1).Name
		if got != c.want {
			t.Errorf("%s: %s, want %s", what, got, c.want)
		}
	}
	r := rack.Of(workshop())
	r.Replace("jug 1", spare)
	if v := r.LoafJug(0); v.Tare != spare.Tare || v.Kind != recipe.Jug || r.Kind("spare") != recipe.Jug || r.Kind("bath") != recipe.Cup {
		t.Errorf("%+v, and a %s", v, r.Kind("spare"))
	}
}

// TestFit: a jug that is too small is passed over for the smallest that is free and holds
// what is planned, or changes places; what fits, or fits nowhere, stays.
func TestFit(t *testing.T) {
	fits := func(v recipe.Vessel, load quantity.Mass) bool {
		return v.Brim == 0 || v.Brim.Millilitres() >= load.Grams()
	}
	ml := func(n int) quantity.Volume { return quantity.Volume(n) * quantity.Millilitre }
	for what, c := range map[string]struct {
		brims []int
		loads []quantity.Mass
		want  string
	}{
		"the first fit":      {[]int{700, 700, 2000}, []quantity.Mass{600 * g, 600 * g}, "jug 1, jug 2"},
		"one is too small":   {[]int{700, 1500, 2000, 1200}, []quantity.Mass{1000 * g, 600 * g}, "jug 4, jug 2"},
		"they change places": {[]int{700, 1500}, []quantity.Mass{1000 * g, 600 * g}, "jug 2, jug 1"},
		"both are too small": {[]int{700, 700, 1200, 2000}, []quantity.Mass{1000 * g, 1900 * g}, "jug 3, jug 4"},
		"none holds it":      {[]int{700, 700, 800}, []quantity.Mass{1000 * g, 600 * g}, "jug 1, jug 2"},
		"not known":          {[]int{700, 700, 0, 1500}, []quantity.Mass{1000 * g, 600 * g}, "jug 4, jug 2"},
	} {
		w := workshop()
		w.Vessels = nil
		for i, brim := range c.brims {
			w.Vessels = append(w.Vessels, recipe.Vessel{Name: "jug " + strconv.Itoa(i+1), Kind: recipe.Jug, Brim: ml(brim)})
		}
		r := rack.Of(w)
		r.Fit(rack.Loads{Loaves: c.loads}, fits)
		if got := r.LoafJug(0).Name + ", " + r.LoafJug(1).Name; got != c.want {
			t.Errorf("%s: %s, want %s", what, got, c.want)
		}
	}
}
