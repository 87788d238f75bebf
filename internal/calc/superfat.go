package calc

import (
	"math"
	"slices"
)

// OilAmount is an oil, fat, wax or fatty acid that saponifies. SV is the
// saponification value in mg KOH per g.
type OilAmount struct {
	Name  string
	Grams Interval
	SV    Interval
}

// AlkaliAmount is an alkali as weighed. Purity is a fraction of 1, MolarMass
// is in g/mol.
type AlkaliAmount struct {
	Name      string
	Grams     Interval
	Purity    Interval
	MolarMass float64
}

// Superfat is the share of alkali withheld, in percent, with its band (k = 2)
// and with the worst case, all inputs at their ends at once. Always
// WorstLow ≤ Low ≤ Percent ≤ High ≤ WorstHigh.
type Superfat struct{ Percent, Low, High, WorstLow, WorstHigh float64 }

// Input says what about an ingredient is uncertain.
type Input string

// The inputs of a superfat band.
const (
	InputMass   Input = "mass"
	InputSV     Input = "saponification value"
	InputPurity Input = "purity"
)

// Contribution is one input's share of the band's variance.
type Contribution struct {
	Name  string // of the ingredient
	Input Input
	Share float64 // fraction of 1
}

// CoverageFactor widens a standard uncertainty: k = 2, about 95 % (JCGM 100:2008, 6.3.3).
const CoverageFactor = 2

// SuperfatBand gives the superfat s = 1 − (A − acids)/N, its band, and what
// widens the band, largest first. The combined standard uncertainty is
// u(s)² = ((A−acids)/N²)²·u(N)² + u(A)²/N² (GUM, JCGM 100:2008, 5.1.2).
//
// An input whose nominal value is not its midpoint (a purity that was never
// stated: counted as 100 %, really 95 to 100 %) is believed and doubted in
// turn: one band lets it vary about its nominal value as far as the nearer end,
// another about its midpoint (JCGM 100:2008, 4.3.8), and the result covers
// both. So an unstated purity moves the upper end and leaves the lower one. The
// first counts one input less, so that one or two flat ones may rule it; it takes
// the factor that covers 95 % then, or both together would be wider than needed.
//
// Both ends are clipped to the worst case: for one dominant oil 2u = 1.155·a
// would be wider than possible. Without oils there is no superfat, and the
// zero values are returned.
func SuperfatBand(oils []OilAmount, alkalis []AlkaliAmount, acidsKOHGrams float64) (Superfat, []Contribution) {
	b := balance{oils, alkalis, acidsKOHGrams}
	nominal, ok := b.superfat(func(i Interval) float64 { return i.Nominal })
	if !ok {
		return Superfat{}, nil
	}
	lowest, highest := b.worst(nominal)

	believed := b.terms(func(i Interval) (float64, float64) { return i.Nominal, i.nearEnd() })
	doubted := b.terms(func(i Interval) (float64, float64) { return i.mid(), i.uncertainty() })
	centre, _ := b.superfat(Interval.mid)

	k := coverage(believed)
	u, v := k*combined(believed), CoverageFactor*combined(doubted)
	low, high := math.Min(nominal-u, centre-v), math.Max(nominal+u, centre+v)
	if k < CoverageFactor { // That leaves no room for the curve of A/N.
		low = math.Min(low, b.curved(nominal, u, believed))
	}
	return Superfat{
		Percent:  100 * nominal,
		Low:      100 * math.Max(low, lowest),
		High:     100 * math.Min(high, highest),
		WorstLow: 100 * lowest, WorstHigh: 100 * highest,
	}, shares(doubted)
}

// LowestSuperfat gives the smallest superfat, in percent, that keeps the band's
// lower end at or above zero for these oils. The alkalis' weights say only in
// what proportion they are used and how far their weighing leaves them open;
// they are scaled to each superfat that is tried.
func LowestSuperfat(oils []OilAmount, alkalis []AlkaliAmount, acidsKOHGrams float64) float64 {
	var have float64
	for _, a := range alkalis {
		have += a.Grams.Nominal * a.Purity.Nominal * MolarMassKOH / a.MolarMass
	}
	need := AlkaliAsKOH(oils)
	if need <= 0 || have <= 0 {
		return 0
	}
	low := func(superfat float64) float64 {
		wanted := need*(1-superfat) + acidsKOHGrams
		band, _ := SuperfatBand(oils, scaled(alkalis, wanted/have), acidsKOHGrams)
		return band.Low
	}
	if low(0) >= 0 {
		return 0
	}
	short, enough := 0.0, 1.0
	for range 50 { // halving 1 fifty times leaves less than a float can tell
		if try := (short + enough) / 2; low(try) < 0 {
			short = try
		} else {
			enough = try
		}
	}
	return 100 * enough
}

// scaled multiplies the weights and keeps what the scale leaves open about them.
func scaled(alkalis []AlkaliAmount, factor float64) []AlkaliAmount {
	out := slices.Clone(alkalis)
	for i := range out {
		shift := out[i].Grams.Nominal * (factor - 1)
		g := &out[i].Grams
		g.Low, g.Nominal, g.High = math.Max(0, g.Low+shift), g.Nominal+shift, g.High+shift
	}
	return out
}
