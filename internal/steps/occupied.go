package steps

import (
	"fmt"
	"slices"
	"strings"

	"bench/internal/batch"
	"bench/internal/calc"
	"bench/internal/potcheck"
	"bench/internal/work"
)

// Occupied is a vessel of the workshop that holds something of a batch.
type Occupied struct {
	Batch  string // Batch is its code.
	Vessel string
	What   string // What says what it holds, such as "the sea lye solution".
	Alkali bool   // Alkali says that lye, or dry hydroxide, stands open in it.
}

func (o Occupied) words() string {
	return fmt.Sprintf("%s holds %s of batch %s", o.Vessel, o.What, o.Batch)
}

// Occupies lists the vessels that hold something of this batch by the facts, under
// its code: another batch on the same bench finds them full.
func (p Plan) Occupies(code string) []Occupied {
	if p.planner == nil || p.Closed {
		return nil
	}
	list := p.planner.occupied()
	for i := range list {
		list[i].Batch = code
	}
	return list
}

func (p *planner) occupied() []Occupied {
	var list []Occupied
	for _, k := range p.pots {
		name := k.recipe.Name
		_, dissolved := p.s.Done(DissolveID(name))
		if !p.met(name) {
			if holdsAny(p.jugContent(k)) {
				what := "the water of the " + name + " lye"
				if dissolved {
					what = "the " + name + " lye solution"
				}
				list = append(list, Occupied{Vessel: k.jug.Name, What: what, Alkali: dissolved})
			}
			list = append(list, p.inCups(k, dissolved)...)
		}
		if !holdsAny(p.potContent(k, p.met(name))) || p.pouredOf(name) {
			continue
		}
		what := "the " + name + " oils"
		if p.met(name) {
			what = "the " + name + " batter"
		}
		list = append(list, Occupied{Vessel: k.vessel.Name, What: what})
	}
	return list
}

func holdsAny(c potcheck.Content) bool {
	return slices.ContainsFunc(c.Parts, func(part calc.Candidate) bool { return part.In && part.Grams > 0 })
}

// inCups are the cups in which dry alkali waits for the water.
func (p *planner) inCups(k pot, dissolved bool) []Occupied {
	var list []Occupied
	for _, t := range k.alkali {
		if t.Mass > 0 && t.Vessel != k.jug.Name && !dissolved {
			list = append(list, Occupied{Vessel: t.Vessel, What: "the " + t.Material + " for the " + k.recipe.Name + " lye", Alkali: true})
		}
	}
	return list
}

// pouredOf says that every layer of a batter is in the moulds.
func (p *planner) pouredOf(batter string) bool {
	for _, r := range p.pours {
		if r.recipe.Batter == batter && slices.ContainsFunc(r.pourIDs, func(id string) bool { return !p.ticked(id) }) {
			return false
		}
	}
	return true
}

// lyeOpen says which other batch has lye, or dry hydroxide, open.
func lyeOpen(others []Occupied) string {
	for _, o := range others {
		if o.Alkali {
			return fmt.Sprintf("batch %s has lye open: %s holds %s", o.Batch, o.Vessel, o.What)
		}
	}
	return ""
}

// Shared says that the vessel which a task fills, or fills from, holds something of
// another batch, or, when it is time to put away what keeps from harm, that another
// has lye open; or "".
func (p Plan) Shared(task string, others []Occupied) string {
	t, _, ok := p.Task(task)
	if !ok || t.Done || t.Skipped != "" {
		return ""
	}
	switch t.Do {
	case work.Weigh, work.Portion, work.Gross, work.Tick:
	default:
		return ""
	}
	if task == hydroxideID || task == glovesID {
		return lyeOpen(others)
	}
	for _, o := range others {
		if o.Vessel != "" && (o.Vessel == t.Vessel || o.Vessel == t.Into) {
			return o.words()
		}
	}
	return ""
}

// SharedNote is the note that answers for a vessel which is shared.
func SharedNote(shared, answer string) string { return shared + ": " + answer }

// MayShare says that somebody has answered for a vessel that is shared.
func (p Plan) MayShare(shared string) bool {
	if p.planner == nil {
		return false
	}
	for _, e := range batch.Standing(p.planner.s.Entries) {
		if n, ok := e.Fact.(batch.Noted); ok && strings.HasPrefix(n.Text, SharedNote(shared, "")) {
			return true
		}
	}
	return false
}
