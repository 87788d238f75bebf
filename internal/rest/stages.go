// Package rest is what follows the clean-up of a batch: gel, unmould, cut, cure,
// release test and release, with their timers and the days ahead.
//
// The rule: it follows from the facts and from what the moulds hold; how that came
// to be in them is steps' affair.
package rest

import (
	"fmt"
	"slices"
	"strconv"

	"bench/internal/batch"
	"bench/internal/curing"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/timer"
	"bench/internal/work"
)

// The tasks that other rules ask about.
const (
	WholeCure  = "cure/complete"
	alkaliTest = "test/alkali"
	LookTest   = "test/look"
	WeightTest = "test/weight"
	DecideID   = "release/decide"
	mostMarked = 6 // mostMarked is how many bars are offered to be marked.
)

// Rest is a batch from its last pour on, as far as its recipe and its facts go.
type Rest struct {
	Control recipe.Control
	State   batch.State
	Loaves  []quantity.Mass // Loaves are what each mould holds.
	Scale   recipe.Scale    // Scale weighs bars: one of them and a whole loaf's.
	Poured  timer.Moment    // Poured is when the last layer was; zero is not yet.
	Since   []string        // Since are the warnings that opened after the release, which ask for a word again.
}

func (r Rest) tick(id, title, hint string) work.Task { return work.Ticked(r.State, id, title, hint) }

func (r Rest) ticked(id string) bool {
	_, ok := r.State.Done(id)
	return ok
}

const gloves = "Gloves on: day-old soap can still burn. "

// Stages are what follows the clean-up: gel, unmould, cut, cure, test, release.
func (r Rest) Stages() []work.Stage {
	gel := r.gelStage()
	out := r.unmould()
	out.After = []string{"clean up"}
	cut := r.cutStage()
	bars := r.barsStage()
	cure := r.cureStage()
	test := r.testStage()
	release := r.releaseStage()
	gel.After, cut.After, bars.After, cure.After = []string{"cover"}, []string{out.ID}, []string{cut.ID}, []string{cut.ID}
	test.After = []string{cure.ID}
	if len(r.Since) == 0 { // Else bars are out, and nothing is waited for.
		release.After = []string{bars.ID, test.ID}
	}
	return []work.Stage{gel, out, cut, bars, cure, test, release}
}

// do makes a task of the rest that is done when it was ticked or left out.
func (r Rest) do(do work.Do, id, title, hint string) work.Task {
	t := r.tick(id, title, hint)
	t.Do = do
	return t
}

// doneBy marks a task as answered by a fact.
func doneBy[F batch.Fact](r Rest, t work.Task) work.Task {
	if told, ok := batch.Last[F](r.State, t.ID); ok && !t.Done {
		t.Done, t.Seq, t.At = true, told.Seq, told.At
	}
	return t
}

// PassedBy closes a task that was not answered in its time.
func PassedBy(t work.Task, over bool, words string) work.Task {
	if over && !t.Done {
		t.Done, t.Skipped = true, words
	}
	return t
}

// Unmoulded counts the loaves that are out of their moulds.
func (r Rest) Unmoulded() int {
	n := 0
	for loaf := range r.Control.Loaves {
		if r.ticked(UnmouldID(loaf)) {
			n++
		}
	}
	return n
}

// UnmouldID is the task of taking a loaf, counted from 0, out of its mould.
func UnmouldID(loaf int) string { return work.OfLoaf("unmould", loaf) }

func (r Rest) unmould() work.Stage {
	s := work.Stage{
		ID: "unmould", Kind: work.Unmould, Title: "unmould",
		Why: "When the timer says; too soft means another look later. Gloves: day-old soap can burn.",
	}
	s.Tasks = make([]work.Task, 0, r.Control.Loaves)
	for loaf := range r.Control.Loaves {
		s.Tasks = append(s.Tasks, r.tick(UnmouldID(loaf), "Unmould loaf "+strconv.Itoa(loaf+1),
			gloves+"Once it is due: space when it is out, or what it weighs. Before that, or where it sticks or dents: s."))
	}
	return s
}

