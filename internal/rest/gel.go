package rest

import (
	"fmt"
	"slices"
	"strings"

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

// GelLooks gives what each loaf looked like by a task, as it was said last; "" is not
// said yet.
func (r Rest) GelLooks(task string) []batch.GelLook {
	said := make([]batch.GelLook, r.Control.Loaves)
	for _, f := range batch.All[batch.GelLooked](r.State) {
		for loaf := range said {
			if f.Fact.Task == task && (len(f.Fact.Loaves) == 0 || slices.Contains(f.Fact.Loaves, loaf+1)) {
				said[loaf] = f.Fact.Look
			}
		}
	}
	return said
}

func (r Rest) overheated(hour int) bool {
	return slices.Contains(r.GelLooks(gelID(hour)), batch.Rising)
}

// looked says that something was said of every loaf.
func (r Rest) looked(hour int) bool { return !slices.Contains(r.GelLooks(gelID(hour)), "") }

// pockets says what to look for in a loaf that overheated, or "".
func (r Rest) pockets(loaf int) string {
	for _, h := range r.GelHours() {
		if r.GelLooks(gelID(h))[loaf] == batch.Rising {
			return fmt.Sprintf("It overheated (look after %d h): search for wet or crumbly lye pockets, and do not touch them bare. ", h)
		}
	}
	return ""
}

// sayLooks tells what was said of some loaves, or is "".
func (r Rest) sayLooks(hour int) string {
	var words []string
	for loaf, look := range r.GelLooks(gelID(hour)) {
		if look != "" {
			words = append(words, fmt.Sprintf("loaf %d %s", loaf+1, look))
		}
	}
	return strings.Join(words, ", ")
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
		t := r.do(work.Choose, gelID(h), fmt.Sprintf("Look at the gel after %d h", h),
			"Dark to the edge? Cracks? Rising? Each has its remedy beside it. Type a temperature first if one was taken.")
		if r.looked(h) {
			t = doneBy[batch.GelLooked](r, t)
		} else if said := r.sayLooks(h); said != "" {
			t.Title, t.Hint = fmt.Sprintf("Look at the gel of the other loaves after %d h", h), said+"; and the others? "+t.Hint
		}
		w, _ := r.State.Timer(fmt.Sprintf("%s%d", GelTimer, h))
		t = PassedBy(t, w.Seen, "the timer was seen, and nothing was noted")
		s.Tasks = append(s.Tasks, PassedBy(t, r.Unmoulded() > 0, "nothing was noted before the unmoulding"))
	}
	return s
}
