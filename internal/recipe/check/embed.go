package check

import (
	"bench/internal/form"
	"bench/internal/quantity"
	"bench/internal/recipe"
)

// placed is an embed where it lies on the cut face.
type placed struct {
	path    recipe.Path
	name    string
	outline form.Outline
}

// hair lets things touch that are meant to touch, as lengths are whole µm. It
// is in mm.
const hair = 1e-3

// embeds checks that every embed lies inside the mould, clear of the others and
// with enough soap around it.
func (c *checker) embeds() {
	top := c.r.Layers[len(c.r.Layers)-1].Line(c.mould)
	var all []placed
	floor := form.Level(0)
	for i := range c.r.Layers {
		l := &c.r.Layers[i]
		surface := l.Line(c.mould)
		var names []string
		var paths []recipe.Path
		for j := range l.Embeds {
			e := &l.Embeds[j]
			p := recipe.Path("layers").Item(i).Field("embeds").Item(j)
			names, paths = append(names, e.Name), append(paths, p.Field("name"))
			if e.Dough != "" {
				e.Dough = c.dough(p.Field("dough"), e.Dough)
			}
			if !c.embedShape(p, *e) {
				continue
			}
			over := millimetres(surface.Height(e.Across.Millimetres()))
			if e.Stood && e.Sink == 0 {
				e.Sink = millimetres(form.Clear(e.Outline(over), floor)) // So it stands on what is there.
			}
			one := placed{p, e.Name, e.Outline(over)}
			c.around(one, top, e.Proud)
			c.onLayerBelow(one, i, floor, *e)
			for _, other := range all {
				if form.Overlaps(one.outline, other.outline) {
					c.errorf(p, "%q runs into %q: move one of them across, or change how deep it sinks", one.name, other.name)
				}
			}
			all = append(all, one)
		}
		c.distinct("embed", paths, names)
		floor = surface
	}
}

// onLayerBelow checks an embed against what has set before it comes in.
func (c *checker) onLayerBelow(one placed, layer int, floor form.Line, e recipe.Embed) {
	p := one.path.Field("sink")
	gap := form.Clear(one.outline, floor)
	switch {
	case e.Stood && gap > hair:
		c.warnf(p, "%q would hang %s above what it stands on: prop it, or leave the sink out and it stands", e.Name, millimetres(gap))
	case layer > 0 && gap < -hair && !e.Stood:
		c.errorf(p, "%q would reach %s into the layer %q, which has set by then: press it in by %s at most, or list it with that layer",
			e.Name, millimetres(-gap), c.r.Layers[layer-1].Name, max(0, e.Sink-millimetres(-gap)))
	case layer > 0 && gap < -hair:
		c.errorf(p, "%q would stand %s deep in the layer %q, which has set by then: leave the sink out, or list it with that layer",
			e.Name, millimetres(-gap), c.r.Layers[layer-1].Name)
	}
}

// embedShape checks what an embed says of itself.
func (c *checker) embedShape(p recipe.Path, e recipe.Embed) bool {
	before := len(c.problems)
	if !c.mould.Lies() {
		c.errorf(p, "an embed lies along a loaf, and the mould %q does not lie: leave %q out, or choose a loaf or a slab", c.mould.Name, e.Name)
	}
	if e.Shape == recipe.Polygon || e.Shape == recipe.PathShape {
		c.embedCorners(p, e)
	} else if e.Width <= 0 || e.Height <= 0 {
		c.errorf(p.Field("shape"), "the embed %q needs a size above 0 mm", e.Name)
	}
	if e.Sink <= 0 && !e.Stood {
		c.errorf(p.Field("sink"), "say how far the lowest point of %q lies under the layer's finished surface, above 0 mm", e.Name)
	}
	return len(c.problems) == before
}

// embedCorners checks that an outline bounds one piece of soap.
func (c *checker) embedCorners(p recipe.Path, e recipe.Embed) {
	const least = 1 // mm²
	p = p.Field(map[recipe.Shape]string{recipe.Polygon: "points", recipe.PathShape: "shape"}[e.Shape])
	corners := e.Polygon()
	at, crosses := form.Crossing(corners)
	switch {
	case len(corners) < 3:
		c.errorf(p, "the outline of %q has %d corners: it needs three or more", e.Name, len(corners))
	case crosses:
		c.errorf(p, "the outline of %q crosses or touches itself near %s to the right and %s up in it: draw it so that no two of its sides meet", e.Name, signed(at.X), signed(at.Y))
	case form.Area(corners) < least:
		c.errorf(p, "the outline of %q encloses less than 1 mm²: draw it larger", e.Name)
	}
}

// around checks an embed against the mould and the loaf's top surface.
func (c *checker) around(e placed, top form.Line, proud bool) {
	section := c.mould.Section()
	_, _, _, highest := e.outline.Box()
	switch wall := form.WallDistance(section, e.outline); {
	case wall < -hair:
		c.errorf(e.path.Field("across"), "%q passes through the wall by %s: the mould is %s wide inside", e.name, millimetres(-wall), c.mould.Width)
	case wall < leastWall-hair:
		c.warnf(e.path.Field("across"), "%q leaves %s of soap to the wall: 5 mm or more holds better", e.name, millimetres(wall))
	}
	switch floor := form.FloorDistance(e.outline); {
	case floor < -hair:
		c.errorf(e.path.Field("sink"), "%q passes through the floor by %s: let it sink less", e.name, millimetres(-floor))
	case floor > hair && floor < leastWall-hair:
		c.warnf(e.path.Field("sink"), "%q leaves %s of soap under it: 5 mm or more holds better, or let it stand on the floor", e.name, millimetres(floor))
	}
	cover := form.Cover(e.outline, top)
	switch {
	case proud && cover >= 0:
		c.warnf(e.path.Field("proud"), "%q does not stand proud: %s of soap lie over it", e.name, millimetres(cover))
	case proud:
	case highest > section.Height+hair:
		c.errorf(e.path.Field("sink"), "%q rises %s above the rim of the mould: let it sink deeper, or say \"proud: yes\" if it is meant to stand out", e.name, millimetres(highest-section.Height))
	case cover <= -hair:
		c.warnf(e.path.Field("sink"), "%q stands %s out of the soap: say \"proud: yes\" if that is meant", e.name, millimetres(-cover))
	case cover > -hair && cover < leastCover-hair:
		c.warnf(e.path.Field("sink"), "%q has %s of soap over it: 8 mm or more keeps it from showing through", e.name, millimetres(max(0, cover)))
	}
}

func millimetres(mm float64) quantity.Length { return quantity.FromMillimetres(mm) }
