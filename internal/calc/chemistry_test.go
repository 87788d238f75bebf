package calc_test

import (
	"testing"

	"pgregory.net/rapid"

	"bench/internal/calc"
	"bench/internal/near"
)

// oil is an amount with nothing left open.
func oil(grams, sv float64) calc.OilAmount {
	return calc.OilAmount{Name: "oil", Grams: calc.Exactly(grams), SV: calc.Exactly(sv)}
}

// CIAAW abridged atomic weights, from memory; K from the IUPAC 1995 table.
const (
	hydrogen  = 1.008
	carbon    = 12.011
	oxygen    = 15.999
	sodium    = 22.98976928
	potassium = 39.0983
)

func TestMolarMassesFollowFromAtomicWeights(t *testing.T) {
	near.To(t, "NaOH", calc.MolarMassNaOH, sodium+oxygen+hydrogen, 0.0005)
	near.To(t, "KOH", calc.MolarMassKOH, potassium+oxygen+hydrogen, 0.0005)
	// 40.00 and 56.11 are the constants of USP32 and USP NF34.
	near.To(t, "NaOH/KOH", calc.MolarMassNaOH/calc.MolarMassKOH, 40.00/56.11, 0.00005)
}

// acid is the molar mass of a fatty acid of so many carbons and double bonds.
func acid(carbons, bonds float64) float64 {
	return carbons*carbon + 2*(carbons-bonds)*hydrogen + 2*oxygen
}

// triglyceride is three acids and glycerol less three of water.
func triglyceride(acid float64) float64 {
	glycerol := 3*carbon + 8*hydrogen + 3*oxygen
	return 3*acid + glycerol - 3*(2*hydrogen+oxygen)
}

// Saponification values of pure triglycerides and the sodium hydroxide they
// take, calculated from molar masses outside the project (reference table of
// pure compounds); the molar mass of triolein, 885.4, is a published exercise.
func TestPureTriglycerides(t *testing.T) {
	near.To(t, "triolein g/mol", triglyceride(acid(18, 1)), 885.4, 0.06)
	for _, c := range []struct {
		name              string
		carbons, bonds    float64
		sv, hydroxidePerG float64
	}{
		{"tricaprylin", 8, 0, 357.59, 0.25492},
		{"trilaurin", 12, 0, 263.40, 0.18777},
		{"tripalmitin", 16, 0, 208.48, 0.14862},
		{"tristearin", 18, 0, 188.80, 0.13459},
		{"triolein", 18, 1, 190.09, 0.13551},
		{"trilinolein", 18, 2, 191.40, 0.13644},
		{"trierucin", 22, 1, 159.73, 0.11387},
	} {
		sv := 3 * 1000 * calc.MolarMassKOH / triglyceride(acid(c.carbons, c.bonds))
		near.To(t, c.name+" SV", sv, c.sv, 0.005)
		n := calc.AlkaliAsKOH([]calc.OilAmount{oil(1, c.sv)})
		got := calc.AlkaliNeeded(n, 0, 0, 1, calc.MolarMassNaOH, 1)
		near.To(t, c.name+" NaOH per g", got, c.hydroxidePerG, 0.00001)
	}
}

