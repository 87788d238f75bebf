package solution_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"bench/internal/calc"
	"bench/internal/near"
	"bench/internal/solution"
)

// dissolving is sodium hydroxide in water, both at one temperature.
func dissolving(t near.Check, strength, tC float64) solution.Estimate {
	t.Helper()
	peak, err := solution.Dissolving{NaOHGrams: 1000 * strength, WaterGrams: 1000 * (1 - strength), WaterC: tC, AlkaliC: tC}.Peak()
	if err != nil {
		t.Errorf("%.1f %% at %g °C: %v", 100*strength, tC, err)
	}
	return peak
}

// Rises worked out outside the project from Felder & Rousseau's integral heats
// (table B.11, from memory) with their infinite dilution at −42.9 kJ/mol and
// the heat capacities of Laliberté's model: the careless end of what the error
// must cover.
func TestPeakAgainstIntegralHeats(t *testing.T) {
	for percent, rise := range map[float64]float64{25: 67, 28: 74, 30: 79, 100. / 3: 84, 40: 87} {
		got := dissolving(t, percent/100, 20)
		near.To(t, "peak from 20 °C", got.Celsius, 20+rise, got.PlusMinus)
		if got.PlusMinus > 9 || got.NearBoiling != (percent > 25) {
			t.Errorf("%.1f %%: %+v, want an error of at most 9 °C, and near boiling from 28 %% on", percent, got)
		}
	}
}

// A source of its own: the enthalpy-concentration chart (McCabe; read off in
// Smith & Van Ness, Introduction to Chemical Engineering Thermodynamics, from
// memory) gives 192 Btu/lb for 40 % at 220 °F and 70 at 70 °F, water counted
// from 32 °F and sodium hydroxide from infinite dilution. Dissolving the solid
// adds the 44.51 kJ/mol of infinite dilution (CRC Handbook, from memory).
func TestPeakAgainstEnthalpyChart(t *testing.T) {
	const btuPerLb, roomC = 2.326, (70 - 32) / 1.8
	perK := (192 - 70) * btuPerLb / (150 / 1.8)
	solid := 44_510 / calc.MolarMassNaOH
	whole := 0.4*solid + 0.6*4.184*roomC
	want := roomC + (whole-70*btuPerLb)/perK
	near.To(t, "chart", want, 119.5, 1) // as worked out by hand
	got := dissolving(t, 0.4, roomC)
	near.To(t, "40 % from 70 °F", got.Celsius, want, got.PlusMinus)
}

// The dilute value must fail: 44.51 kJ/mol over the same heat capacity.
func TestInfiniteDilutionWouldOvershoot(t *testing.T) {
	for strength, most := range map[float64]float64{0.33: 20, 0.40: 45} {
		wrong := 20 + strength*44_510/calc.MolarMassNaOH/solution.SodiumHydroxideHeatCapacity(strength, 60)
		got := dissolving(t, strength, 20)
		t.Logf("%.0f %%: dilute heat %.0f °C, integral heat %.0f ± %.0f °C", 100*strength, wrong, got.Celsius, got.PlusMinus)
		if over := wrong - got.Celsius; over <= got.PlusMinus || over > most {
			t.Errorf("%.0f %%: dilute heat gives %.0f °C, which %+v should exclude", 100*strength, wrong, got)
		}
	}
}

// 6.50 g in 100.0 g of water from 21.6 to 37.8 °C: a calorimetry exercise,
// believed to be of Brown et al., Chemistry: The Central Science. At 6 % a
// wrong formula passes too.
func TestPeakOfCalorimetryExercise(t *testing.T) {
	got, err := solution.Dissolving{NaOHGrams: 6.5, WaterGrams: 100, WaterC: 21.6, AlkaliC: 21.6}.Peak()
	if err != nil || got.NearBoiling {
		t.Fatalf("got %+v, %v", got, err)
	}
	near.To(t, "6 %", got.Celsius, 37.8, got.PlusMinus)
	if got.PlusMinus > 3 {
		t.Errorf("an error of %.1f °C is more than 6 %% leaves open", got.PlusMinus)
	}
}

