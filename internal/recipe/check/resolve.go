package check

import (
	"crypto/sha256"
	"encoding/hex"
	"unicode/utf8"

	"bench/internal/quantity"
	"bench/internal/recipe"
)

// Resolve freezes a recipe for one batch: it checks it at that number of loaves
// (zero is the recipe's own), fills in what was left out, and copies every value
// of the workshop and of the oils table that the batch will rest on. In the
// control recipe every name is written as the workshop and the table write it,
// every layer has its surface, its trace and the place of its colours, and an
// oil weight is that of all the batch's loaves.
//
// Text is the document as it was read. Where a problem is not a warning the
// control recipe is the zero value.
func Resolve(r recipe.Recipe, text string, w recipe.Workshop, loaves int) (recipe.Control, []recipe.Problem) {
	return ResolveOils(r, text, w, loaves, 0)
}

// ResolveOils is Resolve for so much oil as the maker has at hand, whatever the
// recipe says of its weight: the loaf becomes as high as that fills it, all
// layers in proportion. Zero leaves it to the recipe.
func ResolveOils(r recipe.Recipe, text string, w recipe.Workshop, loaves int, oils quantity.Mass) (recipe.Control, []recipe.Problem) {
	c := newChecker(r, w)
	c.onHand = oils
	if loaves == 0 {
		loaves = c.r.Loaves
	}
	c.run(loaves)
	if !utf8.ValidString(text) {
		c.errorf("", "the document is not UTF-8 text: save it as UTF-8")
	}
	if c.failed() {
		return recipe.Control{}, c.problems
	}
	hash := sha256.Sum256([]byte(text))
	control := c.control(loaves)
	control.Materials = c.used
	control.Text, control.Hash = text, hex.EncodeToString(hash[:])
	control.Scales = append([]recipe.Scale(nil), w.Scales...)
	control.Vessels = append([]recipe.Vessel(nil), w.Vessels...)
	if c.planSticks(&control); c.failed() {
		return recipe.Control{}, c.problems
	}
	for _, p := range c.problems {
		control.Warnings = append(control.Warnings, p.Text)
	}
	return control, c.problems
}

// control gives what is known so far as a control recipe, enough to size it.
func (c *checker) control(loaves int) recipe.Control {
	control := recipe.Control{
		PlanVersion: recipe.PlanVersion, Recipe: c.r, Loaves: loaves, Mould: c.mould,
		Materials: c.w.Materials, Oils: c.oils, LeftInVessel: c.w.LeftInVessel, Room: c.w.Room,
	}
	if control.LeftInVessel == 0 {
		control.LeftInVessel = recipe.DefaultLeftInVessel
	}
	return control
}
