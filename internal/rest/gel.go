package rest

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"bench/internal/batch"
	"bench/internal/recipe"
	"bench/internal/timer"
	"bench/internal/work"
)

// When loaves are looked at while they may gel (all of it common practice, no source).
const (
	firstGelLook  = 1  // hours after the pour
	secondGelLook = 3  // hours after the pour
	lastGelLook   = 12 // hours after the pour, from which nothing that overheats is left
	// gelEarly is how much before its time a look still answers it.
	gelEarly = 15 * time.Minute
	// gelAgain is when a loaf that overheats is looked at again.
	gelAgain = 10 * time.Minute
)

const (
	gelTask   = "gel/"
	againTask = "gel/again " // againTask comes before the number of the look that found it overheating.
)

// LooksAgain says that a task is a look at what overheats, some minutes after it did.
func LooksAgain(task string) bool { return strings.HasPrefix(task, againTask) }

func gelID(hours int) string { return fmt.Sprintf("%s%d h", gelTask, hours) }

// GelTimerOf gives the timer of a look at the gel by its task.
func GelTimerOf(task string) string {
	return GelTimer + strings.TrimSuffix(strings.TrimPrefix(task, gelTask), " h")
}

// gelLook is a look that is planned, or one that follows from another.
type gelLook struct {
	task   string
	start  timer.Moment
	after  time.Duration
	loaves []int        // loaves are those that it asks about, counted from 1.
	said   []lookAtLoaf // said are the looks that answer it.
}

type lookAtLoaf = batch.Told[batch.GelLooked]

// gelLooks are those after one hour and three, and one some minutes after each that found
// a loaf overheating, in the order in which they are due. A look is one at its moment: an
// early one leaves those that are planned as they were.
func (r Rest) gelLooks() []gelLook {
	var list []gelLook
	for _, h := range []int{firstGelLook, secondGelLook} {
		list = append(list, r.plannedLook(h))
	}
	looks := batch.All[batch.GelLooked](r.State)
	for i, told := range looks {
		if told.Fact.Look != batch.Rising || r.sincePour(told) >= lastGelLook*time.Hour {
			continue
		}
		again := gelLook{task: againTask + strconv.Itoa(told.Seq), start: told.Moment(), after: gelAgain, said: looks[i+1:]}
		for loaf := 1; loaf <= r.Control.Loaves; loaf++ {
			if ofLoaf(told, loaf) {
				again.loaves = append(again.loaves, loaf)
			}
		}
		list = append(list, again)
	}
	slices.SortStableFunc(list, func(a, b gelLook) int { return cmp.Compare(r.due(a), r.due(b)) })
	return list
}

func (r Rest) plannedLook(hours int) gelLook {
	l := gelLook{task: gelID(hours), start: r.Poured, after: time.Duration(hours) * time.Hour}
	for loaf := range r.Control.Loaves {
		l.loaves = append(l.loaves, loaf+1)
	}
	for _, told := range batch.All[batch.GelLooked](r.State) {
		since := r.sincePour(told)
		nextIs := hours < secondGelLook && since >= secondGelLook*time.Hour-gelEarly
		if since >= l.after-gelEarly && (!nextIs || told.Fact.Task == l.task) {
			l.said = append(l.said, told)
		}
	}
	return l
}

func (r Rest) sincePour(told lookAtLoaf) time.Duration {
	since, _ := told.Moment().Since(r.Poured)
	return since
}

// due is how long after the pour a look is due.
func (r Rest) due(l gelLook) time.Duration {
	since, _ := l.start.Since(r.Poured)
	return since + l.after
}

func ofLoaf(told lookAtLoaf, loaf int) bool {
	return len(told.Fact.Loaves) == 0 || slices.Contains(told.Fact.Loaves, loaf)
}

// of gives what was last said of a loaf; "" is nothing yet.
func (l gelLook) of(loaf int) batch.GelLook {
	for _, told := range slices.Backward(l.said) {
		if ofLoaf(told, loaf) {
			return told.Fact.Look
		}
	}
	return ""
}

// unseen are the loaves of which nothing was said yet.
func (l gelLook) unseen() []int {
	return slices.DeleteFunc(slices.Clone(l.loaves), func(loaf int) bool { return l.of(loaf) != "" })
}

func (r Rest) gelLook(task string) gelLook {
	list := r.gelLooks()
	if i := slices.IndexFunc(list, func(l gelLook) bool { return l.task == task }); i >= 0 {
		return list[i]
	}
	return gelLook{}
}

