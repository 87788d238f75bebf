package recipe

import (
	"time"

	"bench/internal/quantity"
)

// Cure is how long bars of a recipe dry, counted from the cut, and how that is
// followed. A field of zero takes its default.
type Cure struct {
	Least      time.Duration  // Least is the shortest cure by the calendar.
	Usual      time.Duration  // Usual is when the bars are expected to be ready.
	WeighEvery time.Duration  // WeighEvery is the time between two weigh-ins.
	Slow       quantity.Ratio // Slow is the loss a week under which a bar counts as dry.
}

// Defaults of the cure: common practice, no source.
const (
	defaultCureLeast  = 28 * 24 * time.Hour
	defaultCureUsual  = 42 * 24 * time.Hour
	defaultWeighEvery = 7 * 24 * time.Hour
	defaultSlow       = quantity.Percent / 2
)

// Or gives the cure with every default filled in. The usual cure is never
// shorter than the least.
func (c Cure) Or() Cure {
	if c.Least == 0 {
		c.Least = defaultCureLeast
	}
	if c.Usual == 0 {
		c.Usual = defaultCureUsual
	}
	if c.WeighEvery == 0 {
		c.WeighEvery = defaultWeighEvery
	}
	if c.Slow == 0 {
		c.Slow = defaultSlow
	}
	c.Usual = max(c.Usual, c.Least)
	return c
}

// Defaults of the cut: common practice, no source.
const (
	defaultBarThickness = 25 * quantity.Millimetre
	defaultEndTrim      = 5 * quantity.Millimetre // defaultEndTrim is taken off each end.
)

// BarsPerLoaf gives how many whole bars a loaf is cut into: what is left between
// the end trims, by the thickness of a bar, rounded down. Each cavity is a bar.
func (c Control) BarsPerLoaf() int {
	if !c.Mould.HasHeights() {
		return c.Mould.CavityCount()
	}
	return c.Loaf().Bars()
}

// BarShare gives the part of a mould's soap that is in one bar.
func (c Control) BarShare() float64 {
	if along := c.Mould.Along(); c.Mould.HasHeights() && along > 0 {
		return c.Loaf().Bar.Millimetres() / along.Millimetres()
	}
	return 1 / float64(c.Mould.CavityCount())
}
