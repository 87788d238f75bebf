package steps

import (
	"fmt"

	"bench/internal/work"
)

// The policy of this file: nothing is weighed into a vessel in which something else
// waits, in whatever order a maker works.

// waitForVessels keeps every weighing waiting whose vessel holds something else by the
// facts. A batch begun under earlier rules may have nothing else to go on with, and is
// only told.
func (p *planner) waitForVessels(stages []work.Stage) {
	full := p.fullOf(stages)
	if len(full) == 0 {
		return
	}
	for i := range stages {
		st := &stages[i]
		for j := range st.Tasks {
			t := &st.Tasks[j]
			in, is := full[t.Vessel]
			if !is || t.Do != work.Weigh || t.Done || t.FromCup || in.task == t.ID || in.dry != "" && in.dry == st.Batter && t.MustType {
				continue
			}
			words := fmt.Sprintf("%s holds the %s", t.Vessel, in.what)
			if p.c.HoldsOne() {
				t.Waits = "waits: " + words
			} else {
				t.Hint = "! " + words + ": not into that one, take another. " + t.Hint
			}
		}
	}
}

// content is what waits in a vessel.
type content struct {
	task string // task is that of its weighing.
	what string
	dry  string // dry is the batter whose dry hydroxide it is; all of that may share a cup.
}

// fullOf gives what waits in which vessel by the facts.
func (p *planner) fullOf(stages []work.Stage) map[string]content {
	var full map[string]content
	for _, st := range stages {
		for i := range st.Tasks {
			t := &st.Tasks[i]
			gone, waits := p.emptied[t.ID]
			if t.Mass <= 0 || (!waits || gone) && !p.begunInCup(t) {
				continue
			}
			if full == nil {
				full = map[string]content{}
			}
			c := content{task: t.ID, what: t.Material + forWhat(st)}
			if st.Kind == work.LyeSolution && t.MustType {
				c.dry = st.Batter
			}
			full[p.nowIn(*t)] = c
		}
	}
	return full
}

// begunInCup says that a weighing in a cup has begun and is not finished.
func (p *planner) begunInCup(t *work.Task) bool {
	return t.Do == work.Weigh && !t.Done && t.Parts < 2 && !t.FromCup && !t.OfBatter() && !p.isPotOrLyeJug(t.Vessel)
}
