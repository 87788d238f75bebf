package calc_test

import (
	"testing"

	"bench/internal/calc"
	"bench/internal/near"
)

func TestDensityByVolume(t *testing.T) {
	// By hand, outside the project: 1000 g of oils at 0.915 and 430 g of lye
	// solution at 1.357 take 1410 mL.
	near.To(t, "batter", calc.DensityByVolume(calc.Part{1000, 0.915}, calc.Part{430, 1.357}), 1.014, 0.0005)
	near.To(t, "one part", calc.DensityByVolume(calc.Part{5, 0.9}), 0.9, 1e-12)
	near.To(t, "a part of no mass and no density", calc.DensityByVolume(calc.Part{5, 0.9}, calc.Part{}), 0.9, 1e-12)
	near.To(t, "nothing", calc.DensityByVolume(), 0, 0)
}
