package steps

import (
	"fmt"
	"slices"
	"strings"

	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/work"
)

// Occupied is a vessel of the workshop, or a kind of mould, that holds something of a
// batch.
type Occupied struct {
	Batch  string // Batch is its code.
	Vessel string
	What   string // What says what it holds, such as "the sea lye solution".
	Alkali bool   // Alkali says that lye, or dry hydroxide, stands open in it.
	Left   string // Left is what was not done yet, such as "wiped out", where only what clings to it is left.
	Wants  bool   // Wants says that the batch still wants dry hydroxide.
	Moulds int    // Moulds is how many, where these are moulds of that name.
}

func (o Occupied) words() string {
	if o.Left != "" {
		return fmt.Sprintf("%s was not %s yet: it holds %s of batch %s", o.Vessel, o.Left, o.What, o.Batch)
	}
	return fmt.Sprintf("%s holds %s of batch %s", o.Vessel, o.What, o.Batch)
}

// Occupies lists the vessels and moulds that hold something of this batch by the facts,
// under its code: another batch on the same bench finds them full.
func (p Plan) Occupies(code string) []Occupied {
	if p.planner == nil || p.Closed {
		return nil
	}
	var list []Occupied
	uses, wants := p.Uses(), p.planner.wantsDry()
	for _, u := range uses {
		if u.Full {
			list = append(list, Occupied{Batch: code, Vessel: u.Vessel, What: u.What, Alkali: u.Alkali, Wants: wants})
		}
	}
	for _, u := range uses {
		if _, told := Holds(u.Vessel, list); u.Left != "" && !told {
			list = append(list, Occupied{Batch: code, Vessel: u.Vessel, What: u.What, Left: u.Left})
		}
	}
	if n := p.planner.after.Unmoulded(); n < p.Loaves && p.planner.ticked(MouldsID) {
		list = append(list, Occupied{Batch: code, Vessel: p.Mould.Name, Moulds: p.Loaves - n})
	}
	return list
}

// wantsDry says that dry hydroxide is still to be weighed, or dissolved.
func (p *planner) wantsDry() bool {
	emptied := p.emptied()
	return slices.ContainsFunc(p.pots, func(k pot) bool {
		return slices.ContainsFunc(slices.Concat(k.alkali, k.early), func(t work.Task) bool {
			m, _ := p.c.Material(t.Material)
			return m.Stock == 0 && (!t.Done || !emptied[t.ID])
		})
	})
}

// lyeOpen says which other batch has lye, or dry hydroxide, open; of those that still
// want dry hydroxide alone, or of all.
func lyeOpen(others []Occupied, all bool) string {
	for _, o := range others {
		if o.Alkali && (all || o.Wants) {
			return fmt.Sprintf("batch %s has lye open: %s holds %s", o.Batch, o.Vessel, o.What)
		}
	}
	return ""
}

// Shared says that the vessel which a task fills, or fills from, holds something of
// another batch, that too few moulds are free, or, when it is time to put away what
// keeps from harm, that another has lye open; or "".
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
	switch task {
	case hydroxideID, glovesID:
		return lyeOpen(others, task == glovesID)
	case rinsedID, wipedID:
		return p.leaveFull(others, task == rinsedID)
	case MouldsID:
		return p.fewMoulds(others)
	}
	if o, ok := Holds(t.Vessel, others); ok {
		return o.words()
	}
	if o, ok := Holds(t.Into, others); ok {
		return o.words()
	}
	return ""
}

// leaveFull names the lye jugs, or the other vessels, of this batch that by now are full
// of another's: what is cleaned up is not those.
func (p Plan) leaveFull(others []Occupied, lye bool) string {
	var words []string
	for _, u := range p.Uses() {
		o, ok := Holds(u.Vessel, others)
		if ok && o.Left == "" && (u.Kind == recipe.LyeJug) == lye && u.Kind != recipe.Cup && !slices.Contains(words, o.words()) {
			words = append(words, o.words())
		}
	}
	return strings.Join(words, "; ")
}

// OnlySays says that what is shared is told at a task, and nothing is asked.
func OnlySays(task string) bool { return task == rinsedID || task == wipedID }

// Holds finds what other batches have in a vessel of that name.
func Holds(vessel string, others []Occupied) (Occupied, bool) {
	for _, o := range others {
		if vessel != "" && o.Moulds == 0 && recipe.Fold(o.Vessel) == recipe.Fold(vessel) {
			return o, true
		}
	}
	return Occupied{}, false
}

// Clashes says, before a batch begins, which of the vessels and moulds that it wants
// hold something of other batches.
func (p Plan) Clashes(others []Occupied) []string {
	var words []string
	seen := map[string]bool{}
	for _, u := range p.Uses() {
		if o, ok := Holds(u.Vessel, others); ok && !u.Over && !seen[u.Vessel] {
			seen[u.Vessel] = true
			words = append(words, o.words()+": have another ready for "+u.What)
		}
	}
	if few := p.fewMoulds(others); few != "" {
		words = append(words, few)
	}
	return words
}

// fewMoulds says that other batches have moulds which this one wants, or "". Where the
// workshop does not say how many there are, every one in use is told.
func (p Plan) fewMoulds(others []Occupied) string {
	inUse, by := 0, ""
	for _, o := range others {
		if o.Moulds > 0 && recipe.Fold(o.Vessel) == recipe.Fold(p.Mould.Name) {
			inUse += o.Moulds
			by += " and " + o.Batch
		}
	}
	have, wanted := p.Mould.Count, quantity.Count(p.Loaves, "mould", "moulds")
	switch {
	case inUse == 0 || have > 0 && have-inUse >= p.Loaves:
		return ""
	case have == 0:
		return fmt.Sprintf("%d of the moulds called %s are in use for batch %s; this one wants %s, and the workshop file does not say how many there are",
			inUse, p.Mould.Name, by[len(" and "):], wanted)
	}
	return fmt.Sprintf("%d of %d moulds called %s are in use for batch %s, and this one wants %s",
		inUse, have, p.Mould.Name, by[len(" and "):], wanted)
}

// MayShare says that somebody has answered for what is shared.
func (p Plan) MayShare(shared string) bool { return p.State().Answered(shared) }
