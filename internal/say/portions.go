package say

import (
	"fmt"
	"slices"
	"strings"

	"bench/internal/steps"
	"bench/internal/work"
)

// Moved is a portion that was poured off by more than its tolerance; what is poured later
// follows by itself.
type Moved struct {
	Task  string
	Words string // Words say by how much it was off, and what followed.

	evened bool // evened says that it is as it was asked by what was poured back or over since.
	stage  string
	off    string // off is by how much it was off, without the layer and what followed.
}

// Portions finds those that were off, in the order of things.
func Portions(p steps.Plan) []Moved {
	var list []Moved
	for _, st := range p.Stages {
		for _, t := range st.Tasks {
			if off := t.Mass - t.Target; t.Do == work.Portion && t.Done && t.Skipped == "" && off.Abs() > t.Tolerance {
				words := strings.Replace(steps.SayOff(t, off), t.Material, t.Title, 1)
				evened := (t.There() - t.Target).Abs() <= t.Tolerance
				list = append(list, Moved{t.ID, p.About(t.ID) + words + ": " + followed(st, t), evened, st.ID, words})
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
			others = append(others, t.Title+" "+t.Target.Reading(t.Reads))
		}
	}
	if len(others) == 0 {
		return fmt.Sprintf("no portion was left to share it, and what stays in %s differs", off.Vessel)
	}
	return "of what was left, " + strings.Join(others, ", ")
}

// Settled says why nothing is to be decided where nothing is: of the last split that was
// off it names every portion that got too much or too little, and what followed.
func Settled(p steps.Plan) string {
	all := Portions(p)
	moved := slices.DeleteFunc(slices.Clone(all), func(m Moved) bool { return m.evened })
	switch {
	case len(all) == 0:
		return "Nothing is to be decided: no weight was off."
	case len(moved) == 0:
		return "Nothing is to be decided: what was poured off was evened out again."
	}
	last := moved[len(moved)-1]
	var before strings.Builder
	for _, m := range moved[:len(moved)-1] {
		if m.stage == last.stage {
			before.WriteString(p.About(m.Task) + m.off + ". ")
		}
	}
	return "Nothing is to be decided; what follows has moved along. " + before.String() + last.Words + "."
}
