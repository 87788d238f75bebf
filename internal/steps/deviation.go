package steps

import (
	"errors"
	"fmt"
	"slices"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/recipe"
)

// Deviation is a weight that was off by more than its tolerance. It blocks
// nothing.
type Deviation struct {
	Task   string
	Batter string
	Off    quantity.Mass // Off is below zero for too little.
	Words  string

	task Task
}

// deviations finds the weights that were off and are not decided yet.
func (p *planner) deviations() []Deviation {
	if p.s.Closed() {
		return nil
	}
	var list []Deviation
	for _, k := range p.pots {
		if p.traced(k.recipe.Name) {
			continue
		}
		for _, t := range slices.Concat(k.oils, k.alkali, []Task{k.water}, k.additives) {
			if off, ok := p.off(t); ok {
				list = append(list, p.deviation(k, t, off))
			}
		}
	}
	for _, r := range p.pours {
		_, bi := p.c.Recipe.Batter(r.recipe.Batter)
		if len(r.scents) == 0 || r.scents[0].FromCup || p.pouredAny(r) {
			continue
		}
		for _, t := range r.scents {
			if off, ok := p.off(t); ok {
				list = append(list, p.deviation(p.pots[bi], t, off))
			}
		}
	}
	return list
}

// off says that a weighing was off and that nobody has decided upon it. What
// was decided upon another weight, before it was corrected, does not count.
func (p *planner) off(t Task) (quantity.Mass, bool) {
	off := t.Mass - t.Target
	if !t.Done || t.ByEye || t.Target <= 0 || t.Tolerance <= 0 || abs(off) <= t.Tolerance {
		return 0, false
	}
	d, decided := p.s.Decision(t.ID)
	return off, !decided || abs(d.Fact.Off-off) > t.Tolerance
}

// traced says that a batter is past light trace: it takes nothing in any more.
func (p *planner) traced(batter string) bool {
	return p.reached(batter, recipe.Light) || p.reached(batter, p.wantedTrace(batter))
}

func (p *planner) reached(batter string, t recipe.Trace) bool {
	_, ok := p.s.Done(traceID(batter, t))
	return ok
}

func (p *planner) pouredAny(r pour) bool {
	for loaf := range p.c.Loaves {
		if _, ok := p.s.Done(pourID(r.recipe, loaf)); ok {
			return true
		}
	}
	return false
}

func (p *planner) deviation(k pot, t Task, off quantity.Mass) Deviation {
	d := Deviation{Task: t.ID, Batter: k.recipe.Name, Off: off, task: t}
	word := "over"
	if off < 0 {
		word = "under"
	}
	d.Words = fmt.Sprintf("%s: %s %s g %s (asked %s)", k.recipe.Name, t.Material, abs(off).At(t.Reads), word, t.Target.At(t.Reads))
	if _, wet := p.s.Done(dissolveID(k.recipe.Name)); p.isAlkali(k, t) && off > 0 && !wet {
		d.Words += ". While it is dry it can come out of the cup again: take it out and correct the weight (u)."
	}
	return d
}

func (p *planner) isOil(k pot, t Task) bool {
	return slices.ContainsFunc(k.oils, func(o Task) bool { return o.ID == t.ID })
}

func (p *planner) isAlkali(k pot, t Task) bool {
	return slices.ContainsFunc(k.alkali, func(a Task) bool { return a.ID == t.ID })
}

// Unread is a warning that was not acknowledged yet.
type Unread struct {
	Batter string
	Words  string
	Fact   batch.WarningSeen
}

// unread warns of superfat bands that reach below zero. It is said once a batter.
func (p *planner) unread(plan Plan) []Unread {
	if p.s.Closed() {
		return nil
	}
	var list []Unread
	for _, b := range plan.Batters {
		if b.Superfat.Low >= 0 || p.s.WarningSeen(b.Name) {
			continue
		}
		words := fmt.Sprintf("%s: the superfat may be as low as %.1f %% (%.1f %% at best knowledge): free alkali cannot be ruled out. Test pH or free alkali before a bar is released.",
			b.Name, b.Superfat.Low, b.Superfat.Percent)
		list = append(list, Unread{b.Name, words, batch.WarningSeen{Batter: b.Name, Warning: words}})
	}
	return list
}

func (p Plan) allowsWarning(f batch.WarningSeen) error {
	for _, u := range p.Unread {
		if u.Batter == f.Batter {
			return nil
		}
	}
	return errors.New("there is no such warning any more")
}

// unreadFor says that a batter's warning must be read before its lye solution
// meets the oils.
func (p Plan) unreadFor(batter string) error {
	for _, u := range p.Unread {
		if u.Batter == batter {
			return errors.New("the superfat band reaches below zero; read that warning first (key d)")
		}
	}
	return nil
}
