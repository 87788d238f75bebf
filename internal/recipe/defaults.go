package recipe

import (
	"time"

	"bench/internal/calc"
	"bench/internal/quantity"
)

// The names by which documents, plans and facts call what every batch has.
const (
	Water              = "water"
	SodiumHydroxide    = "sodium hydroxide"
	PotassiumHydroxide = "potassium hydroxide"
)

// Defaults where a document says nothing: common practice, no source.
const (
	DefaultLoaves       = 1
	DefaultSuperfat     = 5 * quantity.Percent
	DefaultMixAt        = 35 * quantity.Degree
	DefaultUnmould      = 24 * time.Hour
	DefaultUnmouldCold  = 48 * time.Hour // DefaultUnmouldCold is for a loaf whose gel is prevented.
	DefaultGel          = GelLeft
	DefaultLeftInVessel = 20 * quantity.Gram
)

// HotMix is too hot for lye solution and oils to meet, unless a maker plans it hotter: the
// batter thickens at once, steams and may rise out of the pot (common practice, no source).
const HotMix = 70 * quantity.Degree

// CureLoss is the fraction of a bar's fresh weight that is taken to leave it in the
// cure, where the maker's own figure is not known (common practice, no source).
const CureLoss = 0.15

// DefaultWater is a lye concentration of 33 %.
func DefaultWater() calc.WaterRule {
	return calc.WaterRule{Kind: calc.ByLyeConcentration, Value: 0.33}
}

// DefaultAlkali is sodium hydroxide alone.
func DefaultAlkali() []AlkaliShare {
	return []AlkaliShare{{Material: SodiumHydroxide, Share: quantity.Whole}}
}

// DefaultTrace is what a layer wants when it does not say: medium if it must
// carry embeds, else light.
func (l Layer) DefaultTrace() Trace {
	if len(l.Embeds) > 0 {
		return MediumTr
	}
	return Light
}
