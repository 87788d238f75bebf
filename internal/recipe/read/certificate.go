package read

import (
	"errors"
	"fmt"
	"strings"

	"bench/internal/calc"
	"bench/internal/quantity"
	"bench/internal/recipe"
)

// parseSV reads a certificate's saponification value: "191 mg/g", "191 ± 1.5
// mg/g", "191 mg/g ± 1 %". "+-" stands for the sign.
func parseSV(text string) (calc.Interval, error) {
	bad := func(why error) (calc.Interval, error) {
		return calc.Interval{}, fmt.Errorf("%q is not a saponification value: %w; write it like \"191 mg/g\", \"191 ± 1.5 mg/g\" or \"191 mg/g ± 1 %%\"", short(text), why)
	}
	value, spread, stated := strings.Cut(strings.ReplaceAll(text, "+-", "±"), "±")
	value, spread = strings.TrimSpace(value), strings.TrimSpace(spread)
	if stated && strings.HasSuffix(spread, "mg/g") {
		value = withUnit(value, "mg/g")
	}
	if !strings.HasSuffix(value, "mg/g") {
		return bad(errors.New("it is in mg of potassium hydroxide per g"))
	}
	sv, err := quantity.ParseRatio(value)
	if err != nil {
		return bad(err)
	}
	if !stated {
		return recipe.CertifiedSV(milligrams(sv), 0), nil
	}
	half, err := quantity.ParseRatio(spread)
	if err != nil {
		return bad(err)
	}
	width := milligrams(half)
	if strings.HasSuffix(spread, "%") {
		width = half.Fraction() * milligrams(sv)
	}
	if width <= 0 || width > milligrams(sv)/4 {
		return bad(errors.New("the spread is to be above zero and at most a quarter of the value"))
	}
	return recipe.CertifiedSV(milligrams(sv), width), nil
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
