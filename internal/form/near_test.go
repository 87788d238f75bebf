package form_test

import "math"

// check is what *testing.T and *rapid.T have in common here.
type check interface {
	Helper()
	Errorf(format string, args ...any)
}

// near fails unless got lies within tolerance of want, both in the same unit.
func near(t check, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) { // also fails for NaN
		t.Errorf("%s: got %.6g, want %.6g ± %g", what, got, want, tolerance)
	}
}

// nearShare is near with a tolerance that is a fraction of want.
func nearShare(t check, what string, got, want, fraction float64) {
	t.Helper()
	near(t, what, got, want, math.Abs(want)*fraction)
}
