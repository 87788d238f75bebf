package steps

import (
	"fmt"
	"strings"

	"bench/internal/work"
)

// Moved is a portion that was off by more than its tolerance. Nothing is to be
// decided about it, since what is poured later follows by itself.
type Moved struct {
	Task  string
	Words string // Words say by how much it was off, and what followed.
}

// Moved finds the portions that were off, in the order of things.
func (p Plan) Moved() []Moved {
	var list []Moved
	for _, st := range p.Stages {
		for _, t := range st.Tasks {
			if off := t.Mass - t.Target; t.Do == work.Portion && t.Done && t.Skipped == "" && off.Abs() > t.Tolerance {
				list = append(list, Moved{t.ID, p.about(t.ID) + strings.Replace(sayOff(t, off), t.Material, t.Title, 1) + ": " + followed(st, t)})
			}
		}
	}
	return list
}

// followed says what the portions that came after one were then asked for.
func followed(st work.Stage, off work.Task) string {
	var others []string
	for _, t := range st.Tasks {
		if t.Do == work.Portion && t.ID != off.ID && (!t.Done || t.Seq > off.Seq) {
			others = append(others, t.Title+" "+grams(t.Target, t.Reads))
		}
	}
	if len(others) == 0 {
		return fmt.Sprintf("no portion was left to share it, and what stays in %s differs", off.Vessel)
	}
	return "of what was left, " + strings.Join(others, ", ")
}

// Settled says why nothing is to be decided where nothing is.
func (p Plan) Settled() string {
	moved := p.Moved()
	if len(moved) == 0 {
		return "Nothing is to be decided: no weight was off."
	}
	return "Nothing is to be decided; what follows has moved along. " + moved[len(moved)-1].Words + "."
}