// Titrations, worked backwards from the saponification value that the source
// states to the reagent it says was used.
func TestTitrationsOfTextbooks(t *testing.T) {
	for _, c := range []struct {
		source    string
		oils      []calc.OilAmount
		grams     float64 // of KOH
		tolerance float64
	}{
		// 25.6 − 18.95 mL of N/1, with KOH taken as 56.1.
		{
			"Simmons & Appleton, The Handbook of Soap Manufacture (1908), saponification value 196.6",
			[]calc.OilAmount{oil(1.8976, 196.6)},
			6.65 * 56.1 / 1000, 0.0002,
		},
		// 5.2 mL of N/10; the book truncates 15.37 to 15.3.
		{
			"Simmons & Appleton (1908), acid value 15.3",
			[]calc.OilAmount{oil(1.8976, 15.3)},
			0.52 * 56.1 / 1000, 0.0002,
		},
		// 49.0 − 26.4 mL of 0.4 N on 2.5 g, with KOH taken as 56.
		{
			"textbook companion, page 3.33 example 1, saponification value 202.496",
			[]calc.OilAmount{oil(2.5, 202.496)},
			22.6 * 0.4 * 56 / 1000, 1e-6,
		},
		// 50 mL less 41.96 left over.
		{
			"textbook companion, page 3.34 example 3, saponification value 180",
			[]calc.OilAmount{oil(1, 180)},
			(50 - 41.96) * 0.4 * 56 / 1000, 0.0003,
		},
		// 89 % tristearin (molar mass 890, KOH 56) with an acid value of 7.
		{
			"school exercise, saponification number 175",
			[]calc.OilAmount{oil(0.89, 3*56_000/890.), oil(1, 7)},
			0.175, 1e-6,
		},
		// 3.572 L of 1 M KOH for 1 kg.
		{
			"school exercise, saponification number 200",
			[]calc.OilAmount{oil(1000, 200)},
			3.572 * 56, 0.1,
		},
	} {
		near.To(t, c.source, calc.AlkaliAsKOH(c.oils), c.grams, c.tolerance)
	}
}

// Soap and glycerol weigh what fat and alkali weighed. 890 kg of tristearin
// give 918 kg of sodium stearate and 92 kg of glycerol (school exercise with
// molar masses 890, 306 and 92), so they must have taken 120 kg.
func TestSoapMassBalance(t *testing.T) {
	n := calc.AlkaliAsKOH([]calc.OilAmount{oil(890, 3*1000*calc.MolarMassKOH/890)})
	near.Share(t, "NaOH kg", calc.AlkaliNeeded(n, 0, 0, 1, calc.MolarMassNaOH, 1), 918+92-890, 0.0002)
}

func TestAlkaliNeeded(t *testing.T) {
	const n, acids = 200.0, 10.0
	toNaOH := calc.MolarMassNaOH / calc.MolarMassKOH
	for _, c := range []struct {
		name                    string
		superfat, share, purity float64
		molarMass, want         float64
	}{
		{"the superfat spares the oils, not the acids", 0.05, 1, 1, calc.MolarMassKOH, 200},
		{"all alkali withheld leaves the acids'", 1, 1, 1, calc.MolarMassKOH, 10},
		{"purity is divided by", 0.05, 1, 0.8, calc.MolarMassKOH, 250},
		{"a share of a mixed alkali", 0.05, 0.25, 1, calc.MolarMassNaOH, 50 * toNaOH},
	} {
		got := calc.AlkaliNeeded(n, acids, c.superfat, c.share, c.molarMass, c.purity)
		near.To(t, c.name, got, c.want, 1e-9)
	}
}

func TestMoreOilNeverNeedsLessAlkali(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		oils := []calc.OilAmount{
			oil(rapid.Float64Range(0, 5000).Draw(t, "g1"), rapid.Float64Range(80, 280).Draw(t, "sv1")),
			oil(rapid.Float64Range(0, 5000).Draw(t, "g2"), rapid.Float64Range(80, 280).Draw(t, "sv2")),
		}
		superfat := rapid.Float64Range(0, 0.5).Draw(t, "superfat")
		before := calc.AlkaliNeeded(calc.AlkaliAsKOH(oils), 0, superfat, 1, calc.MolarMassNaOH, 0.98)
		oils[0].Grams = calc.Exactly(oils[0].Grams.Nominal + rapid.Float64Range(0, 1000).Draw(t, "more"))
		after := calc.AlkaliNeeded(calc.AlkaliAsKOH(oils), 0, superfat, 1, calc.MolarMassNaOH, 0.98)
		if after < before {
			t.Fatalf("alkali fell from %g to %g", before, after)
		}
	})
}
