package rest

import (
	"fmt"

	"bench/internal/batch"
	"bench/internal/recipe"
	"bench/internal/work"
)

func gelID(hours int) string { return fmt.Sprintf("gel/%d h", hours) }

// GelHours are when a look at the gel is due: after one hour and three, and an
// hour after each look that found it overheating (common practice, no source).
func (r Rest) GelHours() []int {
	hours := []int{1}
	for h := 2; h <= lastGelLook; h++ {
		if h == 3 || r.overheated(h-1) {
			hours = append(hours, h)
		}
	}
	return hours
}

// lastGelLook is the hour after which no look at the gel is asked for.
const lastGelLook = 12

func (r Rest) overheated(hour int) bool {
	look, ok := batch.Last[batch.GelLooked](r.State, gelID(hour))
	return ok && look.Fact.Look == batch.Rising
}

// pockets says what to look for in loaves that overheated, or "".
func (r Rest) pockets() string {
	for _, h := range r.GelHours() {
		if r.overheated(h) {
			return fmt.Sprintf("It overheated (look after %d h): search for wet or crumbly lye pockets, and do not touch them bare. ", h)
		}
	}
	return ""
}

func (r Rest) gelLooks() work.Stage {
	s := work.Stage{
		ID: "gel", Kind: work.GelStage, Title: "gel",
		Why: "Gel starts in the middle and spreads. Too hot it cracks and rises; half way it leaves a dark disc.",
	}
	if r.Control.Recipe.Gel == recipe.GelPrevented {
		s.Why = "Gel is not wanted here: a dark middle means that it has begun, and wants cooling."
	}
	for _, h := range r.GelHours() {
		t := doneBy[batch.GelLooked](r, r.do(work.Choose, gelID(h), fmt.Sprintf("Look at the gel after %d h", h),
			"Dark to the edge? Cracks? Rising? Each has its remedy beside it. Type a temperature first if one was taken."))
		w, _ := r.State.Timer(fmt.Sprintf("%s%d", GelTimer, h))
		t = PassedBy(t, w.Seen, "the timer was seen, and nothing was noted")
		s.Tasks = append(s.Tasks, PassedBy(t, r.Unmoulded() > 0, "nothing was noted before the unmoulding"))
	}
	return s
}
