package recipe

import (
	"slices"

	"bench/internal/quantity"
)

// workshopSticks checks the sticks on hand and what they are cut with.
func (c *checker) workshopSticks() {
	c.cutting("cutting", c.w.Cutting)
	order := c.w.Cutting.Order(10*quantity.MaxLength, 1, 1)
	least := order.Minimum
	if least == 0 {
		least = 2 * order.Loaf.Bar
	}
	for i, s := range c.w.Sticks {
		p := Path("sticks").Item(i)
		if s.Length > 0 && s.Length < least {
			c.errorf(p.Field("length"), "a stick of %s is shorter than the shortest piece, %s: leave it out, or state a smaller \"minimum piece\" under \"cutting\"", s.Length, least)
		}
	}
	if x := c.w.Extruder; x.Stays > 0 && x.Capacity > 0 && x.Stays >= x.Capacity {
		c.errorf("extruder.stays", "what stays in the extruder, %s, is all that it holds", x.Stays)
	}
}

// cutting checks how loaves are cut, in a workshop or in a recipe.
func (c *checker) cutting(p Path, k Cutting) {
	if k.Tolerance != nil && k.Bar != nil && 2**k.Tolerance >= *k.Bar {
		c.errorf(p.Field("tolerance"), "a tolerance of %s is half a bar or more: a join could lie anywhere", *k.Tolerance)
	}
}

// stickOutlines checks that embeds cut from one stick have one outline.
func (c *checker) stickOutlines() {
	c.cutting("cutting", c.r.Cutting)
	first := map[string]Embed{}
	for i, l := range c.r.Layers {
		for j, e := range l.Embeds {
			f, seen := first[Fold(e.StickName())]
			if !seen {
				first[Fold(e.StickName())] = e
				continue
			}
			if f.Shape != e.Shape || f.Width != e.Width || f.Height != e.Height || f.Dough != e.Dough || !slices.Equal(f.Corners, e.Corners) {
				c.errorf(Path("layers").Item(i).Field("embeds").Item(j), "%q and %q are pieces of one stick, %q, yet differ in shape or dough: give one of them another \"stick\"",
					f.Name, e.Name, e.StickName())
			}
		}
	}
}
