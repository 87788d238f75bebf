package paper

import (
	"fmt"
	"slices"
	"strings"

	"bench/internal/quantity"
	"bench/internal/steps"
	"bench/internal/work"
)

// page collects lines.
type page struct{ strings.Builder }

func (p *page) linef(format string, args ...any) {
	p.WriteString(strings.TrimRight(fmt.Sprintf(format, args...), " "))
	p.WriteByte('\n')
}

// PlanText writes a plan for reading on paper or in a pager.
func PlanText(plan steps.Plan) string {
	var p page
	p.linef("%s, %d × %s", plan.Recipe, plan.Loaves, plan.Mould.Name)
	p.linef("oils in all %s", show(plan.Oils))
	p.linef("batter %s", plan.Balance)
	p.linef("")
	p.linef("Lye burns: gloves, goggles, sleeves, fresh air. First aid is water, at once and long;")
	p.linef("never vinegar. The supplier's safety data sheet and local rules come first.")
	for _, w := range plan.Warnings {
		p.linef("! %s", w)
	}
	p.deviations(plan)
	for _, b := range plan.Batters {
		p.linef("")
		p.batter(b)
	}
	for i := len(plan.Layers) - 1; i >= 0; i-- {
		p.linef("")
		p.layer(plan, i)
	}
	p.linef("")
	p.linef("THE ORDER OF THINGS")
	for _, s := range plan.Stages {
		p.linef("%3d  %-26s %s", s.N, s.Title, s.Why)
		for _, t := range s.Tasks {
			p.task(t)
		}
	}
	return p.String()
}

func (p *page) batter(b steps.Batter) {
	mixed := fmt.Sprintf("to be mixed at %s", b.MixAt)
	if b.MetAt != 0 {
		mixed = fmt.Sprintf("mixed at %s, wanted %s", b.MetAt, b.MixAt)
	}
	p.linef("BATTER %s: %s at %.3f g/mL, %s", b.Name, show(b.Mass), b.Density, mixed)
	p.amounts("oils", b.Oils)
	p.amounts("alkali", b.Alkali)
	p.linef("  %-10s %-28s %12s", "water", fmt.Sprintf("lye concentration %.1f %%", 100*b.Concentration), b.Water.Mass)
	p.amounts("additives", b.Additives)
	if b.Peak.Celsius > 0 && b.MetAt == 0 {
		p.linef("  heat       the lye solution can reach %s; a jug takes some of that", b.Peak)
	}
	p.linef("  superfat   %.1f %% (%.1f to %.1f, k = 2; worst case %.1f to %.1f)",
		b.Superfat.Percent, b.Superfat.Low, b.Superfat.High, b.Superfat.WorstLow, b.Superfat.WorstHigh)
	for _, s := range b.Account.Sentences() {
		p.linef("             %s", s)
	}
	for i, o := range b.Own {
		p.linef("  %-10s %s: %s, from %s", map[bool]string{true: "yours"}[i == 0], o.Name, o.Value, o.From)
	}
}

func (p *page) amounts(what string, amounts []steps.Amount) {
	for _, a := range amounts {
		p.linef("  %-10s %-28s %12s", what, a.Name, a.Mass)
		what = ""
	}
}

func (p *page) layer(plan steps.Plan, at int) {
	l := plan.Layers[at]
	p.linef("LAYER %s of %s: %s", l.Name, l.Batter, show(l.Mass))
	p.pourLines(plan, at)
	p.amounts("colour", l.Colours)
	for _, s := range l.Scents {
		p.linef("  %-10s %-28s %12s   in %s: %s", "scent", s.Name, s.Mass, l.ScentedIn(), l.PlaceWhy)
		portions := make([]string, len(s.Portions))
		for i, m := range s.Portions {
			portions[i] = m.String()
		}
		words := strings.Join(portions, " + ")
		if s.Stays > 0 {
			words += fmt.Sprintf(", and %s for what stays in %s", s.Stays.Reading(s.Reads), l.LeftIn)
		}
		p.linef("  %-10s %s", "", words)
	}
}

