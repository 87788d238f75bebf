package quantity

import (
	"math"
	"strconv"
	"strings"
)

// Length is a length in whole micrometres.
type Length int64

// Units of length. An inch is 25.4 mm exactly (16 CFR 500.19).
const (
	Micrometre Length = 1
	Millimetre Length = 1_000
	Centimetre Length = 10_000
	Inch       Length = 25_400
)

// Millimetres gives the length as a floating-point number of millimetres.
func (l Length) Millimetres() float64 { return float64(l) / float64(Millimetre) }

// FromMillimetres rounds mm millimetres to the nearest micrometre.
func FromMillimetres(mm float64) Length { return Length(math.Round(mm * float64(Millimetre))) }

// RoundTo gives the nearest multiple of step, for lengths of zero or more.
func (l Length) RoundTo(step Length) Length {
	if step <= 0 {
		return l
	}
	return (l + step/2) / step * step
}

// String shows the length in millimetres, to the nearest tenth and half a tenth up,
// without idle zeros.
func (l Length) String() string {
	s := strconv.FormatFloat(math.Round(10*l.Millimetres())/10, 'f', 1, 64)
	return strings.TrimSuffix(s, ".0") + " mm"
}

// Volume is a volume in whole microlitres, which are cubic millimetres.
type Volume int64

// Units of volume.
const (
	Microlitre Volume = 1
	Millilitre Volume = 1_000
	Litre      Volume = 1_000_000
)

// Millilitres gives the volume as a floating-point number of millilitres.
func (v Volume) Millilitres() float64 { return float64(v) / float64(Millilitre) }

// FromMillilitres rounds ml millilitres to the nearest microlitre.
func FromMillilitres(ml float64) Volume { return Volume(math.Round(ml * float64(Millilitre))) }
