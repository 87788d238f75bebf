package cure

import (
	"cmp"
	"math"
	"slices"
)

// series is what a fit rests on.
type series struct {
	bars [][]Reading
	n    int     // n counts the readings.
	free int     // free are the degrees of freedom: two for each bar and one for τ are used up.
	span float64 // span is from the first reading to the last.
	step float64 // step is the shortest time between two readings of a bar.
}

// shortest is the least time between readings that counts as two, in days.
const shortest = 0.25

func seriesOf(bars [][]Reading) (series, error) {
	s := series{step: math.Inf(1)}
	first, last := math.Inf(1), math.Inf(-1)
	times := 0
	for _, bar := range bars {
		bar = slices.Clone(bar)
		slices.SortStableFunc(bar, func(a, b Reading) int { return cmp.Compare(a.Days, b.Days) })
		for _, r := range bar {
			if !(r.Grams > 0) || math.IsInf(r.Grams, 0) || math.IsNaN(r.Days) || math.IsInf(r.Days, 0) || r.Days < 0 {
				return s, ErrSenseless
			}
		}
		apart := 1
		for i := 1; i < len(bar); i++ {
			if step := bar[i].Days - bar[i-1].Days; step >= shortest {
				s.step, apart = min(s.step, step), apart+1
			}
		}
		if len(bar) > 0 {
			times = max(times, apart)
		}
		if len(bar) == 0 || apart < 2 {
			continue
		}
		s.bars, s.n = append(s.bars, bar), s.n+len(bar)
		first, last = min(first, bar[0].Days), max(last, bar[len(bar)-1].Days)
	}
	s.free, s.span = s.n-2*len(s.bars)-1, last-first
	if missing := max(4-times, 1-s.free); missing > 0 || len(s.bars) == 0 {
		return s, &TooFewError{Have: times, Need: max(4, times+missing)}
	}
	return s, nil
}
