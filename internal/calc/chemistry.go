// Package calc is the trade's arithmetic: alkali, superfat, lye solution,
// density, splitting, tolerances and the geometry of a loaf.
//
// The rule: pure functions of float64 in the unit that the name or the comment
// says (grams, millimetres, degrees Celsius, fractions of 1), each with the
// source of its formula. What must be exact (a split) works on quantity.Mass.
// Rounding to what a scale reads to is the caller's.
package calc

// Molar masses in g/mol, from the CIAAW abridged atomic weights (from memory:
// H 1.008, O 15.999, Na 22.98976928; K 39.0983 read in the IUPAC 1995 table).
const (
	MolarMassNaOH = 39.997
	MolarMassKOH  = 56.105
)

// AlkaliAsKOH gives N, the grams of potassium hydroxide that saponify the oils
// whole: N = Σ m·SV/1000, at the nominal masses and saponification values
// (definition of the saponification value, ISO 3657).
func AlkaliAsKOH(oils []OilAmount) float64 {
	var n float64
	for _, o := range oils {
		n += o.Grams.Nominal * o.SV.Nominal / 1000
	}
	return n
}

// AlkaliNeeded gives the grams of one alkali to weigh. The superfat withholds
// alkali from the oils only: acids react whole, so all alkalis together are
// N·(1−superfat) + acids, of which this one is the given share. Superfat,
// share and purity are fractions of 1; acids and N are in grams of KOH.
func AlkaliNeeded(nKOHGrams, acidsKOHGrams, superfat, share, molarMass, purity float64) float64 {
	asKOH := (nKOHGrams*(1-superfat) + acidsKOHGrams) * share
	return asKOH * molarMass / MolarMassKOH / purity
}
