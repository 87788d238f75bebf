package recipe

import "bench/internal/quantity"

// heights gives every layer its surface and checks that the surfaces rise, up
// to the mould's rim at most.
func (c *checker) heights() bool {
	before := len(c.problems)
	byShare := 0
	for i, l := range c.r.Layers {
		p := Path("layers").Item(i)
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
	if len(c.problems) > before || c.mould.Length == 0 {
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
	surfaces(c.r.Layers, height)
}

func (c *checker) rising(byShare bool) {
	field, floor, below := "surface", quantity.Length(0), "floor"
	if byShare {
		field = "share"
	}
	for i, l := range c.r.Layers {
		p := Path("layers").Item(i).Field(field)
		switch {
		case l.Surface <= floor:
			c.errorf(p, "the surface of %q lies at %s, not above the %s at %s: list the layers from the floor up", l.Name, l.Surface, below, floor)
		case l.Surface > c.mould.Height:
			c.errorf(p, "the surface of %q lies at %s, above the rim of the mould %q at %s", l.Name, l.Surface, c.mould.Name, c.mould.Height)
		}
		floor, below = l.Surface, "layer \""+l.Name+"\""
	}
}
