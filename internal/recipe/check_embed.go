package recipe

import (
	"bench/internal/form"
	"bench/internal/quantity"
)

// placed is an embed where it lies on the cut face.
type placed struct {
	path    Path
	name    string
	outline form.Outline
}

// embeds checks that every embed lies inside the mould, clear of the others and
// with enough soap around it.
func (c *checker) embeds() {
	top := c.r.Layers[len(c.r.Layers)-1].Surface
	var all []placed
	floor := quantity.Length(0)
	for i, l := range c.r.Layers {
		var names []string
		var paths []Path
		for j, e := range l.Embeds {
			p := Path("layers").Item(i).Field("embeds").Item(j)
			names, paths = append(names, e.Name), append(paths, p.Field("name"))
			if e.Dough != "" {
				c.r.Layers[i].Embeds[j].Dough = c.dough(p.Field("dough"), e.Dough)
			}
			if !c.embedSize(p, e) {
				continue
			}
			one := placed{p, e.Name, e.Outline(l.Surface)}
			c.around(one, top)
			if i > 0 && l.Surface-e.Sink < floor {
				c.errorf(p.Field("sink"), "%q would reach %s into the layer %q, which has set by then: press it in by %s at most, or list it with that layer",
					e.Name, floor-(l.Surface-e.Sink), c.r.Layers[i-1].Name, l.Surface-floor)
			}
			for _, other := range all {
				if form.Overlaps(one.outline, other.outline) {
					c.errorf(p, "%q runs into %q: move one of them across, or change how deep it sinks", one.name, other.name)
				}
			}
			all = append(all, one)
		}
		c.distinct("embed", paths, names)
		floor = l.Surface
	}
}

func (c *checker) embedSize(p Path, e Embed) bool {
	ok := true
	if e.Width <= 0 || e.Height <= 0 {
		c.errorf(p.Field("shape"), "the embed %q needs a size above 0 mm", e.Name)
		ok = false
	}
	if e.Sink <= 0 {
		c.errorf(p.Field("sink"), "say how far the lowest point of %q lies under the layer's finished surface, above 0 mm", e.Name)
		ok = false
	}
	return ok
}

// around checks an embed against the mould and the loaf's top surface. One that
// stands proud of the soap is fine as long as it stays below the rim.
func (c *checker) around(e placed, top quantity.Length) {
	const hair = 1e-9 // hair lets an embed touch what it is meant to touch.
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
	cover := form.Cover(e.outline, form.Level(top.Millimetres()))
	switch {
	case highest > section.Height+hair:
		c.errorf(e.path.Field("sink"), "%q rises %s above the rim of the mould: let it sink deeper", e.name, millimetres(highest-section.Height))
	case cover > -hair && cover < leastCover-hair:
		c.warnf(e.path.Field("sink"), "%q has %s of soap over it: 8 mm or more keeps it from showing through", e.name, millimetres(max(0, cover)))
	}
}

func millimetres(mm float64) quantity.Length { return quantity.FromMillimetres(mm) }
