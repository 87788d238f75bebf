package read

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"bench/internal/calc"
	"bench/internal/quantity"
	"bench/internal/recipe"
)

// parseWater reads "33 %" (lye concentration), "2:1" (water to alkali) or
// "30 % of oils".
func parseWater(text string) (calc.WaterRule, error) {
	bad := func(why error) (calc.WaterRule, error) {
		return calc.WaterRule{}, fmt.Errorf("%q is not an amount of water: %w; write it like \"33 %%\" (lye concentration), \"2:1\" (water to alkali) or \"30 %% of oils\"", short(text), why)
	}
	if m := colon().FindStringSubmatch(text); m != nil {
		water, alkali := decimal(m[1]), decimal(m[2])
		if water == 0 || alkali == 0 {
			return bad(errors.New("neither side can be zero"))
		}
		return calc.WaterRule{Kind: calc.ByWaterPerAlkali, Value: water / alkali}, nil
	}
	share, of, said := strings.Cut(text, " of ")
	v, err := quantity.ParseRatio(share)
	switch {
	case err != nil:
		return bad(errors.New("it is neither a share nor a ratio"))
	case v == 0:
		return bad(errors.New("it must be above zero"))
	case said && strings.TrimSpace(of) != "oils":
		return bad(fmt.Errorf("it can be of oils, not of %q", short(of)))
	case said:
		return calc.WaterRule{Kind: calc.ByWaterOfOils, Value: v.Fraction()}, nil
	case v >= quantity.Whole:
		return bad(errors.New("a lye concentration is below 100 %"))
	}
	return calc.WaterRule{Kind: calc.ByLyeConcentration, Value: v.Fraction()}, nil
}

// decimal reads what the expression colon let through.
func decimal(text string) float64 {
	v, err := strconv.ParseFloat(strings.Replace(text, ",", ".", 1), 64)
	if err != nil {
		return math.NaN()
	}
	return v
}

// outline is the shape of an embed with its size.
type outline struct {
	shape         recipe.Shape
	width, height quantity.Length
}

// parseShape reads "circle 30 mm", "ellipse 40 mm x 24 mm" or "rectangle 20 x
// 30 mm", the width before the height.
func parseShape(text string) (outline, error) {
	bad := func(why error) (outline, error) {
		return outline{}, fmt.Errorf("%q is not a shape: %w; write it like \"circle 30 mm\", \"ellipse 40 mm x 24 mm\" or \"rectangle 20 mm x 30 mm\" (width x height)", short(text), why)
	}
	word, size, _ := strings.Cut(text, " ")
	shape := recipe.Shape(strings.ToLower(word))
	sides := times().Split(strings.TrimSpace(size), -1)
	want := 2
	switch shape {
	case recipe.Polygon, recipe.PathShape:
		if size != "" {
			return bad(fmt.Errorf("%s takes its size from its outline", withArticle(shape)))
		}
		return outline{shape: shape}, nil
	case recipe.Circle:
		want = 1
	case recipe.Ellipse, recipe.Rectangle:
	default:
		return bad(fmt.Errorf("%q is neither circle, ellipse, rectangle, polygon nor path", short(word)))
	}
	if len(sides) != want {
		return bad(fmt.Errorf("%s has %s", withArticle(shape), map[int]string{1: "one size", 2: "two sizes"}[want]))
	}
	last := sides[len(sides)-1]
	height, err := quantity.ParseLength(last)
	if err != nil {
		return bad(err)
	}
	width := height
	if want == 2 {
		if width, err = quantity.ParseLength(withUnit(sides[0], last)); err != nil {
			return bad(err)
		}
	}
	if width == 0 || height == 0 {
		return bad(errors.New("a size of zero is no shape"))
	}
	return outline{shape, width, height}, nil
}

// withUnit lends a bare number the unit of another text, as in "20 x 30 mm".
func withUnit(side, other string) string {
	if strings.Trim(side, "0123456789.,") == "" {
		return side + " " + strings.TrimLeft(other, "0123456789., ")
	}
	return side
}

func withArticle(s recipe.Shape) string {
	if s == recipe.Ellipse {
		return "an ellipse"
	}
	return "a " + string(s)
}

// parseLooks reads a shade as six hexadecimal digits. The "#" is left out in a
// document, because YAML takes it for the start of a comment.
func parseLooks(text string) (string, error) {
	if !hexColour().MatchString(text) {
		return "", fmt.Errorf("%q is not a shade: write six hexadecimal digits (red, green, blue), as in \"1f3a5f\"", short(text))
	}
	return "#" + strings.ToLower(strings.TrimPrefix(text, "#")), nil
}
