package quantity

import (
	"fmt"
	"math/big"
	"strings"
	"time"
)

var lengths = kind{ //nolint:gochecknoglobals // A table that nothing writes to.
	noun:    "a length",
	example: `"38 mm", "3.2 cm" or "1.5 in"`,
	max:     int64(MaxLength),
	maxText: "10 m",
	units: spell(map[unit][]string{
		{int64(Millimetre), 1}: {"mm"},
		{int64(Centimetre), 1}: {"cm"},
		{int64(Inch), 1}:       {"in", "inch", "inches", "″", `"`},
	}),
	hints: map[string]string{"m": "metres are not used for moulds"},
}

// ParseLength reads a length with its unit: mm, cm or in.
func ParseLength(text string) (Length, error) {
	n, err := lengths.parse(text)
	return Length(n), err
}

var ratios = kind{ //nolint:gochecknoglobals // A table that nothing writes to.
	noun:    "a share",
	example: `"33 %", "3 g/kg" or "876 mg/g"`,
	max:     int64(MaxRatio),
	maxText: "1000 %",
	units: spell(map[unit][]string{
		{int64(Percent), 1}:     {"%", "percent", "per cent"},
		{int64(GramPerKilo), 1}: {"g/kg", "mg/g"},
	}),
	hints: map[string]string{
		"‰": `write "g/kg" for per mille`, "g": `a share needs "g/kg" or "%"`,
		"tsp": "a teaspoon is a volume, and bench weighs", "tbsp": "a tablespoon is a volume, and bench weighs",
		"ppm": `write "mg/g" or "g/kg" instead of ppm`,
	},
}

// ParseRatio reads a share with its unit: %, g/kg or mg/g.
func ParseRatio(text string) (Ratio, error) {
	n, err := ratios.parse(text)
	return Ratio(n), err
}

// thermometers are the units of temperature. Those of Fahrenheit are counted in
// eighteenths of a thousandth of a degree Celsius; see ParseTemperature.
var thermometers = kind{ //nolint:gochecknoglobals // A table that nothing writes to.
	noun:    "a temperature",
	example: `"35 °C" or "95 °F"`,
	units: spell(map[unit][]string{
		celsius:    {"°c", "c", "ºc", "℃"},
		fahrenheit: {"°f", "f", "ºf", "℉"},
	}),
	hints: map[string]string{"°": `say which degree, "°C" or "°F"`, "k": `write "°C" instead of kelvin`},
}

var celsius, fahrenheit = unit{1000, 1}, unit{5000, 9} //nolint:gochecknoglobals // Two constants that Go cannot spell as such.

// ParseTemperature reads a temperature with its unit, °C or °F, from freezing
// point up to MaxTemperature.
func ParseTemperature(text string) (Temperature, error) {
	k := thermometers
	parts, err := k.split(text)
	if err != nil {
		return 0, k.errorf(text, "%w", err)
	}
	u := k.units[parts[0].unit]
	if len(parts) > 1 {
		return 0, k.errorf(text, "it is one number")
	}
	n := parts[0].number
	if u == fahrenheit {
		n.Sub(n, ratOf(32))
	}
	if n.Sign() < 0 {
		return 0, k.errorf(text, "below the freezing point of water")
	}
	whole := round(n.Mul(n, big.NewRat(u.num, u.den)))
	if !whole.IsInt64() || whole.Int64() > int64(MaxTemperature) {
		return 0, k.errorf(text, "hotter than %s", MaxTemperature)
	}
	return Temperature(whole.Int64()), nil
}

var durations = kind{ //nolint:gochecknoglobals // A table that nothing writes to.
	noun:    "a time",
	example: `"24 h", "1 h 30 min" or "2 days"`,
	max:     int64(MaxDuration),
	maxText: "two years",
	units: spell(map[unit][]string{
		{int64(time.Minute), 1}:        {"min", "minute", "minutes"},
		{int64(time.Hour), 1}:          {"h", "hour", "hours"},
		{24 * int64(time.Hour), 1}:     {"d", "day", "days"},
		{7 * 24 * int64(time.Hour), 1}: {"week", "weeks"},
	}),
	below: map[string]int64{
		"min": 60, "minute": 60, "minutes": 60, "h": 24, "hour": 24, "hours": 24, "d": 7, "day": 7, "days": 7,
	},
	hints: map[string]string{"m": `say "min" for minutes`, "s": "seconds are not used", "hr": `write "h" for hours`, "hrs": `write "h" for hours`},
}

// ParseDuration reads a time with its unit: min, h, days or weeks, or two of
// them in a row. Days and weeks are of 24 and 168 hours.
func ParseDuration(text string) (time.Duration, error) {
	n, err := durations.parse(text)
	return time.Duration(n), err
}

// spell turns a table of units with their spellings round. It panics on a
// spelling given twice, which only a mistake in this package can cause.
func spell(table map[unit][]string) map[string]unit {
	units := make(map[string]unit)
	for u, names := range table {
		for _, name := range names {
			if _, twice := units[name]; twice {
				panic(fmt.Sprintf("quantity: unit %q is spelt twice", name))
			}
			units[name] = u
		}
	}
	return units
}

func ratOf(n int64) *big.Rat { return new(big.Rat).SetInt64(n) }

func trim(text string) string { return strings.TrimSpace(text) }
