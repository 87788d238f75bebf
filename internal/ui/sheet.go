package ui

import (
	"fmt"
	"strings"

	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/steps"
)

const (
	gram  = quantity.Gram
	tenth = quantity.Gram / 10

	hundredth = quantity.Gram / 100
)

// sheet is the worked plan in lines of at most w cells.
func (s setup) sheet(t Theme, w int) []string {
	var lines []string
	for _, p := range s.problems {
		lines = append(lines, hang(t.off.Render(signOff), clean(p), w)...)
	}
	if len(s.problems) > 0 {
		return lines
	}
	lines = append(lines, caution(t, w)...)
	for _, warning := range s.plan.Warnings {
		lines = append(lines, hang(t.off.Render(signOff), clean(warning), w)...)
	}
	for i, b := range s.plan.Batters {
		lines = append(lines, batterLines(t, s.plan, b, w)...)
		for _, words := range s.sure[i] {
			lines = append(lines, hang(" ", clean(words), w)...)
		}
	}
	for i := len(s.plan.Layers) - 1; i >= 0; i-- {
		lines = append(lines, layerLines(t, s.plan, i, s.control.Recipe.Layers[i].Embeds, w)...)
	}
	lines = append(lines, "", t.strong.Render("The order, and why"))
	for _, stage := range s.plan.Stages {
		head := fmt.Sprintf("%2d", stage.N)
		lines = append(lines, hang(t.quiet.Render(head), clean(stage.Title)+": "+clean(stage.Why), w)...)
	}
	return lines
}

// caution comes before everything else on the sheet.
func caution(t Theme, w int) []string {
	return hang(t.off.Render(signOff),
		"Lye burns skin and blinds eyes: goggles, gloves, long sleeves, fresh air. Water at hand. Alkali into water, never water into alkali. ! shows first aid. The supplier's safety data sheet and local rules come first.", w)
}

// hang wraps text behind a head, its later lines under its first.
func hang(head, text string, w int) []string {
	indent := width(head) + 1
	var lines []string
	for i, l := range wrap(text, w-indent) {
		if i == 0 {
			lines = append(lines, head+" "+l)
		} else {
			lines = append(lines, spaces(indent)+l)
		}
	}
	return lines
}

func batterLines(t Theme, p steps.Plan, b steps.Batter, w int) []string {
	lines := []string{"", t.strong.Render("Batter "+clean(b.Name)) + t.quiet.Render(fmt.Sprintf(
		"   %s g   %.3f g/ml   mix at %s   lye concentration %.1f %%", b.Mass.At(gram), b.Density, b.MixAt, 100*b.Concentration))}
	var amounts []string
	for _, list := range [][]steps.Amount{b.Oils, b.Alkali, {b.Water}, b.Additives} {
		for _, a := range list {
			amounts = append(amounts, amountCell(p, a))
		}
	}
	lines = append(lines, columns(amounts, w)...)
	f := b.Superfat
	band := fmt.Sprintf("superfat %.1f %%, between %.1f and %.1f", f.Percent, f.Low, f.High)
	return append(lines, "  "+band+t.quiet.Render(fmt.Sprintf("   at the very worst %.1f to %.1f", f.WorstLow, f.WorstHigh)))
}

// amountCell shows an amount at what its scale reads to.
func amountCell(p steps.Plan, a steps.Amount) string {
	reads := tenth
	if t, _, ok := p.Task(a.Task); ok && t.Reads > 0 {
		reads = t.Reads
	}
	return "  " + fit(clean(a.Name), 24) + right(a.Target.At(reads), 9) + " g"
}

// columns sets cells in as many columns as fit, down and then across.
func columns(cells []string, w int) []string {
	if len(cells) == 0 {
		return nil
	}
	n := max(1, (w+2)/(width(cells[0])+2))
	rows := (len(cells) + n - 1) / n
	lines := make([]string, rows)
	for i, c := range cells {
		lines[i%rows] += c + "  "
	}
	return lines
}

// layerLines says where a layer is poured to, and where its scent goes and why.
func layerLines(t Theme, p steps.Plan, i int, embeds []recipe.Embed, w int) []string {
	l, where := p.Layers[i], "above"
	if i == 0 {
		where = "on the floor"
	}
	lines := []string{
		"", t.strong.Render("Layer "+clean(l.Name)) + t.quiet.Render(fmt.Sprintf("   %s, of %s, at %s trace   %s g", where, clean(l.Batter), l.Trace, l.Mass.At(gram))),
	}
	lines = append(lines, hang(" ", fmt.Sprintf("pour to %s (%s down from the rim); finished surface %s",
		toAnEye(l.PourLine), toAnEye(l.Rim), toAnEye(l.Surface)), w)...)
	for _, e := range embeds {
		lines = append(lines, hang(" ", embedWords(e), w)...)
	}
	var amounts []string
	for _, c := range l.Colours {
		amounts = append(amounts, amountCell(p, c))
	}
	lines = append(lines, columns(amounts, w)...)
	for _, s := range l.Scents {
		lines = append(lines, amountCell(p, s.Amount)+"  "+portions(s))
	}
	if len(l.Scents) > 0 && l.PlaceWhy != "" {
		lines = append(lines, hang(" ", clean(placeWord(l.Place)+": "+l.PlaceWhy), w)...)
	}
	return lines
}

// toAnEye rounds a length to what an eye can pour to, as the tasks do.
func toAnEye(l quantity.Length) quantity.Length { return l.RoundTo(quantity.Millimetre / 2) }

// embedWords says what is pressed into a layer, how large, and where it ends up.
func embedWords(e recipe.Embed) string {
	size := fmt.Sprintf("%s by %s", e.Width, e.Height)
	if e.Shape == recipe.Circle {
		size = e.Width.String() + " across"
	}
	return fmt.Sprintf("embed %s: %s, %s; its middle %s from the left wall, its lowest point %s under the finished surface",
		clean(e.Name), e.Shape, size, e.Across, e.Sink)
}

func portions(s steps.Scent) string {
	if s.Place != recipe.InPortions || len(s.Portions) < 2 {
		return ""
	}
	parts := make([]string, len(s.Portions))
	for i, m := range s.Portions {
		parts[i] = m.At(hundredth)
	}
	return "= " + strings.Join(parts, " + ")
}

func placeWord(p recipe.Place) string {
	switch p {
	case recipe.InWarmOils:
		return "scented in the warm oils"
	case recipe.InPot:
		return "scented in the pot"
	case recipe.InPortions:
		return "scented portion by portion"
	case recipe.PlaceDerived:
	}
	return "scent"
}
