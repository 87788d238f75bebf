// Package oils is the published table of oils, fats, waxes and fatty acids:
// saponification value, iodine value, density, melting point and fatty acids,
// with where each value comes from.
//
// The rule: no value without its flag and its source beside it. The table is
// embedded; nothing is read at run time. Names are the standards' own.
package oils

import "slices"

// Flag says how far a published value can be trusted.
type Flag string

// The flags, from the surest.
const (
	Found      Flag = "found"             // read in the source named
	SecondHand Flag = "found second-hand" // read where the source named is quoted
	Computed   Flag = "computed"          // from molar masses
	Mixed      Flag = "mixed"             // part read, part from memory; the source says which
	Memory     Flag = "memory"            // remembered from the source named
)

// Range is a published range with its source. The zero Range is an unknown
// value.
type Range struct {
	Low, High float64
	Flag      Flag
	Source    string
}

// Mid gives the midpoint, the nominal value where nothing better is known.
func (r Range) Mid() float64 { return (r.Low + r.High) / 2 }

// Known tells whether the table has a value.
func (r Range) Known() bool { return r.Flag != "" }

// AcidShare is a fatty acid's share of the fatty acids, in percent. Acid is
// "C18:1" for 18 carbons and one double bond; "C18:1-OH" is ricinoleic acid.
type AcidShare struct {
	Acid      string
	Low, High float64
}

// Composition is the fatty acids of an oil, shortest first.
type Composition struct {
	Acids  []AcidShare
	Flag   Flag
	Source string
}

// Oil is one row of the table.
type Oil struct {
	Key      string // what a recipe calls it
	Name     string
	INCI     string // as an ingredient
	SoapINCI string // as its sodium soap; empty where there is no usual name
	Names    Flag   // of the two INCI names: check them in CosIng before printing

	SV              Range   // saponification value, or acid value of a free acid, mg KOH/g
	IodineValue     Range   // g I₂ per 100 g
	RelativeDensity Range   // at DensityAt, against water at DensityWater
	DensityAt       float64 // °C
	DensityWater    float64 // °C; 4 °C makes it a density in g/mL
	Melts           Range   // °C; unknown for an oil that is liquid at 20 °C
	FattyAcids      Composition
	Note            string // empty, or full sentences
}

// roomC is the temperature at which an oil is called liquid or hard.
const roomC = 20

// Hard tells whether the oil may still be solid above 20 °C.
func (o Oil) Hard() bool { return o.Melts.Known() && o.Melts.High > roomC }

// clone shares nothing with the table.
func (o Oil) clone() Oil {
	o.FattyAcids.Acids = slices.Clone(o.FattyAcids.Acids)
	return o
}

// All gives the table, sorted by key. The copy is the caller's to change.
func All() []Oil {
	rows := table()
	out := make([]Oil, len(rows))
	for i, o := range rows {
		out[i] = o.clone()
	}
	return out
}

// ByKey finds an oil by its key.
func ByKey(key string) (Oil, bool) {
	rows := table()
	i, ok := slices.BinarySearchFunc(rows, key, compareKey)
	if !ok {
		return Oil{}, false
	}
	return rows[i].clone(), true
}
