package paper

import (
	"fmt"
	"strings"

	"bench/internal/cut"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/sticks"
)

// SticksText writes the yield, the cutting lists, the placing lists and the
// dough for reading at the bench.
func SticksText(w sticks.Work) string {
	var p page
	p.linef("%s, %s", w.Recipe, quantity.Count(w.Loaves, "loaf", "loaves"))
	p.yield(w)
	for _, plan := range w.Plans {
		p.linef("")
		p.stickPlan(plan, w.Wanted)
	}
	switch {
	case w.Embeds == 0:
		p.linef("it has no embeds")
	case len(w.Plans) == 0:
		p.linef("")
		p.linef("No sticks are planned: list those on hand under \"sticks\" in the workshop, or say under")
		p.linef("\"extruder\" how long a \"stick\" it makes.")
	}
	for _, d := range w.Dough {
		p.linef("")
		p.dough(d)
	}
	return p.String()
}

func (p *page) yield(w sticks.Work) {
	if len(w.Bars) == 0 {
		p.linef("bars are not cut along this mould")
		return
	}
	least, most := w.Spread()
	p.linef("a loaf yields %s of %s: end cuts of %s at the stop and %s at the other end",
		quantity.Count(len(w.Bars), "bar", "bars"), w.Loaf.Bar, w.Loaf.Near, w.Loaf.Rest())
	if most-least < quantity.Gram/10 {
		p.linef("a bar weighs %s fresh, alike all along the loaf", show(most))
		return
	}
	p.linef("a bar weighs %s to %s fresh, from the end at the stop:", show(least), show(most))
	for _, b := range w.Bars {
		p.linef("  bar %2d %12s", b.N, show(b.Fresh))
	}
}

func (p *page) stickPlan(plan recipe.StickPlan, wanted quantity.Length) {
	p.linef("%s: %s", strings.ToUpper(plan.Stick), stickSums(plan.Plan))
	p.linef("%s", provenWords(plan.Plan))
	for _, stock := range plan.Stock {
		if doubt := stock.Doubt(plan.Stick); doubt != "" {
			p.linef("! %s", doubt)
		}
	}
	p.linef("Cut, from one end of the stick:")
	for _, s := range plan.Plan.Sticks {
		lot := "lot " + s.Lot
		if s.Fresh {
			lot = "to be made"
		}
		p.linef("  stick %2d  %9s  %-12s %s", s.N, s.Length, lot, strip(s))
	}
	p.linef("Lay, from the end that goes to the cutter's stop; mark that end:")
	for _, loaf := range plan.Plan.Loaves {
		for _, row := range loaf.Rows {
			p.linef("  loaf %2d  %-12s %s", loaf.N, plan.Embeds[row.N-1].Embed, rowWords(row))
		}
	}
	for _, s := range plan.Plan.Shows {
		p.linef("! a join shows in bar %d of loaf %d, %s from the stop", s.Bar, s.Loaf, s.At)
	}
	for _, short := range plan.Plan.Short(wanted) {
		p.linef("! piece %s in loaf %d is %s, shorter than the %s wanted: no longer one fits", short.Label(), short.Loaf, short.Length, wanted)
	}
	if n := plan.Plan.Unmade; n > 0 {
		p.linef("! no sticks for %s: no two lots go into one loaf", quantity.Count(n, "loaf", "loaves"))
	}
}

func stickSums(p cut.Plan) string {
	words := fmt.Sprintf("%s, %s, longest offcut %s", quantity.Count(p.Used, "stick", "sticks"), quantity.Count(p.Joins, "join", "joins"), p.Offcut)
	if p.Fresh > 0 {
		words += fmt.Sprintf("; %d still to be made", p.Fresh)
	}
	return words
}

// provenWords says how sure it is that nothing is better.
func provenWords(p cut.Plan) string {
	b := p.Bound
	switch {
	case p.Proven():
		return "proven: no plan does with less"
	case p.Unmade > 0 || p.Whole < len(p.Loaves):
		return "as well as these sticks allow"
	}
	return fmt.Sprintf("not proven: no plan does with less than %s and %s, or leaves more than %s",
		quantity.Count(b.Used, "stick", "sticks"), quantity.Count(b.Joins, "join", "joins"), b.Offcut)
}

// strip draws a stick as its pieces: "|1a 255 mm|1b 50 mm|".
func strip(s cut.Strip) string {
	var b strings.Builder
	for _, piece := range s.Pieces {
		fmt.Fprintf(&b, "|%s %s", piece.Label(), piece.Length)
	}
	b.WriteByte('|')
	if s.Offcut > 0 {
		fmt.Fprintf(&b, " rest %s", s.Offcut)
	}
	return b.String()
}

// rowWords lists the pieces of a row with the lines between them.
func rowWords(row cut.PlacedRow) string {
	var parts []string
	for i, piece := range row.Pieces {
		words := fmt.Sprintf("%s %s", piece.Label(), piece.Length)
		if i < len(row.Pieces)-1 {
			if piece.Line == cut.NoLine {
				words += " (shows)"
			} else {
				words += fmt.Sprintf(" to line %d", piece.Line)
			}
		}
		parts = append(parts, words)
	}
	return strings.Join(parts, ", ")
}

func (p *page) dough(d sticks.Dough) {
	name := d.Name
	if d.Lot != "" {
		name += ", lot " + d.Lot
	}
	if d.Looks != "" {
		name += ", shade " + d.Looks
	}
	p.linef("SOAP DOUGH, %s: %s", name, show(d.Mass))
	for _, s := range d.Sticks {
		p.linef("  %d × %s of %s %12s", s.Count, s.Length, s.Name, show(s.Mass))
	}
	p.linef("  trims %s, stays in the extruder %s", show(d.Trims), show(d.Stays))
	if d.Loads > 0 {
		p.linef("  %s of the extruder", quantity.Count(d.Loads, "load", "loads"))
	}
}