// GelSaid gives what a loaf, counted from 1, looked like by a task, as it was said last; ""
// is not said yet.
func (r Rest) GelSaid(task string, loaf int) batch.GelLook { return r.gelLook(task).of(loaf) }

// GelUnseen gives the loaves of which a look has said nothing yet, counted from 1.
func (r Rest) GelUnseen(task string) []int { return r.gelLook(task).unseen() }

// pockets says what to look for in a loaf that overheated, or "".
func (r Rest) pockets(loaf int) string {
	for _, told := range batch.All[batch.GelLooked](r.State) {
		if told.Fact.Look == batch.Rising && ofLoaf(told, loaf+1) {
			return fmt.Sprintf("It overheated (look %s after the pour): search for wet or crumbly lye pockets, and do not touch them bare. ", timer.Words(r.sincePour(told)))
		}
	}
	return ""
}

// sayLooks tells what was said of some loaves, or is "".
func (l gelLook) sayLooks() string {
	var words []string
	for _, loaf := range l.loaves {
		if look := l.of(loaf); look != "" {
			words = append(words, fmt.Sprintf("loaf %d %s", loaf, look))
		}
	}
	return strings.Join(words, ", ")
}

func (r Rest) gelStage() work.Stage {
	s := work.Stage{
		ID: "gel", Kind: work.GelStage, Title: "gel",
		Why: "Gel starts in the middle and spreads. Too hot it cracks and rises; half way it leaves a dark disc.",
	}
	if r.Control.Recipe.Gel == recipe.GelPrevented {
		s.Why = "Gel is not wanted here: a dark middle means that it has begun, and wants cooling."
	}
	for _, l := range r.gelLooks() {
		t := r.gelTaskOf(l)
		words := "not looked at before the unmoulding"
		if w, _ := r.State.Timer(GelTimerOf(l.task)); w.Seen { // Which silenced it, and was no look.
			words = "not looked at: the timer was seen, and nothing was said"
		}
		s.Tasks = append(s.Tasks, PassedBy(t, r.Unmoulded() > 0, words))
	}
	return s
}

func (r Rest) gelTaskOf(l gelLook) work.Task {
	title, others := fmt.Sprintf("Look at the gel after %d h", int(l.after.Hours())), fmt.Sprintf("Look at the gel of the other loaves after %d h", int(l.after.Hours()))
	if LooksAgain(l.task) {
		title = "Look again at what overheats, after " + timer.Words(l.after)
		others = title
	}
	t := r.do(work.Choose, l.task, title, "Dark to the edge? Cracks? Rising? Each has its remedy beside it. Type a temperature first if one was taken.")
	if early := r.early(l); early != "" && len(l.said) == 0 {
		t.Hint = early + t.Hint
	}
	t.Warns = slices.ContainsFunc(l.loaves, func(loaf int) bool { return l.of(loaf) == batch.Rising })
	switch said := l.sayLooks(); {
	case len(l.unseen()) == 0 && len(l.said) > 0:
		if last := l.said[len(l.said)-1]; !t.Done {
			t.Done, t.Seq, t.At = true, last.Seq, last.At
		}
	case said != "":
		t.Title, t.Hint = others, said+"; and the others? "+t.Hint
	}
	return t
}

// early tells of the last look before the time of a planned one, or is "".
func (r Rest) early(l gelLook) string {
	words := ""
	for _, told := range batch.All[batch.GelLooked](r.State) {
		if told.Fact.Task == l.task && r.sincePour(told) < l.after-gelEarly {
			words = fmt.Sprintf("Early, %s after the pour: %s. This look is still to come. ", timer.Words(r.sincePour(told)), told.Fact.Look)
		}
	}
	return words
}

func (r Rest) gelTimers() []timer.Timer {
	var list []timer.Timer
	for _, l := range r.gelLooks() {
		again := LooksAgain(l.task)
		if len(l.unseen()) == 0 || r.ticked(l.task) || r.Control.Recipe.Gel == recipe.GelPrevented && !again {
			continue
		}
		t := timer.Timer{
			ID: GelTimerOf(l.task), Label: "look at the gel: dark to the edge? cracks? too hot?",
			Start: l.start, After: l.after, Priority: timer.ActNow, Presses: GelLasts,
		}
		if again {
			t.Label = "look at what overheats: does it still rise?"
		}
		list = append(list, t)
	}
	return list
}
