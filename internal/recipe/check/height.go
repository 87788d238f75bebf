package check

import (
	"bench/internal/form"
	"bench/internal/quantity"
	"bench/internal/recipe"
)

// heights gives every layer its surface and checks that the surfaces rise, up
// to the mould's rim at most.
func (c *checker) heights() bool {
	before := len(c.problems)
	byShare := 0
	for i, l := range c.r.Layers {
		p := recipe.Path("layers").Item(i)
		switch {
		case l.Share != 0 && l.Surface != 0:
			c.errorf(p, "state the surface or the share, not both")
		case l.Share == 0 && l.Surface == 0:
			c.errorf(p, "say where the layer's surface lies: \"surface: 38 mm\" or \"share: 50 %%\"")
		case l.Share != 0:
			byShare++
		}
	}
	if byShare > 0 && byShare < len(c.r.Layers) && len(c.problems) == before {
		c.errorf("layers", "either all layers have a share or all have a surface: %d of %d have a share", byShare, len(c.r.Layers))
	}
	c.measurable()
	if len(c.problems) > before || c.mould.Height == 0 {
		return false
	}
	if byShare > 0 {
		c.shares()
	} else if c.r.Height > 0 && c.r.Height != c.r.Layers[len(c.r.Layers)-1].Surface {
		c.errorf("height", "the loaf is %s high and its last surface lies at %s: leave the height out", c.r.Height, c.r.Layers[len(c.r.Layers)-1].Surface)
	}
	c.rising(byShare > 0)
	return len(c.problems) == before
}

// measurable checks that heights and slopes are only stated where the mould has
// them.
func (c *checker) measurable() {
	if c.mould.Height == 0 {
		return
	}
	if c.r.Height > 0 && !c.mould.HasHeights() {
		c.errorf("height", "the mould %q is known by its volume, and heights mean nothing in it: leave the height out", c.mould.Name)
	}
	for i, l := range c.r.Layers {
		p := recipe.Path("layers").Item(i)
		if l.Surface > 0 && !c.mould.HasHeights() {
			c.errorf(p.Field("surface"), "the mould %q is known by its volume, and heights mean nothing in it: give each layer a share", c.mould.Name)
		}
		if l.Propped.By == 0 {
			continue
		}
		p = p.Field("propped")
		switch across := c.mould.Width; {
		case !c.mould.Lies():
			c.errorf(p, "only a mould that lies can be propped on one side, and %q does not", c.mould.Name)
		case l.Propped.By > across/2:
			c.errorf(p, "the mould %q is %s wide and would tip over: prop it by %s at most", c.mould.Name, across, across/2)
		}
	}
}

func (c *checker) shares() {
	var shares []quantity.Ratio
	for _, l := range c.r.Layers {
		shares = append(shares, l.Share)
	}
	c.whole("layers", "layers", shares)
	height := c.r.Height
	switch {
	case height == 0:
		height = c.mould.Height
	case height > c.mould.Height:
		c.errorf("height", "the loaf would be %s high, above the rim of the mould %q at %s", height, c.mould.Name, c.mould.Height)
		height = c.mould.Height
	}
	recipe.SetSurfaces(c.r.Layers, c.mould, height)
}

// rising checks that each surface lies above the one before, at both walls.
func (c *checker) rising(byShare bool) {
	field, base, below := "surface", form.Level(0), "floor"
	if byShare {
		field = "share"
	}
	for i, l := range c.r.Layers {
		p := recipe.Path("layers").Item(i).Field(field)
		line, rim := l.Line(c.mould), c.mould.Height.Millimetres()
		middle := c.mould.Section().Width() / 2
		if line.Slope == 0 && base.Slope == 0 {
			switch {
			case line.At <= base.At:
				c.errorf(p, "the surface of %q lies at %s, not above the %s at %s: list the layers from the floor up", l.Name, l.Surface, below, millimetres(base.At))
			case l.Surface > c.mould.Height:
				c.errorf(p, "the surface of %q lies at %s, above the rim of the mould %q at %s", l.Name, l.Surface, c.mould.Name, c.mould.Height)
			}
		} else {
			c.slopes(i, line, base, below, rim, middle)
		}
		base, below = line, "layer \""+l.Name+"\""
	}
}

// slopes is rising for surfaces that are not level: they must not cross, nor
// run out over the rim.
func (c *checker) slopes(i int, line, base form.Line, below string, rim, middle float64) {
	l := c.r.Layers[i]
	p := recipe.Path("layers").Item(i)
	if l.Propped.By > 0 {
		p = p.Field("propped")
	}
	for _, wall := range []struct {
		side recipe.Side
		x    float64
	}{{recipe.LeftSide, 0}, {recipe.RightSide, 2 * middle}} {
		y, under := line.Height(wall.x), base.Height(wall.x)
		switch {
		case y <= under:
			c.errorf(p, "the surface of %q would meet the %s wall at %s, not above the %s at %s there: prop the mould less, or pour more below or into this layer",
				l.Name, wall.side, signed(y), below, signed(under))
		case y > rim+hair:
			c.errorf(p, "the surface of %q would meet the %s wall at %s, above the rim of the mould %q at %s: prop it less, or pour lower",
				l.Name, wall.side, signed(y), c.mould.Name, c.mould.Height)
		}
	}
}

// signed shows a height that may lie below the floor.
func signed(mm float64) string {
	if mm < 0 {
		return "−" + millimetres(-mm).String()
	}
	return millimetres(mm).String()
}