func (r Rest) cutStage() work.Stage {
	s := work.Stage{
		ID: "cut", Kind: work.CutStage, Title: "cut", EachLoaf: true,
		Why: "As soon as the loaf cuts clean and before it turns brittle. The cure counts from here.",
	}
	planned := r.Control.BarsPerLoaf()
	hint := fmt.Sprintf("Planned %s of %s, ends of %s at the stop and %s at the other end; end pieces are not bars. Too soft to cut clean: s, look again in 12 h.",
		quantity.Count(planned, "bar", "bars"), r.Control.Loaf().Bar, r.Control.Loaf().Near, r.Control.Loaf().Rest())
	s.Tasks = make([]work.Task, 0, r.Control.Loaves+3)
	side := r.tick("cut/side", "Lay the loaf on its side", gloves)
	if r.hasEmbeds() {
		side.Title += ", marked end to the stop"
		side.Hint = gloves
		if r.hasSeams() {
			side.Hint += "Turned round, every seam between embeds lies in a bar."
		}
	}
	if r.Unmoulded() == 0 {
		side.Waits = "waits for a loaf to be out of its mould"
	}
	s.Tasks = append(s.Tasks, side)
	whole := ""
	for loaf := range r.Control.Loaves {
		t := doneBy[batch.BarsCut](r, r.do(work.Count, curing.CutTask(loaf+1), fmt.Sprintf("Cut loaf %d and count the bars", loaf+1), r.pockets(loaf)+hint))
		t.Count = planned
		if cut, ok := batch.Last[batch.BarsCut](r.State, t.ID); ok {
			t.Counted = cut.Fact.Bars
		}
		switch {
		case !r.ticked(UnmouldID(loaf)):
			t.Waits = fmt.Sprintf("waits for: Unmould loaf %d", loaf+1)
		case !side.Done:
			t.Waits = "waits for: " + side.Title
		}
		if !t.Done && whole == "" {
			whole = "waits for: " + t.Title
		}
		s.Tasks = append(s.Tasks, t)
	}
	for _, t := range []work.Task{
		r.Aside("cut/ends", batch.EndPiece, "Weigh the end pieces and offcuts together", "For a sample, or to be made anew. 0 is none; space is some, not weighed."),
		r.Aside("cut/retained", batch.RetainedBar, "Keep one bar back, marked with the batch code", "For later questions; not for sale. Its weight, or space; 0 is none."),
	} {
		t.Waits = whole
		s.Tasks = append(s.Tasks, t)
	}
	return s
}

// hasSeams says that pieces of sticks meet within a loaf, or may: of an embed whose sticks
// nobody planned that is not known.
func (r Rest) hasSeams() bool {
	planned := 0
	for _, stick := range r.Control.Sticks {
		planned += len(stick.Embeds)
		for _, loaf := range stick.Plan.Loaves {
			for _, row := range loaf.Rows {
				if len(row.Pieces) > 1 {
					return true
				}
			}
		}
	}
	for _, l := range r.Control.Recipe.Layers {
		planned -= len(l.Embeds)
	}
	return planned < 0
}

func (r Rest) hasEmbeds() bool {
	return slices.ContainsFunc(r.Control.Recipe.Layers, func(l recipe.Layer) bool { return len(l.Embeds) > 0 })
}

// Aside is a second output: weighed, or only said to be there, or none.
func (r Rest) Aside(id string, piece batch.Piece, title, hint string) work.Task {
	t := doneBy[batch.SetAside](r, r.do(work.Aside, id, title, hint))
	t.Material = string(piece)
	t.Scale, t.Reads, t.Max = r.Scale.Name, r.Scale.Reads, r.Scale.Max
	if told, ok := batch.Last[batch.SetAside](r.State, id); ok {
		t.Mass, t.Counted = told.Fact.Mass, told.Fact.Count
	}
	return t
}

// BarMass is what a bar is expected to weigh fresh.
func (r Rest) BarMass(loaf int) quantity.Mass {
	return quantity.FromGrams(r.Loaves[loaf].Grams() * r.Control.BarShare())
}

func (r Rest) barsStage() work.Stage {
	s := work.Stage{
		ID: "bars", Kind: work.BarsStage, Title: "weigh the bars", EachLoaf: true,
		Why: "Fresh weights show the spread, and say later what the cure took.",
	}
	s.Tasks = make([]work.Task, 0, r.Control.Loaves)
	for loaf := range r.Control.Loaves {
		t := r.barsTask(work.OfLoaf("bars", loaf), loaf+1, "Weigh the bars of loaf "+strconv.Itoa(loaf+1))
		if !r.isCut(loaf + 1) {
			t.Waits = fmt.Sprintf("waits for: Cut loaf %d", loaf+1)
		}
		s.Tasks = append(s.Tasks, t)
	}
	return s
}

// barsTask asks for the weights of a loaf's bars, one by one or several
// together; of loaf 0, of any.
func (r Rest) barsTask(id string, loaf int, title string) work.Task {
	t := r.do(work.Bars, id, title, "One by one, or t: several together (10 x 1124). Not all need be weighed.")
	t.Loaf = loaf
	t.Target = r.BarMass(max(0, loaf-1)) // The mean that is expected, as a guide.
	if loaf > 0 {
		if cut, ok := batch.Last[batch.BarsCut](r.State, curing.CutTask(loaf)); ok {
			t.Count = cut.Fact.Bars
		} else {
			t.Count = r.Control.BarsPerLoaf()
		}
	}
	t.Scale, t.Reads, t.Max = r.Scale.Name, r.Scale.Reads, r.Scale.Max
	for _, w := range batch.All[batch.BarsWeighed](r.State) {
		if w.Fact.Task == id {
			t.Counted, t.Mass = t.Counted+w.Fact.Count, t.Mass+w.Fact.Mass
			t.Seq, t.At = w.Seq, w.At
		}
	}
	t.Done = t.Done || t.Count > 0 && t.Counted >= t.Count
	return t
}
