package solution_test

import (
	"testing"

	"bench/internal/near"
	"bench/internal/solution"

	"pgregory.net/rapid"
)

// g/mL at 15 °C: Perry's, from the International Critical Tables; from memory.
// The model's parameters are from memory too, from another source: they agree.
func TestPotassiumDensityAgainstHandbook(t *testing.T) {
	rows := []float64{ // at 2, 4, 6 … 50 %
		1.0175, 1.0359, 1.0544, 1.0730, 1.0918, 1.1108, 1.1299, 1.1493, 1.1688, 1.1884, 1.2083, 1.2285, 1.2489,
		1.2695, 1.2905, 1.3117, 1.3331, 1.3549, 1.3769, 1.3991, 1.4215, 1.4443, 1.4673, 1.4907, 1.5143,
	}
	for i, want := range rows {
		near.Share(t, "density", solution.PotassiumHydroxideDensity(float64(i+1)/50, 15), want, 0.0013)
		if i < 2 {
			continue
		}
		// A digit remembered wrongly would break the even growth of the steps.
		if bend := rows[i] - 2*rows[i-1] + rows[i-2]; bend < 0 || bend > 0.0005 {
			t.Errorf("the table bends by %.4f at %d %%", bend, 2*(i+1))
		}
	}
	near.To(t, "water", solution.PotassiumHydroxideDensity(0, 20), 0.9982, 0.0001)
}

func TestMixedDensityLiesBetweenTheHydroxides(t *testing.T) {
	near.To(t, "sodium alone", solution.MixedHydroxideDensity(30, 0, 70, 25), solution.SodiumHydroxideDensity(0.3, 25), 1e-12)
	near.To(t, "potassium alone", solution.MixedHydroxideDensity(0, 30, 70, 25), solution.PotassiumHydroxideDensity(0.3, 25), 1e-12)
	near.To(t, "water alone", solution.MixedHydroxideDensity(0, 0, 70, 25), solution.SodiumHydroxideDensity(0, 25), 1e-12)
	rapid.Check(t, func(t *rapid.T) {
		sodium := rapid.Float64Range(1, 30).Draw(t, "NaOH")
		potassium := rapid.Float64Range(1, 20).Draw(t, "KOH")
		tC := rapid.Float64Range(15, 80).Draw(t, "tC")
		w := (sodium + potassium) / 100
		got := solution.MixedHydroxideDensity(sodium, potassium, 100-sodium-potassium, tC)
		k, na := solution.PotassiumHydroxideDensity(w, tC), solution.SodiumHydroxideDensity(w, tC)
		if got < min(k, na) || got > max(k, na) {
			t.Fatalf("%.4f is not between %.4f and %.4f", got, k, na)
		}
	})
}

// 109 g of sodium hydroxide (ICSC, second-hand) and 112 g of potassium
// hydroxide (CRC Handbook, from memory) dissolve in 100 g of water at 20 °C.
func TestLeastWater(t *testing.T) {
	near.To(t, "sodium", solution.LeastWater(109, 0), 100, 0.3)
	near.To(t, "potassium", solution.LeastWater(0, 112), 100, 0.3)
	near.To(t, "both", solution.LeastWater(109, 112), 200, 0.6)
}
