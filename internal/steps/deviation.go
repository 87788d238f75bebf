package steps

import (
	"fmt"
	"slices"
	"strings"

	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/work"
)

// Deviation is a weight that was off by more than its tolerance. It blocks
// nothing.
type Deviation struct {
	Task   string
	Batter string
	Off    quantity.Mass // Off is what is left of it, below zero for too little.
	Words  string

	// Look numbers the weighing of a vessel that showed it, which is answered by weighing it
	// again, by what it was, or by a reason; zero is a weight that was off.
	Look   int
	Vessel string // Vessel is the one that was looked into.

	task work.Task
}

// deviations finds the weights that were off and are not decided yet.
func (p *planner) deviations() []Deviation {
	if p.s.Ended() {
		return nil
	}
	var list []Deviation
	for _, k := range p.pots {
		for _, tasks := range p.mutable(k) {
			for _, t := range tasks {
				if off, ok := p.off(k, t); ok {
					list = append(list, p.deviation(k, t, off))
				}
			}
		}
		list = append(list, p.tooMuchMore(k)...)
	}
	for _, s := range p.splits() {
		list = append(list, p.portionsOff(s)...)
	}
	for _, r := range p.pours {
		_, bi := p.c.Recipe.Batter(r.recipe.Batter)
		if len(r.scents) == 0 || r.scents[0].FromCup || p.pouredAny(r) {
			continue
		}
		for _, t := range r.scents {
			if off, ok := p.off(p.pots[bi], t); ok {
				list = append(list, p.deviation(p.pots[bi], t, off))
			}
		}
	}
	return list
}

// undecidedFor names a batter's weights that were off and are not decided yet, where its
// lye solution is about to meet the oils, or "".
func (p *planner) undecidedFor(k pot) string {
	if p.met(k.recipe.Name) {
		return ""
	}
	var words []string
	for _, d := range p.deviations() {
		if d.Batter == k.recipe.Name {
			words = append(words, SayOff(d.task, d.Off))
		}
	}
	if len(words) == 0 {
		return ""
	}
	return "! Not decided yet (d): " + strings.Join(words, "; ") + "."
}

// mutable are a batter's weighings of which something can still be made: all of
// them up to light trace, and then what is stirred into the batter, until it is
// poured.
func (p *planner) mutable(k pot) [][]work.Task {
	if !p.traced(k.recipe.Name) {
		return [][]work.Task{k.oils, k.alkali, {k.water}, k.additives}
	}
	var list []work.Task
	for i, a := range k.recipe.Additives {
		if a.In == recipe.InBatter && !p.pouredAnyOf(k.recipe.Name) {
			list = append(list, k.additives[i])
		}
	}
	return [][]work.Task{list}
}

// traced says that a batter is past light trace: it takes nothing in any more.
func (p *planner) traced(batter string) bool {
	return p.reached(batter, recipe.Light) || p.reached(batter, p.wantedTrace(batter))
}

func (p *planner) reached(batter string, t recipe.Trace) bool {
	return p.ticked(traceID(batter, t))
}

func (p *planner) pouredAnyOf(batter string) bool {
	return slices.ContainsFunc(p.c.Recipe.LayersOf(batter), func(at int) bool { return p.pouredAny(p.pours[at]) })
}

func (p *planner) pouredAny(r pour) bool {
	return slices.ContainsFunc(r.pourIDs, p.ticked)
}

func (p *planner) deviation(k pot, t work.Task, off quantity.Mass) Deviation {
	d := Deviation{Task: t.ID, Batter: k.recipe.Name, Off: off, task: t, Words: k.recipe.Name + ": " + SayOff(t, off)}
	if k.isAlkali(t) && off > 0 && p.dry(k, t) {
		d.Words += ". While it is dry it can come out of the cup again: leave it out, and weigh what comes out."
	}
	return d
}

func (k pot) isOil(t work.Task) bool {
	return slices.ContainsFunc(k.oils, func(o work.Task) bool { return o.ID == t.ID })
}

func (k pot) isAlkali(t work.Task) bool {
	return slices.ContainsFunc(slices.Concat(k.alkali, k.early), func(a work.Task) bool { return a.ID == t.ID })
}

// SayOff puts a weight that was off into words.
func SayOff(t work.Task, off quantity.Mass) string {
	asked := t.Target.At(t.Reads)
	switch since := off - (t.Mass - t.Target); { // What came in or out on a decision that is over.
	case since > 0:
		asked += fmt.Sprintf(", weighed %s and %s more", t.Mass.At(t.Reads), since.At(t.Reads))
	case since < 0:
		asked += fmt.Sprintf(", weighed %s less %s out again", t.Mass.At(t.Reads), (-since).At(t.Reads))
	}
	switch {
	case t.Skipped != "":
		return fmt.Sprintf("%s left out (asked %s g)", t.Material, asked)
	case t.ByEye:
		i := interval(t)
		return fmt.Sprintf("%s by eye, not weighed: somewhere from %.0f to %.0f g (asked %s). Weigh the pot to know it, and correct the weight",
			t.Material, i.Low, i.High, asked)
	case off < 0:
		return fmt.Sprintf("%s %s g under (asked %s)", t.Material, (-off).At(t.Reads), asked)
	}
	return fmt.Sprintf("%s %s g over (asked %s)", t.Material, off.At(t.Reads), asked)
}

// Undecided counts the deviations and warnings that wait for a word.
func (p Plan) Undecided() int { return len(p.Unread) + len(p.Deviations) }
