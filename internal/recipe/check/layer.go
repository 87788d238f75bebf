package check

import (
	"slices"
	"strings"

	"bench/internal/recipe"
	"bench/internal/scene"
)

func (c *checker) layers() {
	if len(c.r.Layers) == 0 {
		c.errorf("layers", "the recipe has no layer: list them from the floor up")
		return
	}
	var names []string
	var paths []recipe.Path
	for i := range c.r.Layers {
		l := &c.r.Layers[i]
		p := recipe.Path("layers").Item(i)
		names, paths = append(names, l.Name), append(paths, p.Field("name"))
		c.layerBatter(p, l)
		if l.Trace == "" {
			l.Trace = l.DefaultTrace()
		}
	}
	c.distinct("layer", paths, names)
	for i := range c.r.Layers {
		p := recipe.Path("layers").Item(i)
		c.layerColours(p, &c.r.Layers[i])
		c.layerScents(p, i)
	}
	c.feeds()
	c.micaLines()
	if c.heights() && c.mould.Height > 0 && !c.follows() {
		c.embeds()
	}
}

// layerBatter finds the layer's batter, by default the only one there is.
func (c *checker) layerBatter(p recipe.Path, l *recipe.Layer) {
	if l.Batter == "" && len(c.r.Batters) == 1 {
		l.Batter = c.r.Batters[0].Name
		return
	}
	var known []string
	for _, b := range c.r.Batters {
		if recipe.Fold(b.Name) == recipe.Fold(l.Batter) {
			l.Batter = b.Name
			return
		}
		known = append(known, b.Name)
	}
	if l.Batter == "" {
		c.errorf(p, "say which batter the layer is poured from: %s", strings.Join(known, ", "))
		return
	}
	c.errorf(p.Field("batter"), "no batter of the recipe is called %q%s", l.Batter, recipe.DidYouMean(l.Batter, known))
}

// feeds checks what each pot is poured into.
func (c *checker) feeds() {
	unknown := slices.ContainsFunc(c.r.Layers, func(l recipe.Layer) bool { _, i := c.r.Batter(l.Batter); return i < 0 })
	for i, b := range c.r.Batters {
		at := c.r.LayersOf(b.Name)
		p := recipe.Path("batters").Item(i)
		if len(at) == 0 {
			if !unknown { // Else it may well be the one that is meant there.
				c.errorf(p, "no layer is poured from the batter %q: name it in a layer, or leave it out", b.Name)
			}
			continue
		}
		if first, last := at[0], at[len(at)-1]; last-first >= len(at) {
			between := c.r.Layers[first+1]
			c.errorf(recipe.Path("layers").Item(last).Field("batter"),
				"the batter %q also feeds the layer %q, and %q lies between: the pot would set while that one firms; give this layer a batter of its own",
				b.Name, c.r.Layers[first].Name, between.Name)
		}
	}
}

// once reports a material that its list names twice: both would be one
// weighing.
func (c *checker) once(p recipe.Path, what string, names []string) {
	seen := map[string]bool{}
	for i, name := range names {
		if f := recipe.Fold(name); f != "" && seen[f] {
			c.errorf(p.Item(i).Field("material"), "%s is in the list of %s twice: add its rates up and name it once", name, what)
		} else {
			seen[f] = true
		}
	}
}

func (c *checker) layerColours(p recipe.Path, l *recipe.Layer) {
	var names []string
	for i := range l.Colours {
		k := &l.Colours[i]
		at := p.Field("colours").Item(i)
		k.Material = c.material(at.Field("material"), k.Material, "colourant", recipe.ColourMaterial)
		c.carried(at.Field("material"), k.Material)
		c.rate(at.Field("rate"), k.Material, k.Rate, muchColour, mostColour)
		names = append(names, k.Material)
		several := len(c.r.LayersOf(l.Batter)) > 1
		switch {
		case k.In == "" && several:
			k.In = recipe.InBatter
		case k.In == "":
			k.In = recipe.InOils
		case k.In == recipe.InLyeWater:
			c.errorf(at.Field("in"), "a colour goes into the oils or the batter")
		case k.In == recipe.InOils && several:
			c.errorf(at.Field("in"), "the batter %q feeds several layers, so %s in its oils would colour them all: stir it in after the split, with \"in: batter\"",
				l.Batter, k.Material)
		}
		if m, ok := material(c.w, k.Material); ok && m.HighPH == recipe.Unstable {
			c.warnf(at.Field("material"), "%s is not stable in raw soap: it may fade or change its colour", m.Name)
		}
	}
	c.once(p.Field("colours"), "colours", names)
}

func (c *checker) layerScents(p recipe.Path, layer int) {
	l := &c.r.Layers[layer]
	var names []string
	for i := range l.Scents {
		s := &l.Scents[i]
		at := p.Field("scents").Item(i)
		s.Material = c.material(at.Field("material"), s.Material, "fragrance or essential oil", recipe.FragranceMaterial, recipe.EssentialMaterial)
		names = append(names, s.Material)
		if first := l.Scents[0].Where; s.Where != first {
			c.errorf(at, "the scents of a layer go in together, into all of it (\"pot\", which is its own jug where the pot feeds several layers) or into each portion: state the same \"where\" for all of %q, or none", l.Name)
		}
		if s.Of == "" {
			s.Of = recipe.OfOils
		}
		if s.Where == recipe.InWarmOils && len(c.r.LayersOf(l.Batter)) > 1 {
			c.errorf(at.Field("where"), "the batter %q feeds several layers, so %s in its oils would scent them all: stir it in after the split",
				l.Batter, s.Material)
		}
		m, ok := material(c.w, s.Material)
		if !ok {
			continue
		}
		if m.Limit == 0 {
			c.rate(at.Field("rate"), s.Material, s.Rate, muchScent, mostScent)
			c.warnf(at.Field("material"), "%s has no limit in the workshop file: enter what its certificate allows in bar soap (IFRA category 9)", m.Name)
		}
		if slices.Contains(m.Does, recipe.Discolours) {
			c.bleeds(at.Field("material"), layer, m)
		}
	}
	c.once(p.Field("scents"), "scents", names)
}

// bleeds warns of a pale layer next to one whose scent discolours.
func (c *checker) bleeds(p recipe.Path, layer int, scent recipe.Material) {
	for _, i := range []int{layer - 1, layer + 1} {
		if i < 0 || i >= len(c.r.Layers) || !c.pale(c.r.Layers[i]) {
			continue
		}
		becomes := ""
		if scent.Becomes != "" {
			becomes = " to " + scent.Becomes
		}
		c.warnf(p, "%s discolours%s and bleeds into its neighbours: the layer %q is pale", scent.Name, becomes, c.r.Layers[i].Name)
	}
}

// pale tells whether a layer is light: uncoloured, or with a light colourant,
// and no scent of its own that discolours it.
func (c *checker) pale(l recipe.Layer) bool {
	for _, s := range l.Scents {
		if m, ok := material(c.w, s.Material); ok && slices.Contains(m.Does, recipe.Discolours) {
			return false
		}
	}
	for _, k := range l.Colours {
		m, ok := material(c.w, k.Material)
		if looks, _ := scene.ParseColour(m.Looks); ok && looks.Linear().Luminance() >= paleLuminance {
			return true
		}
	}
	return len(l.Colours) == 0
}
