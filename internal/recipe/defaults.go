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

// Thresholds of warnings: common practice, no source.
const (
	lowSuperfat   = 3 * quantity.Percent
	highSuperfat  = 20 * quantity.Percent
	weakestLye    = 0.25 // weakestLye and strongestLye are fractions of the lye solution.
	strongestLye  = 0.40
	leastCover    = 8.0 // leastCover is mm of soap over an embed.
	leastWall     = 5.0 // leastWall is mm of soap between an embed and a wall or the floor.
	paleLuminance = 0.5

	// CureLoss is the fraction of a bar's fresh weight that is taken to leave it
	// in the cure, where the maker's own figure is not known.
	CureLoss = 0.15
)

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
