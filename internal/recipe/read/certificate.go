package read

import (
	"cmp"
	"errors"
	"fmt"
	"strconv"
	"strings"

	"bench/internal/calc"
	"bench/internal/quantity"
	"bench/internal/recipe"
)

// parseSV reads a saponification value, in mg of potassium hydroxide per g unless
// it says NaOH: "191 mg/g", "191 ± 1.5 mg/g", "191 mg/g ± 1 %", "185 to 196 mg/g",
// "136 mg/g NaOH". "+-" stands for the sign.
func parseSV(text string) (calc.Interval, error) {
	stated, factor := strings.TrimSuffix(text, "KOH"), 1.0
	if soda, ok := strings.CutSuffix(text, "NaOH"); ok {
		stated, factor = soda, calc.MolarMassKOH/calc.MolarMassNaOH
	}
	sv, err := statedSV(strings.ReplaceAll(stated, "+-", "±"))
	if err == nil && !strings.Contains(stated, "mg/g") {
		err = errors.New("it is in mg of hydroxide per g of oil, so that 0.136 is \"136 mg/g NaOH\"")
	}
	if err != nil {
		return calc.Interval{}, fmt.Errorf("%q is not a saponification value: %w; write it like \"191 mg/g\", \"191 ± 1.5 mg/g\", \"185 to 196 mg/g\" or \"136 mg/g NaOH\"", short(text), err)
	}
	return calc.Interval{Low: sv.Low * factor, Nominal: sv.Nominal * factor, High: sv.High * factor}, nil
}

// statedSV reads a value with its spread, or a range.
func statedSV(text string) (calc.Interval, error) {
	if low, high, ranged := strings.Cut(text, " to "); ranged {
		from, err := oneSV(low)
		to, errHigh := oneSV(high)
		if err = cmp.Or(err, errHigh); err == nil && !(from < to && to-from <= (from+to)/4) {
			err = errors.New("a range goes from the lower value to the higher one, at most a quarter to either side of its middle")
		}
		return calc.Published(from, to), err
	}
	value, spread, stated := strings.Cut(text, "±")
	sv, err := oneSV(value)
	if err != nil || !stated {
		return recipe.CertifiedSV(sv, 0), err
	}
	width := 0.0
	if part, share := strings.CutSuffix(strings.TrimSpace(spread), "%"); share {
		ratio, errPart := quantity.ParseRatio(part + "%")
		width, err = ratio.Fraction()*sv, errPart
	} else {
		width, err = oneSV(spread)
	}
	if err == nil && !(width > 0 && width <= sv/4) {
		err = errors.New("the spread is to be above zero and at most a quarter of the value")
	}
	return recipe.CertifiedSV(sv, width), err
}

// oneSV reads a number in mg/g, with the unit or without it.
func oneSV(text string) (float64, error) {
	number := strings.TrimSuffix(strings.TrimSpace(text), "mg/g")
	v, err := quantity.ParseRatio(strings.TrimSpace(number) + " mg/g")
	return milligrams(v), err
}

// parseMelts reads where an oil is clear, as far as soap oils and waxes go.
func parseMelts(text string) (quantity.Temperature, error) {
	t, err := quantity.ParseTemperature(text)
	if err == nil && (t == 0 || t > 100*quantity.Degree) {
		return 0, fmt.Errorf("%q is not where an oil melts: give a temperature up to 100 °C, or leave it out for one that is liquid", short(text))
	}
	return t, err
}

// parseOilDensity reads "0.915 g/mL", at 20 °C.
func parseOilDensity(text string) (float64, error) {
	v, err := parseDensity(text)
	if err != nil || !(v >= 0.8 && v <= 1.1) {
		return 0, fmt.Errorf("%q is not the density of an oil: write it like \"0.915 g/mL\", at 20 °C", short(text))
	}
	return v, nil
}

// parseDensity reads a number of g/mL.
func parseDensity(text string) (float64, error) {
	number, ok := strings.CutSuffix(strings.ToLower(text), "g/ml")
	if !ok {
		return 0, errors.New("the unit is missing")
	}
	return strconv.ParseFloat(strings.Replace(strings.TrimSpace(number), ",", ".", 1), 64)
}

// parseRoom reads how warm the workshop is, within what people work in.
func parseRoom(text string) (quantity.Temperature, error) {
	t, err := quantity.ParseTemperature(text)
	if err == nil && (t < 5*quantity.Degree || t > 45*quantity.Degree) {
		return 0, fmt.Errorf("%q is no room to work in: give a temperature from 5 to 45 °C", short(text))
	}
	return t, err
}

// milligrams gives a ratio in mg/g.
func milligrams(r quantity.Ratio) float64 { return 1000 * r.Fraction() }