// From McCabe & Smith, Unit Operations (from memory, the evaporator example):
// 50 % at 197 °F holds 221 Btu/lb, 20 % at 100 °F 55.
func TestDilutionAgainstEnthalpyChart(t *testing.T) {
	const btuPerLb, stockC, chartC, waterC = 2.326, (197 - 32) / 1.8, (100 - 32) / 1.8, 20.0
	together := 0.4*221*btuPerLb + 0.6*4.186*waterC
	want := chartC + (together-55*btuPerLb)/solution.SodiumHydroxideHeatCapacity(0.2, 60)
	got, err := solution.Dissolving{Stock: half(400, stockC), WaterGrams: 600, WaterC: waterC}.Peak()
	if err != nil {
		t.Fatal(err)
	}
	near.To(t, "50 % to 20 %", got.Celsius, want, got.PlusMinus)

	// Common practice, no source: a 50 % stock warms by tens of degrees.
	third, err := solution.Dissolving{Stock: half(200, 20), WaterGrams: 100, WaterC: 20}.Peak()
	if err != nil || third.Celsius < 40 || third.Celsius > 60 || third.NearBoiling {
		t.Errorf("50 %% to 33 %% from 20 °C: %+v, %v; want 40 to 60 °C", third, err)
	}
}

// Stock and extra water hold the heat that dissolving at once sets free.
func TestDilutionIsTheSecondHalfOfDissolving(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		strength := rapid.Float64Range(0.2, 0.5).Draw(t, "strength")
		stock := dissolving(t, 0.5, 25)
		water := 1000 * (0.5/strength - 1)
		let, err := solution.Dissolving{Stock: half(1000, stock.Celsius), WaterGrams: water, WaterC: 25}.Peak()
		if err != nil {
			t.Fatal(err)
		}
		atOnce := dissolving(t, strength, 25)
		near.To(t, "two ways to one solution", let.Celsius, atOnce.Celsius, 0.5)
	})
}

// Half the alkali as potassium hydroxide of 90 %: the estimate must lie between
// its own limits, no concentration effect and twice the one it takes.
func TestPeakOfBothHydroxides(t *testing.T) {
	mixed := solution.Dissolving{NaOHGrams: 50, KOHGrams: 70, BoundWaterGrams: 7.8, WaterGrams: 240, WaterC: 20, AlkaliC: 20}
	got, err := mixed.Peak()
	if err != nil {
		t.Fatal(err)
	}
	if got.Celsius < 75 || got.Celsius > 105 || got.PlusMinus < 5 || got.PlusMinus > 15 {
		t.Errorf("got %+v", got)
	}
	mixed.BoundWaterGrams, mixed.WaterGrams = 0, 247.8
	dry, err := mixed.Peak()
	if err != nil || dry.Celsius < got.Celsius+5 {
		t.Errorf("dry flakes reach %+v (%v), wet ones %+v: bound water has given heat away already", dry, err, got)
	}
}

func TestPeakNeverPassesBoiling(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		strength := rapid.Float64Range(0.01, 0.52).Draw(t, "strength")
		from := rapid.Float64Range(0, 99).Draw(t, "from")
		got := dissolving(t, strength, from)
		if boils := 100 + 90*strength; got.Celsius > boils || got.Celsius < math.Min(from, boils) || !(got.PlusMinus > 0) {
			t.Fatalf("%.1f %% from %.0f °C: %+v", 100*strength, from, got)
		}
		if got.NearBoiling != (got.Celsius+got.PlusMinus >= 100) {
			t.Fatalf("%+v does not say whether it boils", got)
		}
	})
}

