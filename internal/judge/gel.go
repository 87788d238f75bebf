package judge

import (
	"fmt"
	"slices"
	"strings"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/rest"
	"bench/internal/steps"
	"bench/internal/work"
)

// look is what a gelling loaf may look like.
type look struct {
	name   batch.GelLook
	title  string
	remedy string // remedy is what to do about it.
	// from is the temperature from which it is the likely one; zero goes by no
	// temperature.
	from quantity.Temperature
}

// looks are all of them, the coolest first. Temperatures and remedies are common
// practice, no source; the eye has the last word.
func looks() []look {
	return []look{
		{name: batch.NoGel, title: "No gel: pale and even", remedy: "Nothing to do: ungelled soap is soap. If gel is wanted: wrap warmer, or a barely warm oven."},
		{name: batch.Gelling, title: "Gelling: dark in the middle, spreading", remedy: "Leave it alone, covered; look again.", from: 55 * quantity.Degree},
		{name: batch.FullGel, title: "Full gel: dark to the edge", remedy: "Good. Let it cool by itself.", from: 65 * quantity.Degree},
		{name: batch.PartialGel, title: "Partial gel: dark in the middle, and cooling", remedy: "A dark disc with a pale rim stays; it is cosmetic. Wrap all of it warmer now, or leave it."},
		{name: batch.Cracked, title: "Cracked along the top", remedy: "Unwrap and cool it. Gloves: press the crack shut, mist it; look for white pockets at the cut."},
		{
			name: batch.Rising, title: "Rising, splitting or oozing: it overheats", from: 82 * quantity.Degree,
			remedy: "Unwrap at once, a fan on it, a tray under the mould; look again in 10 min. Gloves and goggles: do not refill or stir; look for lye pockets at the cut.",
		},
	}
}

// How far from what a look tells of a temperature may be without a question (common
// practice, no source: a thermometer held to the skin of a loaf reads less than its middle).
const (
	risingFrom  = 45 * quantity.Degree
	gellingFrom = 35 * quantity.Degree
	loafFrom    = 10 * quantity.Degree
	loafUpTo    = 100 * quantity.Degree
)

// doubtWarmth asks about a temperature that a loaf which looks like that does not have.
func doubtWarmth(f batch.GelLooked) string {
	least := map[batch.GelLook]quantity.Temperature{batch.Rising: risingFrom, batch.Gelling: gellingFrom}
	switch warm := f.Temperature; {
	case warm == 0: // It was not taken.
		return ""
	case warm < least[f.Look]:
		return fmt.Sprintf("%s is too cool for a loaf that is %s: was a figure left out, or is it something else?", warm, f.Look)
	case warm < loafFrom || warm > loafUpTo:
		return fmt.Sprintf("%s is no temperature of a loaf some hours old: was it read right?", warm)
	}
	return ""
}

// Overheats names the loaves that overheat, with what is done about it until they are looked
// at again; "" where that was done, or none does.
func Overheats(p steps.Plan) (which, remedy string) {
	waits := false
	for _, st := range p.Stages {
		for _, t := range st.Tasks {
			waits = waits || rest.LooksAgain(t.ID) && !t.Done && t.Skipped == ""
		}
	}
	if !waits {
		return "", ""
	}
	var loaves []string
	looked := batch.All[batch.GelLooked](p.State())
	for loaf := 1; loaf <= p.Loaves; loaf++ {
		for _, told := range slices.Backward(looked) {
			if meant(told.Fact, loaf) {
				if told.Fact.Look == batch.Rising {
					loaves = append(loaves, fmt.Sprintf("loaf %d", loaf))
				}
				break
			}
		}
	}
	if len(loaves) == 0 {
		return "", ""
	}
	all := looks()
	return strings.Join(loaves, ", "), all[len(all)-1].remedy
}

// lookNamed reads the name of a look.
func lookNamed(text string) (batch.GelLook, error) {
	var names []string
	for _, l := range looks() {
		if strings.EqualFold(string(l.name), text) {
			return l.name, nil
		}
		names = append(names, string(l.name))
	}
	last := len(names) - 1
	return "", fmt.Errorf("%q is no look: %s or %s", text, strings.Join(names[:last], ", "), names[last])
}

func gelChoices(task string) []Choice {
	var list []Choice
	for _, l := range looks() {
		list = append(list, Choice{Title: l.title, Why: l.remedy, Fact: batch.GelLooked{Task: task, Look: l.name}})
	}
	return list
}

// Likely gives the place of the answer that is offered first, by the figure that was
// typed with it.
func Likely(list []Choice, typed string) int {
	f, err := temperatureAnswer(work.Task{}, Answer{How: batch.Typed, Text: typed})
	if err != nil {
		return 0
	}
	warm, likely := f.(batch.TemperatureTaken).Temperature, batch.NoGel
	for _, l := range looks() {
		if l.from > 0 && warm >= l.from {
			likely = l.name
		}
	}
	return max(0, slices.IndexFunc(list, func(c Choice) bool {
		f, ok := c.Fact.(batch.GelLooked)
		return ok && f.Look == likely
	}))
}

// doubtGel asks about a loaf without gel that had some at an earlier look.
func doubtGel(p steps.Plan, f batch.GelLooked) string {
	if f.Look != batch.NoGel {
		return ""
	}
	for _, e := range slices.Backward(batch.All[batch.GelLooked](p.State())) {
		if e.Fact.Task == f.Task || e.Fact.Look == batch.NoGel || e.Fact.Look == batch.Cracked {
			continue
		}
		for loaf := 1; loaf <= p.Loaves; loaf++ {
			if meant(e.Fact, loaf) && meant(f, loaf) {
				return fmt.Sprintf("loaf %d: %s was said of it before, so it was not without gel: is it another loaf, or is the gel over?", loaf, e.Fact.Look)
			}
		}
	}
	return ""
}

// meant says that a look is one at that loaf; without loaves it is one at all of them.
func meant(f batch.GelLooked, loaf int) bool {
	return len(f.Loaves) == 0 || slices.Contains(f.Loaves, loaf)
}

// OfLoaf makes a look at the gel that of one loaf, or for 0 of all of which nothing was said
// yet. Another answer stays as it is.
func OfLoaf(p steps.Plan, c Choice, loaf int) Choice {
	f, ok := c.Fact.(batch.GelLooked)
	if !ok {
		return c
	}
	if left := p.GelUnseen(f.Task); loaf > 0 {
		f.Loaves = []int{loaf}
	} else if len(left) < p.Loaves {
		f.Loaves = left
	}
	c.Fact = f
	return c
}

// Warmed adds a temperature to what a look at the gel showed.
func Warmed(f batch.Fact, text string) (batch.Fact, error) {
	look, ok := f.(batch.GelLooked)
	if !ok || strings.TrimSpace(text) == "" {
		return f, nil
	}
	warm, err := temperatureAnswer(work.Task{ID: look.Task}, Answer{How: batch.Typed, Text: text})
	if err != nil {
		return nil, err
	}
	look.Temperature = warm.(batch.TemperatureTaken).Temperature
	return look, nil
}
