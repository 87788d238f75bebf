package bench

import (
	"cmp"
	"slices"
	"strings"

	"bench/internal/reply"
	"bench/internal/ui/ink"
	"bench/internal/work"
)

// figures is what is shown large: the number, its unit, and a word that says
// what the number is.
type figures struct{ number, unit, word string }

// body shows the number to reach in large figures, or the order in large
// letters where there is no number.
func (p panel) body() []string {
	f := p.large()
	switch {
	case f.number == "" && p.b.doubt != nil: // Of a weight that came with a tick.
		return append(p.lead(), p.verdictLines()...)
	case f.number == "":
		return p.lead()
	}
	asked, _ := reply.Asked(p.task, p.stage)
	scale := p.scale(f.unit, asked, f.number)
	// The unit stays where it is while a number is typed.
	reserve := max(ink.BigWidth(f.number, scale), ink.BigWidth(asked, scale))
	lines := p.figures(f, scale, reserve)
	figures := len(lines)
	if p.roomy() {
		lines = append(lines, "")
	}
	lines = append(lines, p.verdictLines()...)
	if p.roomy() {
		lines = append(lines, "")
	}
	lines = append(lines, p.scaleLines()...)
	if p.roomy() {
		p.wordBelow(lines[figures:])
	}
	return lines
}

// wordBelow says in large letters, at the right of the lines below the figures, how
// what is typed compares: a sign alone does not say what to do about it.
func (p panel) wordBelow(lines []string) {
	mark, style := p.mark()
	if mark == 0 || p.b.Typed == "" {
		return
	}
	number, word := p.off()
	for _, text := range []string{number + " " + word, word} {
		rows := ink.Letters(strings.TrimSpace(text), 1)
		for at := 0; at+len(rows) <= len(lines); at++ {
			under := lines[at : at+len(rows)]
			if slices.ContainsFunc(under, func(l string) bool { return ink.Width(l)+ink.Width(rows[0])+4 > p.w }) {
				continue
			}
			for i, row := range rows {
				under[i] = ink.Between(under[i], style.Render(row)+" ", p.w-1)
			}
			return
		}
	}
}

// scale is how large the figures are: as large as the window has room for, up to a
// third of its height.
func (p panel) scale(unit string, numbers ...string) int {
	for scale := 3; scale > 1; scale-- {
		if 15*scale <= p.h && !slices.ContainsFunc(numbers, func(n string) bool { return 2+ink.BigWidth(n, scale)+gap(unit, scale)+ink.Width(unit) > p.w }) {
			return scale
		}
	}
	return 1
}

// figures sets the number with its unit beside it, and at the right a large sign
// that says whether what is typed is right. The word on what the number is stands
// above it where it finds no room beside it.
func (p panel) figures(f figures, scale, reserve int) []string {
	style, sign := p.t.Strong, p.signBeside(f, scale, reserve)
	if p.b.Typed != "" {
		style = p.t.Accent
		if mark, inked := p.mark(); mark != 0 {
			style = inked
		}
	}
	at, ends := besideAt(f, scale, reserve), p.used(f, scale, reserve)+8*scale+2
	lines := []string{""}
	if at+ink.Width(f.word) > p.w {
		lines[0], f.word = "  "+p.t.Quiet.Render(f.word), ""
	}
	unit := p.unit(f, scale, at)
	for i, row := range ink.Big(f.number, scale) {
		line := "  " + style.Render(ink.Fit(row, reserve)) + ink.Spaces(gap(f.unit, scale)) + unit[i]
		if sign != nil {
			line = ink.Between(line, style.Render(sign[i])+" ", min(p.w-1, max(panelMost, ends)))
		}
		lines = append(lines, line)
	}
	return lines
}

// besideAt is where what stands beside the figures begins.
func besideAt(f figures, scale, reserve int) int { return 2 + reserve + gap(f.unit, scale) }

