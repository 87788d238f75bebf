package steps

import (
	"fmt"
	"strings"

	"bench/internal/calc"
	"bench/internal/quantity"
	"bench/internal/ways"
)

// Outcome is what a batch comes to when all else is weighed as asked.
type Outcome struct {
	Superfat  calc.Superfat // Superfat is of the batter that was off.
	Mended    *float64      // Mended is what it is, in percent, once its other weights that are off are mended; nil where there are none.
	Rise      quantity.Length
	Scent     float64  // Scent is the most of it in any fresh layer, in percent.
	Strength  float64  // Strength is the lye concentration, in percent.
	Dissolves float64  // Dissolves is the most that Strength can be at 20 °C, in percent.
	Asks      []string // Asks are the weighings that it adds to those still to come.
	Split     *Split   // Split is what comes of a portion's way, which changes no superfat; nil for another weight.
}

// String says what a way comes to.
func (o Outcome) String() string {
	if o.Split != nil {
		return o.asks(fmt.Sprintf("%s, scent %.2f %% of a layer", o.Split, o.Scent))
	}
	mended := ""
	if o.Mended != nil {
		mended = fmt.Sprintf(" (%.1f once the others are mended)", *o.Mended)
	}
	said := fmt.Sprintf("superfat %.1f %% (%.1f to %.1f)%s, height %+.1f mm, scent %.2f %% of a layer, lye %.1f %%",
		o.Superfat.Percent, o.Superfat.Low, o.Superfat.High, mended, float64(o.Rise/(quantity.Millimetre/10))/10, o.Scent, o.Strength)
	return o.asks(said)
}

func (o Outcome) asks(said string) string {
	if len(o.Asks) > 0 {
		said += "; then " + strings.Join(o.Asks, "; ")
	}
	return said
}

// lowerBy is how far below the stated superfat an outcome may lie, in percent:
// what weights within their tolerances amount to.
const lowerBy = 0.25

// tooLow says that a way leaves a superfat below the stated one. What is neither
// oil nor alkali is not blamed for what is too low already.
func (k pot) tooLow(kind ways.Kind, s calc.Superfat, now Plan) bool {
	for _, b := range now.Batters {
		if b.Name == k.recipe.Name && kind != ways.Oil && kind != ways.Alkali && s.Percent >= b.Superfat.Percent-1e-9 {
			return false
		}
	}
	return s.Percent < 100*k.recipe.Superfat.Fraction()-lowerBy
}

// fits says that a way overfills nothing: no mould and no scale that was not
// too small before.
func fits(before, after Plan) bool {
	top := len(after.Layers) - 1
	rises := after.Layers[top].Surface > before.Layers[top].Surface
	return len(after.Warnings) <= len(before.Warnings) && (!rises || after.Layers[top].Surface <= after.Mould.Height)
}

func outcome(before, after Plan, batter string) Outcome {
	top := len(after.Layers) - 1
	o := Outcome{Dissolves: 100 * calc.MaxLyeConcentration, Rise: after.Layers[top].Surface - before.Layers[top].Surface, Asks: asks(before, after)}
	for _, b := range after.Batters {
		if b.Name == batter {
			o.Superfat, o.Strength = b.Superfat, 100*b.Concentration
		}
	}
	for _, l := range after.Layers {
		scent := quantity.Mass(0)
		for _, s := range l.Scents {
			scent += s.Mass
		}
		if l.Batter == batter && l.Mass > 0 {
			o.Scent = max(o.Scent, 100*scent.Grams()/l.Mass.Grams())
		}
	}
	return o
}
