package read

import (
	"fmt"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	"bench/internal/quantity"
	"bench/internal/recipe"
)

const (
	maxName = 60
	maxText = 2000
)

// text reads a scalar as it was written, whatever YAML takes it for.
func (r *reader) text(n *yaml.Node, p recipe.Path) (string, bool) {
	if n.Kind != yaml.ScalarNode {
		r.failf(n, p, "one value is expected here, not %s", kindOf(n))
		return "", false
	}
	text := strings.TrimSpace(strings.Join(strings.Fields(recipe.Clean(n.Value)), " "))
	if text == "" {
		r.failf(n, p, "the value is empty: fill it or delete the line")
		return "", false
	}
	if len([]rune(text)) > maxText {
		r.failf(n, p, "the text is longer than %d characters", maxText)
		return "", false
	}
	if strings.ContainsRune(text, '\ufffd') && !strings.ContainsRune(n.Value, '\ufffd') && n.Style&yaml.DoubleQuotedStyle != 0 {
		// The scan has seen what is written plainly, but not what is escaped.
		r.failf(n, p, "the text holds a character that cannot be shown: delete it")
		return text, false
	}
	return text, true
}

// line reads text that is only shown.
func (r *reader) line(n *yaml.Node, p recipe.Path) string {
	text, ok := r.text(n, p)
	if !ok {
		return ""
	}
	return text
}

// name reads the name of something, which takes part in task names and so
// holds no slash.
func (r *reader) name(n *yaml.Node, p recipe.Path) string {
	text, ok := r.text(n, p)
	switch {
	case !ok:
		return ""
	case len([]rune(text)) > maxName:
		r.failf(n, p, "the name is longer than %d characters", maxName)
		return ""
	case strings.Contains(text, "/"):
		r.failf(n, p, "a name cannot hold a slash: write %q", strings.ReplaceAll(text, "/", "-"))
		return ""
	}
	return text
}

// into gives a reader of one field.
func into[T any](target *T, read func(*yaml.Node, recipe.Path) T) func(*yaml.Node, recipe.Path) {
	return func(n *yaml.Node, p recipe.Path) { *target = read(n, p) }
}

// each gives a reader of a list.
func each[T any](r *reader, target *[]T, read func(*yaml.Node, recipe.Path) T) func(*yaml.Node, recipe.Path) {
	return func(n *yaml.Node, p recipe.Path) {
		r.items(n, p, func(n *yaml.Node, p recipe.Path) { *target = append(*target, read(n, p)) })
	}
}

// measure reads a scalar with one of quantity's parsers.
func measure[T any](r *reader, parse func(string) (T, error)) func(*yaml.Node, recipe.Path) T {
	return func(n *yaml.Node, p recipe.Path) T {
		var zero T
		text, ok := r.text(n, p)
		if !ok {
			return zero
		}
		v, err := parse(text)
		if err != nil {
			r.failf(n, p, "%v", err)
			return zero
		}
		return v
	}
}

// positive refuses zero where a field that is not wanted is left out instead.
func positive[T ~int64](parse func(string) (T, error)) func(string) (T, error) {
	return func(text string) (T, error) {
		v, err := parse(text)
		if err == nil && v == 0 {
			err = fmt.Errorf("%q must be above zero", text)
		}
		return v, err
	}
}

// choice reads one of a few words.
func choice[T ~string](r *reader, words ...T) func(*yaml.Node, recipe.Path) T {
	return func(n *yaml.Node, p recipe.Path) T {
		text, ok := r.text(n, p)
		if !ok {
			return ""
		}
		known := make([]string, len(words))
		for i, w := range words {
			if recipe.Fold(string(w)) == recipe.Fold(text) {
				return w
			}
			known[i] = string(w)
		}
		r.failf(n, p, "%q is not one of %s", short(text), strings.Join(known, ", "))
		return ""
	}
}

// count reads a whole number from 1 to 999.
func (r *reader) count(n *yaml.Node, p recipe.Path) int {
	text, ok := r.text(n, p)
	if !ok {
		return 0
	}
	v, err := strconv.Atoi(text)
	if err != nil || !plainNumber().MatchString(text) || v > 999 {
		r.failf(n, p, "%q is not a whole number from 1 to 999", short(text))
		return 0
	}
	return v
}

// rate is a share with what it is a share of.
type rate struct {
	value quantity.Ratio
	of    recipe.RateOf
}

// parseRate reads "4 g/kg", "3 % of oils" or "2 % of batter".
func parseRate(text string) (rate, error) {
	share, of, said := strings.Cut(text, " of ")
	v, err := positive(quantity.ParseRatio)(share)
	if err != nil {
		return rate{}, err
	}
	if !said {
		return rate{value: v}, nil
	}
	of = strings.TrimPrefix(strings.TrimSpace(of), "the ")
	switch recipe.RateOf(of) {
	case recipe.OfOils, recipe.OfBatter:
		return rate{v, recipe.RateOf(of)}, nil
	}
	return rate{}, fmt.Errorf("%q is a share of %q, and it can be of oils or of batter", text, short(of))
}

// ofOils reads a rate that can only be one of the oils.
func ofOils(text string) (quantity.Ratio, error) {
	v, err := parseRate(text)
	if err == nil && v.of == recipe.OfBatter {
		return 0, fmt.Errorf("%q: this rate is of the oils, as in \"4 g/kg\" or \"1 %% of oils\"", text)
	}
	return v.value, err
}
