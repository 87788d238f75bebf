package check

import (
	"fmt"
	"slices"

	"bench/internal/calc"
	"bench/internal/oils"
	"bench/internal/recipe"
)

// The policy of this file: an oil is one of the table, with its published range
// or the maker's own value, or one that the maker alone knows. The latter has
// nothing but that value, and what is assumed of it is marked as assumed.

// assumedDensity is in g/mL at 20 °C, where nobody states one: most liquid
// vegetable oils lie from 0.91 to 0.93 (Codex CXS 210, second-hand). It only
// decides how much batter fills a mould.
const assumedDensity = 0.92

// OilKey gives the key of an oil of the workshop: that of the table, or its own
// name for one that the table does not have.
func OilKey(m recipe.Material) string {
	if m.Kind == recipe.OilMaterial && m.Oil == "" {
		return recipe.Fold(m.Name)
	}
	return m.Oil
}

// oil finds an oil by its name in the workshop, its key in the table or its
// name there, and keeps its values for the batch.
func (c *checker) oil(p recipe.Path, name string) (recipe.OilUse, bool) {
	use, m, ok := c.oilNamed(name)
	switch {
	case !ok:
		c.unknownOil(p, name)
		return recipe.OilUse{}, false
	case use.SV.Nominal <= 0 && !m.Certified():
		c.errorf(p, "the table has no published saponification value of %s: give that of your certificate in the workshop file, as in \"sv: 190 ± 2 mg/g\"", use.Name)
		return recipe.OilUse{}, false
	}
	if i := slices.IndexFunc(c.oils, func(o recipe.OilUse) bool { return o.Key == use.Key }); i >= 0 {
		return c.oils[i], true
	}
	if m.Name != "" {
		use = certify(use, m)
		c.use(m)
	}
	c.oils = append(c.oils, use)
	return use, true
}

func (c *checker) unknownOil(p recipe.Path, name string) {
	var known []string
	for _, o := range oils.All() {
		known = append(known, o.Key, o.Name)
	}
	for _, m := range c.w.Materials {
		if m.Kind == recipe.OilMaterial {
			known = append(known, m.Name)
		}
	}
	meant := recipe.DidYouMean(name, known)
	if m, ok := material(c.w, name); ok && m.Kind == recipe.PremeltedMaterial {
		meant = fmt.Sprintf(": list the oils that are wanted, and say \"premelted: %s\" beside them", m.Name)
	} else if meant == "" {
		meant = ": list it in the workshop file, with the saponification value of its certificate, as in \"sv: 190 ± 2 mg/g\""
	}
	c.errorf(p, "no oil of the table or of the workshop is called %q%s", name, meant)
}

// oilNamed finds what is published of the oil that a name stands for, and the
// workshop's material for it if it has one.
func (c *checker) oilNamed(name string) (recipe.OilUse, recipe.Material, bool) {
	f := recipe.Fold(name)
	for _, m := range c.w.Materials {
		if m.Kind != recipe.OilMaterial || recipe.Fold(m.Name) != f {
			continue
		}
		if m.Oil == "" {
			return recipe.OilUse{Key: OilKey(m), Density: assumedDensity, DensityFrom: "assumed, because the workshop states none"}, m, m.Certified()
		}
		row, ok := oils.ByKey(m.Oil)
		return published(row), m, ok
	}
	for _, row := range oils.All() {
		if recipe.Fold(row.Key) != f && recipe.Fold(row.Name) != f {
			continue
		}
		i := slices.IndexFunc(c.w.Materials, func(m recipe.Material) bool { return m.Kind == recipe.OilMaterial && m.Oil == row.Key })
		if i < 0 {
			return published(row), recipe.Material{}, true
		}
		return published(row), c.w.Materials[i], true
	}
	return recipe.OilUse{}, recipe.Material{}, false
}

// published gives what the table has of an oil.
func published(row oils.Oil) recipe.OilUse {
	use := recipe.OilUse{Key: row.Key, Name: row.Name, Density: row.DensityGPerML(recipe.DensityAt), Hard: row.Hard(), Melts: row.Melts.High}
	if row.SV.Known() {
		use.SV, use.SVFrom = calc.Published(row.SV.Low, row.SV.High), fmt.Sprintf("%s (%s)", row.SV.Source, row.SV.Flag)
	}
	return use
}

// certify puts what the maker states of an oil in the place of what is
// published.
func certify(use recipe.OilUse, m recipe.Material) recipe.OilUse {
	use.Name, use.Lot = m.Name, m.Lot
	if m.Density > 0 {
		use.Density, use.DensityFrom = m.Density, "the workshop"
	}
	if m.Melts > 0 {
		use.Melts, use.Hard = m.Melts.Celsius(), m.Melts.Celsius() > recipe.DensityAt
	}
	if m.Certified() {
		use.SV, use.Own, use.SVFrom = m.SV, true, "your certificate"
		if m.Lot != "" {
			use.SVFrom += " of lot " + m.Lot
		}
	}
	return use
}

// workshopOil checks which oil a material is, or holds. One that the table does
// not have needs the maker's own value.
func (c *checker) workshopOil(item recipe.Path, m recipe.Material) {
	p := item.Field("oil")
	switch {
	case m.Oil == "" && m.Kind == recipe.OilMaterial:
		c.ownOil(item, m)
		return
	case m.Oil == "":
		c.errorf(p, "say which oil %q holds, as in \"oil: olive\"", m.Name)
		return
	}
	known := make([]string, 0, len(oils.All()))
	for _, o := range oils.All() {
		known = append(known, o.Key)
	}
	for _, own := range c.w.Materials {
		if own.Kind == recipe.OilMaterial && own.Oil == "" && m.Kind != recipe.OilMaterial {
			known = append(known, OilKey(own))
		}
	}
	if !slices.Contains(known, m.Oil) && !slices.Contains(known, recipe.Fold(m.Oil)) {
		c.errorf(p, "no oil of the table is called %q%s", m.Oil, recipe.DidYouMean(m.Oil, known))
	}
}

// Between these, in mg of potassium hydroxide per gram, lie fats, from the
// highest range of the table down; waxes lie lower, and a value stated as sodium
// hydroxide looks like one (common practice, no source).
const (
	usualLowSV  = 160
	usualHighSV = 265
)

func (c *checker) ownOil(item recipe.Path, m recipe.Material) {
	p := item.Field("oil")
	key := recipe.OilKey(m.Name)
	_, listed := oils.ByKey(key)
	switch {
	case listed:
		c.errorf(p, "the table has %q: say so with \"oil: %s\", and keep your own value as its \"sv\"", m.Name, key)
	case !m.Certified():
		c.errorf(item.Field("sv"), "say which oil of the table %q is, as in \"oil: olive\"; if it is none of them, give the saponification value of its certificate, as in \"sv: 190 ± 2 mg/g\"", m.Name)
	case m.SV.Nominal < usualLowSV:
		c.warnf(p, "a saponification value of %.4g mg/g is low for a fat: if it was stated as sodium hydroxide, write it like \"%.4g mg/g NaOH\"", m.SV.Nominal, m.SV.Nominal)
	case m.SV.Nominal > usualHighSV:
		c.warnf(p, "a saponification value of %.4g mg/g is high for a fat: make sure that it was not stated as potassium hydroxide, or the soap will have free alkali", m.SV.Nominal)
	}
}
