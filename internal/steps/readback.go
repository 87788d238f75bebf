package steps

import (
	"cmp"
	"fmt"
	"slices"

	"bench/internal/quantity"
	"bench/internal/work"
)

// A pause point is a task like any other: the last one of a stage whose weights
// nobody can look at again. It is kept as a tick, because that somebody compared
// what was done with what was asked, and when, is an in-process check; what was
// read follows from the facts before it, and is not kept twice.

// readsBack is the first version of the rules that has pause points. A batch
// begun before goes on without.
const readsBack = 3

// ReadLine is one line of a pause point: what, how much was asked, how much it
// was, and by which instrument.
type ReadLine struct {
	What  string
	Asked string
	Was   string // Was has its unit.
	By    string
	Off   bool // Off says that it was off by more than its tolerance, or left out.
}

// withReadBack ends a stage of lye solution, split or pour with its pause point;
// loaves that are poured one by one share that of the last.
func (p *planner) withReadBack(s work.Stage) work.Stage {
	title := ""
	switch {
	case p.c.PlanVersion < readsBack || len(s.Tasks) == 0:
		return s
	case s.Kind == work.LyeSolution:
		title = fmt.Sprintf("Read back the %s lye solution", s.Batter)
	case s.Kind == work.SplitLayers:
		title = fmt.Sprintf("Read back the split of %s", s.Batter)
	case s.Kind == work.Split:
		title = fmt.Sprintf("Read back the split of %s", s.Layer)
	case s.Kind == work.Pour, s.Kind == work.ScentAndPour && s.Loaf == p.c.Loaves:
		title = fmt.Sprintf("Read back the pour of %s", s.Layer)
	default:
		return s
	}
	t := p.tick(s.ID+"/read back", title, "Compare what was done with what was asked.")
	t.Do, t.Signal = work.Confirm, "Read back"
	if i := slices.IndexFunc(p.pours, func(r pour) bool { return s.Kind == work.Split && r.recipe.Name == s.Layer && len(r.cups) > 0 }); i >= 0 {
		t.Hint = cmp.Or(p.cupsDiffer(p.pours[i]), t.Hint)
	}
	for _, before := range s.Tasks {
		if before.Seq > t.Seq { // Something came after it was read back.
			t.Done = false
		}
	}
	s.Tasks = append(s.Tasks, t)
	return s
}

// ReadBack gives the lines to compare at a pause point, or none for another
// task.
func (p Plan) ReadBack(task string) []ReadLine {
	t, st, ok := p.Task(task)
	switch {
	case !ok || t.Do != work.Confirm:
		return nil
	case st.Kind == work.Gate:
		return p.beforeLye(st)
	case st.Kind != work.ScentAndPour:
		return p.readLines(st)
	}
	var lines []ReadLine
	for _, each := range p.Stages {
		if each.Kind == work.ScentAndPour && each.Layer == st.Layer {
			lines = append(lines, p.readLines(each)...)
		}
	}
	return lines
}

// beforeLye gives what meets, all of it and the alkali first: from here on
// nothing can be taken out again.
func (p Plan) beforeLye(gate work.Stage) []ReadLine {
	var first, lines []ReadLine
	for _, b := range p.Batters {
		if b.Name == gate.Batter {
			first = append(first, ReadLine{
				What: "superfat", Asked: b.Asked.String(), Was: fmt.Sprintf("%.1f %%", b.Superfat.Percent),
				By: fmt.Sprintf("%.1f to %.1f %%", b.Superfat.Low, b.Superfat.High), Off: b.Superfat.Low < 0 || b.AsAsked() != 0,
			})
		}
	}
	for _, st := range p.Stages {
		if st.Batter != gate.Batter || st.Kind != work.LyeSolution && st.Kind != work.Oils && st.Kind != work.ScentOils {
			continue
		}
		for _, t := range st.Tasks {
			switch l, ok := p.readLine(t, st); {
			case !ok || t.Do == work.Gross:
			case t.MustType:
				first = append(first, l)
			default:
				lines = append(lines, l)
			}
		}
	}
	return append(first, lines...)
}

// readLines gives what a stage weighed or poured.
func (p Plan) readLines(st work.Stage) []ReadLine {
	var lines []ReadLine
	for _, t := range st.Tasks {
		if l, ok := p.readLine(t, st); ok {
			lines = append(lines, l)
		}
	}
	return lines
}

// readLine gives the line of a task with what was decided upon it: what came in or out
// since stands in its weight, and in no line of its own.
func (p Plan) readLine(t work.Task, st work.Stage) (ReadLine, bool) {
	l, ok := readLine(t)
	if !ok || t.Do != work.Weigh || p.planner.s.Undecided() {
		return l, ok
	}
	for _, of := range p.Stages {
		if of.Batter != st.Batter {
			continue
		}
		for _, first := range of.Tasks {
			if first.ID != t.ID && p.planner.decidedOn(first.ID, t.ID) {
				return l, false
			}
		}
	}
	since, _ := p.planner.since(t.ID, len(p.planner.s.Entries)+1)
	if since == 0 {
		return l, ok
	}
	was := t.Mass
	t.Mass += since
	l.Was, l.Off = grams(t.Mass, t.Reads), t.Off() != 0
	if l.By = grams(was, t.Reads) + fmt.Sprintf(" and %s more", grams(since, t.Reads)); since < 0 {
		l.By = grams(was, t.Reads) + fmt.Sprintf(" less %s out again", grams(-since, t.Reads))
	}
	return l, ok
}

// decidedOn says that a weighing brings in, or takes out again, what was decided upon
// another one.
func (p *planner) decidedOn(first, id string) bool {
	for i, d := range p.s.Decisions(first) {
		if id == missingID(first, i) || id == outID(first, i) || id == first+"/for "+d.Fact.Oil+nth(i) {
			return true
		}
	}
	return false
}

// readLine gives the line of a task, if it has a weight or a height.
func readLine(t work.Task) (ReadLine, bool) {
	l := ReadLine{What: t.Material, Asked: t.Target.At(max(t.Reads, quantity.Milligram)), By: t.Scale}
	switch {
	case t.Do == work.Gross:
		l.What = t.Vessel + ", full"
	case t.Do == work.Portion && work.LoafOf(t.ID) > 0:
		l.What = fmt.Sprintf("loaf %d", work.LoafOf(t.ID))
	case t.Do == work.Portion:
		l.What = t.Title
	case t.Do == work.Weigh:
	case t.PourLine > 0:
		l = ReadLine{What: fmt.Sprintf("loaf %d", work.LoafOf(t.ID)), Asked: t.PourLine.String(), Was: "poured", By: grams(t.Target, t.Reads) + " into it"}
	default:
		return l, false
	}
	switch {
	case t.Skipped != "":
		l.Was, l.Off = "left out", true
	case l.Was == "":
		l.Was = grams(t.Mass, t.Reads)
		l.Off = t.Off() != 0
	}
	if t.ByEye {
		l.By = "by eye"
	}
	return l, true
}
