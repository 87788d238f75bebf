package paper

import (
	"fmt"

	"bench/internal/label"
)

// LabelText writes a label for reading, with what is open and what the maker
// should know.
func LabelText(l label.Label) string {
	var p page
	p.linef("%s", l.Product)
	if l.Function != "" {
		p.linef("%s", l.Function)
	}
	p.linef("")
	p.linef("%s", l.Plainly())
	p.linef("")
	if l.Cautions != "" {
		for _, line := range wrapped(l.Cautions, 78) {
			p.linef("%s", line)
		}
		p.linef("")
	}
	p.linef("%s", dash(l.NetText))
	p.linef("%s", batchWords(l.Batch))
	switch {
	case l.Durability.Months > 0:
		p.linef("Period after opening: %dM", l.Durability.Months)
	case l.Durability.Words != "":
		p.linef("%s", l.Durability.Words)
	}
	for _, line := range l.Responsible {
		p.linef("%s", line)
	}
	p.linef("")
	p.linef("%-44s %10s %8s  from", "ingredient, in this order", "g", "%")
	sum := int64(0)
	for _, g := range l.Ingredients {
		p.ingredient(g)
		sum += g.Percent
	}
	p.linef("%-44s %10s %8s", "together", "", hundredths(sum))
	p.linef("")
	p.points("OPEN, so that this is a proof", l.Open)
	p.points("RELEASED ALL THE SAME, and not on the label", l.Over)
	p.points("NOTES", l.Notes)
	return p.String()
}

// ingredient writes one line of the list; in brackets stands what it may be where it
// is counted with another.
func (p *page) ingredient(g label.Ingredient) {
	mass, percent, from := fmt.Sprintf("%.1f", g.Grams), hundredths(g.Percent), g.From
	if g.Within != "" {
		from += ", in " + g.Within
		if g.Grams == 0 {
			mass, percent = fmt.Sprintf("(%.1f)", g.Most), "-"
		}
	}
	p.linef("%-44s %10s %8s  %s", g.Name, mass, percent, from)
}

// hundredths writes hundredths of a per cent.
func hundredths(n int64) string { return fmt.Sprintf("%d.%02d", n/100, n%100) }

// points writes a list of sentences, wrapped.
func (p *page) points(title string, list []string) {
	if len(list) == 0 {
		return
	}
	p.linef("%s", title)
	for _, words := range list {
		lead := "- "
		for _, line := range wrapped(words, 76) {
			p.linef("%s%s", lead, line)
			lead = "  "
		}
	}
}
