package steps

import (
	"cmp"
	"fmt"
	"slices"

	"bench/internal/work"
)

// A pause point is a task like any other: the last one of a stage whose weights
// nobody can look at again. It is kept as a tick, because that somebody compared
// what was done with what was asked, and when, is an in-process check; what was
// read follows from the facts before it, and is not kept twice.

// readsBack is the first version of the rules that has pause points. A batch
// begun before goes on without.
const readsBack = 3

// withReadBack ends a stage of lye solution, split or pour with its pause point;
// loaves that are poured one by one share that of the last.
func (p *planner) withReadBack(s work.Stage) work.Stage {
	var title string
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
		t.Hint = cmp.Or(p.pours[i].cupsDiffer(), t.Hint)
	}
	for _, before := range s.Tasks {
		if before.Seq > t.Seq { // Something came after it was read back.
			t.Done = false
		}
	}
	s.Tasks = append(s.Tasks, t)
	return s
}