func TestHeatRefuses(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		what interface {
			Peak() (solution.Estimate, error)
		}
		says string
	}{
		{solution.Dissolving{NaOHGrams: 100}, "at least 91.6 g"},
		{solution.Dissolving{NaOHGrams: 100, WaterGrams: 80}, "at least 91.6 g"},
		{solution.Dissolving{}, "no alkali"},
		{solution.Dissolving{NaOHGrams: -1, WaterGrams: 80}, "-1 g is not possible"},
		{solution.Dissolving{NaOHGrams: nan, WaterGrams: 80}, "not possible"},
		{solution.Dissolving{NaOHGrams: 10, WaterGrams: math.Inf(1)}, "not possible"},
		{solution.Dissolving{Stock: solution.Stock{NaOHGrams: 60, WaterGrams: 40}, WaterGrams: 60}, "60.0 % is not possible"},
		{solution.Dissolving{Stock: half(nan, 20), WaterGrams: 10}, "not possible"},
		{solution.Dissolving{WaterGrams: 10}, "no alkali"},
		{solution.Dissolving{NaOHGrams: 10, WaterGrams: 20, WaterC: nan}, "thermometer"},
		{solution.Dissolving{Stock: half(10, nan)}, "thermometer"},
	} {
		if _, err := c.what.Peak(); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%+v: got error %v, want one that says %q", c.what, err, c.says)
		}
	}
}

// half is a stock of 50 % sodium hydroxide.
func half(grams, celsius float64) solution.Stock {
	return solution.Stock{NaOHGrams: grams / 2, WaterGrams: grams / 2, Celsius: celsius}
}

// Whatever part of the alkali comes as a stock that has cooled, the solution gets
// as hot as the heat that is left to be freed makes it: between the stock alone
// and dry alkali alone, and the more the hotter.
func TestStockAndDry(t *testing.T) {
	peak := func(dry, stock float64) float64 {
		e, err := solution.Dissolving{
			NaOHGrams: dry, WaterGrams: 400 - stock/2, WaterC: 20, AlkaliC: 20, Stock: half(stock, 20),
		}.Peak()
		if err != nil {
			t.Fatal(err)
		}
		return e.Celsius
	}
	all, both, none := peak(200, 0), peak(100, 200), peak(0, 400)
	if !(none+15 < both && both+15 < all) {
		t.Errorf("stock alone %.1f °C, both %.1f, dry alone %.1f", none, both, all)
	}
	// The heats add up: half of each is halfway, within what the heat capacities
	// of the parts differ by.
	near.To(t, "halfway", both, (all+none)/2, 4)
}

// A potassium hydroxide stock warms when it is let down, by less than a sodium
// one of the same strength, and dissolving it at once would warm it by far more.
func TestPotassiumStock(t *testing.T) {
	stock := solution.Stock{KOHGrams: 50, WaterGrams: 50, Celsius: 20}
	let, err := solution.Dissolving{Stock: stock, WaterGrams: 50, WaterC: 20}.Peak()
	if err != nil {
		t.Fatal(err)
	}
	sodium, err := solution.Dissolving{Stock: half(100, 20), WaterGrams: 50, WaterC: 20}.Peak()
	if err != nil {
		t.Fatal(err)
	}
	dry, err := solution.Dissolving{KOHGrams: 50, WaterGrams: 100, WaterC: 20, AlkaliC: 20}.Peak()
	if err != nil {
		t.Fatal(err)
	}
	if !(let.Celsius > 20 && let.Celsius < sodium.Celsius && let.Celsius < dry.Celsius-30) {
		t.Errorf("let down %.1f °C, sodium %.1f, dry %.1f", let.Celsius, sodium.Celsius, dry.Celsius)
	}
}

// TestEstimateInWords rounds an error up, the same wherever it is shown.
func TestEstimateInWords(t *testing.T) {
	if got := (solution.Estimate{Celsius: 91.6, PlusMinus: 6.2}).String(); got != "92 °C, ± 7" {
		t.Error(got)
	}
}
