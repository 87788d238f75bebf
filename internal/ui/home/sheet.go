package home

import (
	"fmt"
	"slices"
	"strings"

	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/reply"
	"bench/internal/steps"
	"bench/internal/ui/ink"
)

const (
	gram  = quantity.Gram
	tenth = quantity.Gram / 10
)

// sheet is the worked plan in lines of at most w cells.
func (s Setup) sheet(t ink.Theme, w int) []string {
	var lines []string
	for _, p := range s.problems {
		lines = append(lines, ink.Hang(t.Off.Render(ink.SignOff), ink.Clean(p), w)...)
	}
	if len(s.problems) > 0 {
		return lines
	}
	lines = append(lines, caution(t, w)...)
	for _, warning := range slices.Concat(s.plan.Clashes(s.beside), s.plan.Warnings) {
		lines = append(lines, ink.Hang(t.Off.Render(ink.SignOff), ink.Clean(warning), w)...)
	}
	for i, b := range s.plan.Batters {
		lines = append(lines, batterLines(t, s.plan, b, w)...)
		for _, words := range s.sure[i] {
			lines = append(lines, ink.Hang(" ", ink.Clean(words), w)...)
		}
	}
	for i := len(s.plan.Layers) - 1; i >= 0; i-- {
		lines = append(lines, layerLines(t, s.plan, i, s.control.Recipe.Layers[i].Embeds, w)...)
	}
	for _, p := range s.control.Sticks {
		lines = append(lines, stickLines(t, p, w)...)
	}
	lines = append(lines, "", t.Strong.Render("The order, and why"))
	for _, stage := range s.plan.Stages {
		head := fmt.Sprintf("%2d", stage.N)
		lines = append(lines, ink.Hang(t.Quiet.Render(head), ink.Clean(stage.Title)+": "+ink.Clean(stage.Why), w)...)
	}
	return lines
}

// caution comes before everything else on the sheet.
func caution(t ink.Theme, w int) []string {
	return ink.Hang(t.Off.Render(ink.SignOff),
		reply.Caution, w)
}

func batterLines(t ink.Theme, p steps.Plan, b steps.Batter, w int) []string {
	lines := []string{"", t.Strong.Render("Batter "+ink.Clean(b.Name)) + t.Quiet.Render(fmt.Sprintf(
		"   %s g   %.3f g/ml   mix at %s   lye concentration %.1f %%", b.Mass.At(gram), b.Density, b.MixAt, 100*b.Concentration))}
	var amounts []string
	for _, list := range [][]steps.Amount{b.Oils, b.Alkali, {b.Water}, b.Additives} {
		for _, a := range list {
			amounts = append(amounts, amountCell(p, a))
		}
	}
	lines = append(lines, ink.Columns(amounts, w)...)
	f := b.Superfat
	band := fmt.Sprintf("superfat %.1f %%, between %.1f and %.1f", f.Percent, f.Low, f.High)
	return append(lines, "  "+band+t.Quiet.Render(fmt.Sprintf("   at the very worst %.1f to %.1f", f.WorstLow, f.WorstHigh)))
}

// amountCell shows an amount at what its scale reads to.
func amountCell(p steps.Plan, a steps.Amount) string {
	reads := tenth
	if t, _, ok := p.Task(a.Task); ok && t.Reads > 0 {
		reads = t.Reads
	}
	return "  " + ink.Fit(ink.Clean(a.Name), 24) + ink.Right(a.Target.Reading(reads), 11)
}

// layerLines says where a layer is poured to, and where its scent goes and why.
func layerLines(t ink.Theme, p steps.Plan, i int, embeds []recipe.Embed, w int) []string {
	l, where := p.Layers[i], "above"
	if i == 0 {
		where = "on the floor"
	}
	lines := []string{
		"", t.Strong.Render("Layer "+ink.Clean(l.Name)) + t.Quiet.Render(fmt.Sprintf("   %s, of %s, at %s trace   %s g", where, ink.Clean(l.Batter), l.Trace, l.Mass.At(gram))),
	}
	lines = append(lines, ink.Hang(" ", pourWords(p, l), w)...)
	for _, e := range embeds {
		lines = append(lines, ink.Hang(" ", embedWords(e), w)...)
	}
	var amounts []string
	for _, c := range l.Colours {
		amounts = append(amounts, amountCell(p, c))
	}
	lines = append(lines, ink.Columns(amounts, w)...)
	for _, s := range l.Scents {
		amount := amountCell(p, s.Amount)
		lines = append(lines, amount)
		if each := portions(s, l); ink.Width(amount)+2+ink.Width(each) <= w {
			lines[len(lines)-1] += "  " + each
		} else {
			lines = append(lines, ink.Hang("    ", each, w)...)
		}
	}
	if len(l.Scents) > 0 && l.PlaceWhy != "" {
		lines = append(lines, ink.Hang(" ", ink.Clean(placeWord(l)+": "+l.PlaceWhy), w)...)
	}
	return lines
}

// pourWords says where a layer is poured to: by height, or by weight where
// heights mean nothing.
func pourWords(p steps.Plan, l steps.Layer) string {
	switch {
	case !p.Mould.HasHeights() && len(l.Loaves) > 0:
		return fmt.Sprintf("pour %s g into each mould", l.Loaves[0].Mass.At(gram))
	case len(l.Loaves) > 0 && l.Loaves[0].Sloped():
		return fmt.Sprintf("pour to %s in the middle, on a slope; finished surface %s there", steps.ToAnEye(l.PourLine), steps.ToAnEye(l.Surface))
	}
	return fmt.Sprintf("pour to %s (%s down from the rim); finished surface %s", steps.ToAnEye(l.PourLine), steps.ToAnEye(l.Rim), steps.ToAnEye(l.Surface))
}

// embedWords says what is pressed into a layer, how large, and where it ends up.
func embedWords(e recipe.Embed) string {
	width, height := e.Size()
	size := fmt.Sprintf("%s by %s", width, height)
	if e.Shape == recipe.Circle {
		size = e.Width.String() + " across"
	}
	return fmt.Sprintf("embed %s: %s, %s; its middle %s from the left wall, its lowest point %s under the finished surface",
		ink.Clean(e.Name), e.Shape, size, e.Across, e.Sink)
}

// portions says what of a scent goes into each loaf, and what is for the batter that
// stays behind.
func portions(s steps.Scent, l steps.Layer) string {
	if len(s.Portions) < 2 {
		return ""
	}
	parts := make([]string, len(s.Portions))
	for i, m := range s.Portions {
		parts[i] = m.At(s.Reads)
	}
	words := "= " + strings.Join(parts, " + ")
	if s.Stays > 0 {
		words += fmt.Sprintf(", and %s for what stays in %s", s.Stays.At(s.Reads), ink.Clean(l.LeftIn))
	}
	return words
}

func placeWord(l steps.Layer) string {
	switch l.Place {
	case recipe.InWarmOils, recipe.InPot:
		return "scented in " + l.ScentedIn()
	case recipe.InPortions:
		return "scented portion by portion"
	case recipe.PlaceDerived:
	}
	return "scent"
}
