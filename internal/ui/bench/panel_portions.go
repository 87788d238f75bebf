package bench

import (
	"slices"
	"strings"

	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/ui/ink"
	"bench/internal/work"
)

// splitLine sums a split up: gross, vessel, net.
func (p panel) splitLine() string {
	if p.stage.Kind != work.Split && p.stage.Kind != work.SplitLayers || len(p.stage.Tasks) == 0 {
		return ""
	}
	g := p.foreseen().Tasks[0]
	gross, word := g.Target, " expected"
	if g.Done {
		gross, word = g.Mass, ""
	}
	return " " + p.t.Quiet.Render("gross ") + gross.At(g.Reads) + p.t.Quiet.Render("  − vessel ") + g.Tare.At(g.Reads) +
		p.t.Quiet.Render("  = net ") + p.t.Strong.Render((gross - g.Tare).At(g.Reads)) + p.t.Quiet.Render(word)
}

func (p panel) longestPortion() quantity.Mass {
	longest := quantity.Mass(1)
	for _, t := range p.foreseen().Tasks {
		if t.Do == work.Portion {
			longest = max(longest, poured(t))
		}
	}
	return longest
}

// foreseen is the stage as it will be, if what is being typed is kept: the other
// portions move while one is typed.
func (p panel) foreseen() work.Stage {
	if s, ok := p.then.Stage(p.stage.ID); ok && len(s.Tasks) == len(p.stage.Tasks) {
		return s
	}
	return p.stage
}

// moved says that a portion is not what it was before a number was typed.
func (p panel) moved(t work.Task) bool {
	now, _, _ := p.b.Plan.Task(t.ID)
	return p.b.Typed != "" && t.ID != p.task.ID && poured(now) != poured(t)
}

// poured is what a portion weighs, or is to weigh.
func poured(t work.Task) quantity.Mass {
	if t.Done {
		return t.There()
	}
	return t.Target
}

// bar is a portion to scale, filled once it is poured, with its scent beside it.
func (p panel) bar(t work.Task, longest quantity.Mass) string {
	text := ink.Fit(ink.Clean(strings.TrimPrefix(t.Title, "Portion for ")), 8)
	if p.stage.Kind == work.SplitLayers {
		text = ink.Fit(ink.Clean(strings.TrimPrefix(t.Title, "Pour out for ")), 8)
	}
	number := ink.Right(poured(t).At(t.Reads), 9)
	if p.moved(t) {
		number = p.t.Accent.Render(ink.Right(ink.SignCorrected+" "+poured(t).At(t.Reads), 9))
	}
	return p.styled(t, " "+p.sign(t)+" ", text) + " " + p.fill(t, longest) + number + p.t.Quiet.Render("  "+p.beside(t))
}

// barAt is where the bars begin.
const barAt = 12

// A bar that is poured leaves a gap above it, so that two of the same length are
// two; one to come is an outline, as in the cut face.
const (
	barTop    = "▄"
	barToCome = "─"
)

// outline gives a bar to come with corners.
func outline(left, bar, right string) string {
	length := strings.TrimRight(bar, " ")
	n := ink.Width(length)
	if n < 2 {
		return bar
	}
	return left + strings.Repeat(barToCome, n-2) + right + bar[len(length):]
}

// fill is a bar by itself, as wide as it may get.
func (p panel) fill(t work.Task, longest quantity.Mass) string {
	room := p.barRoom()
	cells := (2*int64(room)*int64(poured(t)) + int64(longest)) / (2 * int64(longest))
	fill := barToCome
	if t.Done {
		fill = barTop
	}
	return ink.Fit(strings.Repeat(fill, int(cells)), room)
}

// barRoom is the width of the longest bar: one for all, or they would not be to one
// scale.
func (p panel) barRoom() int {
	widest := 0
	for _, t := range p.foreseen().Tasks {
		if t.Do == work.Portion {
			widest = max(widest, ink.Width(p.beside(t)))
		}
	}
	return max(4, p.w-3-9-9-widest-4)
}

// beside is what stands behind a portion.
func (p panel) beside(t work.Task) string {
	scent := p.portionScent(t)
	if t.Done && t.ByEye {
		scent = strings.TrimSuffix("by eye  "+scent, "  ")
	}
	return strings.Join(slices.DeleteFunc([]string{p.stop(t), scent}, func(s string) bool { return s == "" }), "  ")
}

// stop is the reading to stop at, of a portion that is still to be poured.
func (p panel) stop(t work.Task) string {
	switch {
	case t.Done && t.ByEye, p.w < 50:
		return ""
	case t.Done:
		return ink.Spaces(ink.Width("stop " + t.StopAt.At(t.Reads)))
	}
	return "stop " + t.StopAt.At(t.Reads)
}

// portionScent says what goes into this portion.
func (p panel) portionScent(t work.Task) string {
	n := -1
	for _, each := range p.stage.Tasks {
		if each.Do == work.Portion {
			n++
		}
		if each.ID == t.ID {
			break
		}
	}
	for _, l := range p.then.Layers {
		if l.Name != p.stage.Layer {
			continue
		}
		sum := quantity.Mass(0)
		for _, s := range l.Scents {
			if s.Place != recipe.InPortions {
				continue // It is in the pot by now, and in the portion's weight.
			}
			if n >= 0 && n < len(s.Portions) {
				sum += s.Portions[n]
			}
		}
		if sum > 0 {
			return "scent " + sum.At(centigram)
		}
	}
	return ""
}
