// Package near compares numbers in tests.
//
// The rule: a tolerance is stated, and no number is near to one that is none.
package near

import "math"

// Check is what *testing.T and *rapid.T have in common.
type Check interface {
	Helper()
	Errorf(format string, args ...any)
}

// To fails unless got lies within tolerance of want, both in the same unit.
func To(t Check, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) { // also fails for NaN
		t.Errorf("%s: got %.6g, want %.6g ± %g", what, got, want, tolerance)
	}
}

// Share is To with a tolerance that is a fraction of want.
func Share(t Check, what string, got, want, fraction float64) {
	t.Helper()
	To(t, what, got, want, math.Abs(want)*fraction)
}
