package check

import (
	"slices"

	"bench/internal/quantity"
	"bench/internal/recipe"
)

// The policy of this file: a value that cannot be is an error, and one that hardly can is
// a warning, so that a point or a unit in the wrong place is seen before anything is
// weighed. A bound is common practice, no source, where nothing else is said.
const (
	leastMix, coolMix = 0 * quantity.Degree, 20 * quantity.Degree // Below coolMix hard oils set again.
	mostMix           = 99 * quantity.Degree                      // Above it water boils.

	muchLeft, mostLeft     = 300 * quantity.Gram, quantity.Kilogram // Of batter that stays in a vessel.
	muchColour, mostColour = 50 * quantity.GramPerKilo, 200 * quantity.GramPerKilo
	muchScent, mostScent   = 10 * quantity.Percent, 30 * quantity.Percent
	mostAdditive           = 150 * quantity.Percent // Salt goes up to as much as the oils, and a little over.

	lightJug   = 10 * quantity.Gram     // A jug or pot of thin plastic.
	lightBoat  = quantity.Gram / 5      // A square of weighing paper.
	heavyCup   = quantity.Kilogram      // A cup of stoneware.
	heavyPot   = 15 * quantity.Kilogram // A cauldron.
	lightest   = 100                    // A beaker of thin plastic holds a hundred grams for each of its own at most.
	highMould  = 250 * quantity.Millimetre
	longMould  = 1500 * quantity.Millimetre
	largeMould = 50 * quantity.Litre
)

// dryPurity checks the purity of dry alkali. Below the share of the monohydrate, by its
// molar masses (NaOH·H2O 40.00 of 58.01, KOH·H2O 56.11 of 74.12, in whole per cent), there
// is more water than the crystal holds, and it is not dry. What is sold holds at least
// 95 % NaOH, or 85 % KOH (Food Chemicals Codex; from memory).
func (c *checker) dryPurity(p recipe.Path, m recipe.Material) {
	least, sold := 69*quantity.Percent, 95*quantity.Percent
	if recipe.Fold(m.Name) == recipe.PotassiumHydroxide {
		least, sold = 76*quantity.Percent, 85*quantity.Percent
	}
	switch {
	case m.Purity > quantity.Whole:
		c.errorf(p, "a purity cannot be more than 100 %%")
	case m.Purity == 0 || m.Kind != recipe.AlkaliMaterial:
	case m.Purity < least:
		c.errorf(p, "dry %s of %s cannot be: below %s it is no longer dry; read the container again and mind the point, or state a solution's strength as \"stock\"",
			m.Name, m.Purity, least)
	case m.Purity < sold:
		c.warnf(p, "%s of %s is weak: what is sold dry holds %s or more; read the container again", m.Name, m.Purity, sold)
	}
}

// mixAt checks the temperature at which a batter is mixed.
func (c *checker) mixAt(p recipe.Path, t quantity.Temperature) {
	switch {
	case t > mostMix || t < leastMix:
		c.errorf(p, "a batter cannot be mixed at %s, where its water boils or freezes: most are mixed at 25 to 60 °C", t)
	case t > recipe.HotMix:
		c.warnf(p, "mixing at %s is hot: lye solution spits and steams, and the batter can rise over the rim; most are mixed at 25 to 60 °C", t)
	case t < coolMix:
		c.warnf(p, "mixing at %s is cool: hard oils set again, which looks like trace and is none; most are mixed at 25 to 60 °C", t)
	}
}

// rate checks how much of something goes in, for each gram of oils or batter.
func (c *checker) rate(p recipe.Path, what string, rate, much, most quantity.Ratio) {
	switch {
	case rate > most:
		c.errorf(p, "%s at %s cannot be meant: check the point and the unit", what, rate)
	case rate > much:
		c.warnf(p, "%s at %s is a lot: check the point and the unit", what, rate)
	}
}

func (c *checker) plausibleWorkshop() {
	switch left := c.w.LeftInVessel; {
	case left > mostLeft:
		c.errorf("left in vessel", "%s of batter would stay in every vessel: say what clings to one that was scraped out, such as \"20 g\"", left)
	case left > muchLeft:
		c.warnf("left in vessel", "%s of batter stays in every vessel: that is a lot; check the point and the unit", left)
	}
	for i, m := range c.w.Moulds {
		c.mouldPlausible(recipe.Path("moulds").Item(i), m)
	}
	for i, v := range c.w.Vessels {
		c.tarePlausible(recipe.Path("vessels").Item(i).Field("tare"), v)
	}
	for _, kind := range []recipe.VesselKind{recipe.Pot, recipe.LyeJug, recipe.Jug, recipe.Cup} {
		if len(c.w.Vessels) > 0 && !slices.ContainsFunc(c.w.Vessels, func(v recipe.Vessel) bool { return v.Kind == kind }) {
			c.warnf("vessels", "the list has no %s: every batch will ask for another one and what it weighs empty; add yours with its tare", kind)
		}
	}
}

func (c *checker) mouldPlausible(p recipe.Path, m recipe.Mould) {
	upright := m.Kind == recipe.CylinderMould
	switch {
	case m.Height > highMould && !upright:
		c.warnf(p.Field("height"), "%q is %s high: most are 40 to 150 mm; check the unit", m.Name, m.Height)
	case max(m.Length, m.Width, m.Height, m.Diameter) > longMould:
		c.warnf(p, "%q measures more than %s: check the unit", m.Name, longMould)
	case m.Capacity() > largeMould:
		c.warnf(p, "%q holds %.0f l: check its measures and their units", m.Name, m.Capacity().Millilitres()/1000)
	}
}

func (c *checker) tarePlausible(p recipe.Path, v recipe.Vessel) {
	least, most := lightJug, heavyPot
	if v.Kind == recipe.Cup {
		least, most = lightBoat, heavyCup
	}
	least = max(least, quantity.FromGrams(v.Brim.Millilitres()/lightest))
	if v.Tare > 0 && (v.Tare < least || v.Tare > most) {
		c.warnf(p, "%q weighs %s empty: a %s weighs %s to %s; weigh it again, empty and dry, and mind the point and the unit", v.Name, v.Tare, v.Kind, least, most)
	}
}
