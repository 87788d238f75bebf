package read

import (
	"fmt"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	"bench/internal/quantity"
	"bench/internal/recipe"
)

func (r *reader) label(n *yaml.Node, p recipe.Path) recipe.LabelWords {
	var l recipe.LabelWords
	r.mapping(n, p, fields{
		"product":       into(&l.Product, r.line),
		"keeps":         into(&l.Keeps, measure(r, parseMonths)),
		"after opening": into(&l.AfterOpening, measure(r, parseMonths)),
		"cautions":      into(&l.Cautions, r.line),
	})
	return l
}

// parts reads a mapping from names to shares.
func (r *reader) parts(into *[]recipe.Part) func(*yaml.Node, recipe.Path) {
	return func(n *yaml.Node, p recipe.Path) {
		r.shares(n, p, func(name string, share quantity.Ratio) {
			*into = append(*into, recipe.Part{Name: name, Share: share})
		})
	}
}

// maxMonths is ten years: nobody vouches for soap for longer.
const maxMonths = 120

// parseMonths reads "24 months". Dates on a label are counted in months, which
// no number of days is.
func parseMonths(text string) (int, error) {
	number, unit, _ := strings.Cut(text, " ")
	n, err := strconv.Atoi(number)
	if err != nil || strings.HasPrefix(number, "0") || strings.HasPrefix(number, "+") || n < 1 || n > maxMonths || strings.TrimSuffix(strings.TrimSpace(unit), "s") != "month" {
		return 0, fmt.Errorf("%q is not a number of months: write it like \"24 months\", %d at most", short(text), maxMonths)
	}
	return n, nil
}