// gap is between the figures and their unit, which is large when it is grams.
func gap(unit string, scale int) int {
	if unit == "g" {
		return 2 * scale
	}
	return 2
}

// used is how much of a row the figures take with what stands beside them.
func (p panel) used(f figures, scale, reserve int) int {
	return besideAt(f, scale, reserve) + max(ink.Width(f.unit), ink.Width(f.word), ink.BigWidth("g", scale-1))
}

// signBeside is the large sign in the rows of the figures, no larger than they leave
// room for; nil is none.
func (p panel) signBeside(f figures, scale, reserve int) []string {
	mark, _ := p.mark()
	if p.b.Typed == "" || mark == 0 {
		return nil
	}
	for s := scale; s > 0; s-- {
		if p.used(f, scale, reserve)+6*s+3 <= p.w {
			return append(make([]string, 5*(scale-s)), ink.Big(string(mark), s)...)
		}
	}
	return nil
}

// unit is what stands beside each row of the figures: what the number is, and its
// unit at their foot, large where there is a large sign for it.
func (p panel) unit(f figures, scale, beside int) []string {
	rows := make([]string, 5*scale)
	rows[len(rows)-1] = p.t.Strong.Render(f.unit)
	word := len(rows) - 3
	if large := ink.Big(f.unit, scale-1); f.unit == "g" && len(large) > 0 && beside+ink.BigWidth("g", scale-1) <= p.w {
		for i, l := range large {
			rows[len(rows)-len(large)+i] = p.t.Strong.Render(l)
		}
		word = len(rows) - len(large) - 2
	}
	rows[word] = p.t.Quiet.Render(f.word)
	return rows
}

// lead says what to do in large letters, for a task without a number that is
// not done yet.
func (p panel) lead() []string {
	if p.task.Done || p.task.Skipped != "" {
		return nil
	}
	order := ink.Clean(cmp.Or(p.task.Signal, p.task.Title))
	words, scale := ink.Lead(order, p.w-3, 1, 1), 1
	if p.roomy() || ink.Telling(words) < 2 { // A verb alone does not say what of.
		words = ink.Lead(order, p.w-3, 1, 2)
	}
	if larger := ink.Lead(order, p.w-3, 2, p.h/spanFrom); ink.Telling(larger) >= ink.Telling(words) {
		words, scale = larger, 2
	}
	if len(words) == 0 {
		return nil
	}
	style := p.t.Strong
	if !p.task.Open {
		style = p.t.Quiet
	}
	return append([]string{""}, ink.Poster(style, words, scale)...)
}

// large gives what the large figures show. The weight of a vessel that must be
// weighed is not given away: it is asked for to tell one vessel from another.
func (p panel) large() figures {
	number, unit := reply.Asked(p.task, p.stage)
	t := p.task
	switch {
	case p.b.Typed != "" && p.stage.TakesWeight(p.task):
		return figures{p.b.Typed, "g", "typed"}
	case number == "":
		return figures{}
	case p.b.Typed != "":
		return figures{p.b.Typed, unit, "typed"}
	case t.Done && rests(p.stage.Kind):
		return figures{}
	case t.Done && t.ByEye:
		return figures{t.Mass.At(t.Reads), unit, "by eye"}
	case t.Done && t.Do != work.Temperature && t.Numeric():
		return figures{t.Mass.At(t.Reads), unit, "done"}
	case t.Do == work.Portion:
		return figures{number, unit, "stop at"}
	case t.Do == work.Gross:
		return figures{ink.Dashes(number), unit, "type it"}
	case t.Do == work.Temperature:
		return figures{number, unit, reply.Warmth(p.b.Plan, t, p.stage)}
	}
	if f, ok := restLarge(t, number, unit); ok {
		return f
	}
	return figures{number, unit, ""}
}

// askedNumber gives the number to reach without its unit.
func (p panel) askedNumber() string {
	number, _ := reply.Asked(p.task, p.stage)
	return number
}