// pourLines says where the layer is poured to, what embeds take of it and what
// stays behind.
func (p *page) pourLines(plan steps.Plan, at int) {
	l, mould, eye := plan.Layers[at], plan.Mould, steps.ToAnEye
	switch first := l.Loaves[0]; {
	case !mould.HasHeights():
		p.linef("  pour       by weight: %s in a mould, %s in each of %d", show(first.Mass), show(first.Mass/quantity.Mass(mould.CavityCount())), mould.CavityCount())
	case first.Sloped():
		line, after := surfaceToJSON(first.Face.PourLine, mould), surfaceToJSON(first.Face.Surface, mould)
		p.linef("  pour line  %s from the floor at the left wall, %s at the right; surface after %s and %s",
			eye(quantity.Length(line.Left)), eye(quantity.Length(line.Right)), eye(quantity.Length(after.Left)), eye(quantity.Length(after.Right)))
	default:
		p.linef("  pour line  %s from the floor, %s down from the rim; surface after %s", eye(l.PourLine), eye(l.Rim), eye(l.Surface))
	}
	p.displaced(plan, at)
	reads := ""
	if l.LeftReads > 0 {
		reads = fmt.Sprintf(", which then reads %s", show(l.LeftReads))
	}
	p.linef("  left       %s in %s%s", show(l.Left), l.LeftIn, reads)
}

// displaced says what embeds take of a layer's room: once, or loaf by loaf where loaves
// differ.
func (p *page) displaced(plan steps.Plan, at int) {
	loaves := make([][]string, plan.Loaves)
	for n := range loaves {
		for _, d := range plan.Displaced(at, n) {
			lift := ""
			if d.Lift > 0 {
				lift = fmt.Sprintf(", lifts the surface by %s", d.Lift)
			}
			loaves[n] = append(loaves[n], fmt.Sprintf("%s takes %.1f ml%s", d.Embed, d.Volume.Millilitres(), lift))
		}
	}
	differ := slices.ContainsFunc(loaves, func(words []string) bool { return !slices.Equal(words, loaves[0]) })
	head := "embeds"
	for n, words := range loaves {
		if n > 0 && !differ {
			return
		}
		of := ""
		if differ {
			of = fmt.Sprintf("loaf %d: ", n+1)
			if len(words) == 0 {
				words = []string{"none"}
			}
		}
		for _, w := range words {
			p.linef("  %-10s %s%s", head, of, w)
			head = ""
		}
	}
}

// task writes a task with its mark: done, left out, or still to do. What was weighed stands
// where what was asked stood.
func (p *page) task(t work.Task) {
	mark, amount := "[ ]", t.Target
	switch {
	case t.Skipped != "":
		mark = "[-]"
	case t.Done:
		mark = "[x]"
	}
	if t.Mass > 0 && (t.Done || t.Do == work.Bars) {
		amount = t.Mass
	}
	line, words := fmt.Sprintf("     %s %s", mark, t.Title), []string{}
	if amount > 0 {
		line = fmt.Sprintf("     %s %-44s %12s g", mark, t.Title, amount.At(t.Reads))
		words = placeOf(t)
	}
	p.linef("%s   %s", line, strings.Join(append(words, foundOf(t)...), "; "))
}

// placeOf says where a task is weighed, if it is on a scale.
func placeOf(t work.Task) []string {
	switch {
	case t.Scale == "":
		return nil
	case t.Do == work.Portion:
		return []string{fmt.Sprintf("out of %s into %s, %s", t.Vessel, t.Into, t.Scale)}
	case t.Vessel == "":
		return []string{t.Scale}
	}
	return []string{t.Vessel + ", " + t.Scale}
}

// foundOf says of a task what its mark and its weight do not.
func foundOf(t work.Task) (words []string) {
	switch {
	case t.Skipped != "":
		return []string{"left out: " + t.Skipped}
	case t.Counted > 0 && (t.Do == work.Bars || t.Do == work.Count && t.Done):
		return []string{quantity.Count(t.Counted, "bar", "bars")}
	case !t.Done && t.Do == work.Weigh && t.Mass > 0:
		return []string{t.Mass.At(t.Reads) + " g in already"}
	case !t.Done || t.Mass == 0 || t.Do == work.WeighIn: // What a bar weighed before is not asked of it.
	case t.Target > 0 && t.Mass.At(t.Reads) != t.Target.At(t.Reads):
		words = append(words, "asked "+t.Target.At(t.Reads))
	}
	if t.ByEye {
		words = append(words, "by eye, not weighed")
	}
	if t.Done && t.Warns {
		words = append(words, "what was found holds the bars")
	}
	return words
}

// show writes a mass to a tenth of a gram.
func show(m quantity.Mass) string { return m.Reading(quantity.Gram / 10) }
