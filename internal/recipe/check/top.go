package check

import "bench/internal/recipe"

// top checks the materials scattered on the loaves.
func (c *checker) top() {
	for i := range c.r.Top.Toppings {
		t := &c.r.Top.Toppings[i]
		at := recipe.Path("top").Field("toppings").Item(i)
		t.Material = c.material(at.Field("material"), t.Material, "topping", recipe.ToppingMaterial, recipe.ColourMaterial)
		if t.PerLoaf <= 0 {
			c.errorf(at, "say how much %s goes on each loaf, above 0 g", t.Material)
		}
	}
	if c.r.Gel == "" {
		c.r.Gel = recipe.DefaultGel
	}
	if c.r.Unmould == 0 {
		c.r.Unmould = recipe.DefaultUnmould
		if c.r.Gel == recipe.GelPrevented {
			c.r.Unmould = recipe.DefaultUnmouldCold
		}
	}
	if asked := c.r.Cure; asked.Usual > 0 && asked.Or().Least > asked.Usual {
		c.warnf(recipe.Path("cure").Field("least"), "the shortest cure is longer than the usual one: the longer of the two counts")
	}
	c.r.Cure = c.r.Cure.Or()
}

// micaLines checks what is dusted between layers.
func (c *checker) micaLines() {
	for i := range c.r.Layers {
		t := &c.r.Layers[i].MicaLine
		if *t == (recipe.Topping{}) {
			continue
		}
		at := recipe.Path("layers").Item(i).Field("mica line")
		if i == len(c.r.Layers)-1 {
			c.errorf(at, "nothing is poured on %q, so there is no line on it: list it with the toppings of the top", c.r.Layers[i].Name)
		}
		t.Material = c.material(at.Field("material"), t.Material, "colourant or topping", recipe.ColourMaterial, recipe.ToppingMaterial)
		if t.PerLoaf <= 0 {
			c.errorf(at, "say how much %s goes on each loaf, above 0 g", t.Material)
		}
	}
}
