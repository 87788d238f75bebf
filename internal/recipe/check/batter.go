package check

import (
	"bench/internal/calc"
	"bench/internal/quantity"
	"bench/internal/recipe"
)

func (c *checker) batters() {
	if len(c.r.Batters) == 0 {
		c.errorf("batters", "the recipe has no batter: list at least one with its oils")
	}
	var names []string
	var paths []recipe.Path
	for i := range c.r.Batters {
		p := recipe.Path("batters").Item(i)
		b := &c.r.Batters[i]
		names, paths = append(names, b.Name), append(paths, p.Field("name"))
		c.batterOils(p, b)
		c.premelted(p.Field("premelted"), b)
		for j := range b.Additives {
			at := p.Field("additives").Item(j)
			a := &b.Additives[j]
			a.Material = c.material(at.Field("material"), a.Material, "additive", recipe.AdditiveMaterial)
			c.carried(at.Field("material"), a.Material)
			c.rate(at.Field("rate"), a.Material, a.Rate, mostAdditive, mostAdditive)
			if a.In == "" {
				c.errorf(at, "say what the %s goes into: lye water, oils or batter", a.Material)
			}
		}
		c.batterAlkali(p, b)
		c.batterWater(p, b)
		c.batterSuperfat(p, b)
		c.mixAt(p.Field("mix at"), b.MixAt)
	}
	c.distinct("batter", paths, names)
}

func (c *checker) batterOils(p recipe.Path, b *recipe.Batter) {
	p = p.Field("oils")
	if len(b.Oils) == 0 {
		c.errorf(p, "the batter has no oils: list them with their shares")
		return
	}
	var shares []quantity.Ratio
	seen := make(map[string]bool)
	for i := range b.Oils {
		o := &b.Oils[i]
		shares = append(shares, o.Share)
		use, ok := c.oil(p.Item(i), o.Oil)
		switch {
		case ok && seen[use.Key]:
			c.errorf(p.Item(i), "%s is listed twice: add the shares up", use.Name)
		case ok:
			seen[use.Key] = true
			o.Oil = use.Key
		}
		if o.Share <= 0 {
			c.errorf(p.Item(i), "the share of %s must be above 0 %%", o.Oil)
		}
	}
	c.whole(p, "oils", shares)
}

func (c *checker) batterAlkali(p recipe.Path, b *recipe.Batter) {
	p = p.Field("alkali")
	if len(b.Alkali) == 0 {
		b.Alkali = recipe.DefaultAlkali()
	}
	var shares []quantity.Ratio
	for i := range b.Alkali {
		a := &b.Alkali[i]
		shares = append(shares, a.Share)
		a.Material = c.material(p.Item(i), a.Material, "alkali", recipe.AlkaliMaterial)
		if a.Material != recipe.PotassiumHydroxide {
			continue
		}
		if m, _ := material(c.w, a.Material); m.Purity == 0 && m.Stock == 0 {
			c.errorf(p.Item(i), "the purity of potassium hydroxide must be stated: it commonly holds 5 to 15 %% of water; give it in the workshop file")
		}
	}
	c.whole(p, "alkali", shares)
	c.keep(recipe.Water)
}

// batterWater checks the strength of the lye solution.
func (c *checker) batterWater(p recipe.Path, b *recipe.Batter) {
	if b.Water == (calc.WaterRule{}) {
		b.Water = recipe.DefaultWater()
	}
	control := c.control(c.r.Loaves)
	alkalis := control.AlkalisPerOil(*b)
	alkali := control.Dry(*b, alkalis)
	if alkali <= 0 {
		return
	}
	_, err := control.ExtraWater(*b, alkalis, b.AdditiveGrams(1), 1)
	w := alkali / (alkali + recipe.WaterPerOil(b.Water, alkali))
	switch {
	case err != nil && w > calc.MaxLyeConcentration:
		c.errorf(p.Field("water"), "the lye concentration would be %.1f %%, and no more than %.1f %% dissolves at 20 °C: use more water, at least \"1:1\" or \"50 %%\"",
			100*w, 100*calc.MaxLyeConcentration)
	case err != nil:
		c.errorf(p.Field("water"), "%v", err)
	case w < weakestLye-1e-9:
		c.warnf(p.Field("water"), "the lye concentration is %.1f %%: below 25 %% soap sets slowly", 100*w)
	case w > strongestLye+1e-9:
		c.warnf(p.Field("water"), "the lye concentration is %.1f %%: above 40 %% there is little time to work", 100*w)
	}
}

func (c *checker) batterSuperfat(p recipe.Path, b *recipe.Batter) {
	switch s := b.Superfat; {
	case s < 0:
		c.errorf(p.Field("superfat"), "a superfat of %s leaves free alkali in the soap: state 0 %% or more", s)
	case s >= quantity.Whole:
		c.errorf(p.Field("superfat"), "a superfat of %s leaves no alkali at all", s)
	case s < lowSuperfat:
		c.warnf(p.Field("superfat"), "a superfat of %s leaves little room for the spread of the oils: 3 %% or more is usual", s)
	case s > highSuperfat:
		c.warnf(p.Field("superfat"), "a superfat of %s is high: up to 20 %% is usual, and that for salt and all-coconut bars", s)
	}
}
