package check

import "bench/internal/quantity"

// Thresholds of warnings: common practice, no source.
const (
	lowSuperfat   = 3 * quantity.Percent
	highSuperfat  = 20 * quantity.Percent
	weakestLye    = 0.25 // weakestLye and strongestLye are fractions of the lye solution.
	strongestLye  = 0.40
	leastCover    = 8.0 // leastCover is mm of soap over an embed.
	leastWall     = 5.0 // leastWall is mm of soap between an embed and a wall or the floor.
	paleLuminance = 0.5
)
