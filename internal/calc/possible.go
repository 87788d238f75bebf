package calc

import (
	"fmt"
	"math"
)

// Possible refuses weights that are no weights.
func Possible(grams ...float64) error {
	for _, g := range grams {
		if !(g >= 0) || math.IsInf(g, 1) {
			return fmt.Errorf("weight of %g g is not possible: state zero or more", g)
		}
	}
	return nil
}
