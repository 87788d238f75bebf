package calc

import (
	"cmp"
	"math/bits"
	"slices"

	"bench/internal/quantity"
)

// Portions splits net by weights into what a scale that reads to d can show.
// Net is rounded down to d first, and the rest stays in the pot, so the
// portions and the rest always add up to net. Units of d go by largest
// remainder, ties to the earlier portion; each portion is less than d away
// from its exact share. Weights below zero count as zero; if all are zero, or
// net is below d, everything stays in the pot. The weights' sum must fit int64.
func Portions(net quantity.Mass, weights []int64, d quantity.Mass) (portions []quantity.Mass, rest quantity.Mass) {
	d = max(d, 1)
	portions = make([]quantity.Mass, len(weights))
	var total uint64
	for _, w := range weights {
		total += uint64(max(w, 0))
	}
	if total == 0 || net < d {
		return portions, net
	}
	units := uint64(net / d)
	remainders := make([]uint64, len(weights))
	left := units
	for i, w := range weights {
		// 128 bits, because milligrams times weights may pass 64.
		high, low := bits.Mul64(units, uint64(max(w, 0)))
		whole, remainder := bits.Div64(high, low, total)
		portions[i], remainders[i] = quantity.Mass(whole)*d, remainder
		left -= whole
	}
	for _, i := range byLargest(remainders)[:left] {
		portions[i] += d
	}
	return portions, net % d
}

// byLargest gives the indices of values, largest first, ties in order.
func byLargest(values []uint64) []int {
	order := make([]int, len(values))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(values[b], values[a]) })
	return order
}
