package judge

import (
	"fmt"
	"strings"
	"time"

	"bench/internal/batch"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/work"
)

// possibleDay refuses a day that has not come yet, or on which it cannot have been:
// nothing of a batch is before what it follows.
func possibleDay(p steps.Plan, f batch.Fact, now timer.Moment) error {
	when := batch.SaidOf(f).When
	switch {
	case when.IsZero():
		return nil
	case !now.Wall.IsZero() && before(now.Wall, when):
		return fmt.Errorf("%s has not come yet", dayOf(when))
	}
	return inOrder(p, f, when)
}

// inOrder refuses a time of a fact before what it follows.
func inOrder(p steps.Plan, f batch.Fact, when time.Time) error {
	for _, first := range follows(p, f) {
		if !first.at.IsZero() && before(when, first.at) {
			return fmt.Errorf("%s is before %s on %s, so it cannot be%s", dayOf(when), first.what, dayOf(first.at.In(when.Location())), first.mend)
		}
	}
	return nil
}

// earlier is something that others follow.
type earlier struct {
	what string
	at   time.Time // at is zero where it is not known.
	mend string    // mend says what else may be wrong.
}

// follows gives what a fact that follows the pour cannot come before, the first first.
func follows(p steps.Plan, f batch.Fact) []earlier {
	list := []earlier{{what: "the pour", at: p.Poured().Last.Wall}}
	cut := earlier{what: "the cut", at: p.Curing().First.Wall}
	switch f := f.(type) {
	case batch.BarsCut:
		out, _, _ := p.Task(work.OfLoaf("unmould", f.Loaf-1))
		if out.Done && out.Skipped == "" {
			list = append(list, earlier{"the unmoulding", out.At.Wall, "; if the loaf was out earlier, correct that first (u, with the day and the time)"})
		}
	case batch.BarsWeighed:
		if told, ok := batch.Last[batch.BarsCut](p.State(), work.OfLoaf("cut", f.Loaf-1)); f.Loaf > 0 && ok {
			cut.at = told.Moment().Wall
		}
		list = append(list, cut)
	case batch.SetAside:
		if strings.HasPrefix(f.Task, "cut/") {
			list = append(list, cut)
		}
	case batch.WeighedIn, batch.Tested, batch.Released, batch.Held, batch.BarsWent, batch.Complained:
		list = append(list, cut)
	default:
	}
	return list
}

// stillInOrder refuses a correction after which something that was said later would
// have come before what it follows.
func stillInOrder(p, after steps.Plan, corrected int) error {
	was := batch.All[batch.Fact](p.State())
	for i, e := range batch.All[batch.Fact](after.State()) {
		err := inOrder(after, e.Fact, e.Moment().Wall)
		if e.Seq == corrected || err == nil || i >= len(was) || inOrder(p, was[i].Fact, was[i].Moment().Wall) != nil {
			continue
		}
		return fmt.Errorf("%s: %w; correct that first", after.Title(batch.Task(e.Fact)), err)
	}
	return nil
}

// before compares by the minute, or by the day where one was only named: such a day is
// kept as its noon.
func before(a, b time.Time) bool {
	b = b.In(a.Location())
	if onlyDay(a) || onlyDay(b) {
		return a.Format(time.DateOnly) < b.Format(time.DateOnly)
	}
	return a.Truncate(time.Minute).Before(b.Truncate(time.Minute))
}

func onlyDay(t time.Time) bool { return t.Hour() == 12 && t.Minute() == 0 && t.Second() == 0 }

// dayAndTime is how a moment is written and read.
const dayAndTime = time.DateOnly + " 15:04"

// dayOf says a time as it was named.
func dayOf(t time.Time) string {
	if onlyDay(t) {
		return t.Format(time.DateOnly)
	}
	return t.Format(dayAndTime)
}

// doubtDay asks about a day on which some loaves were cut, and not all of them yet.
func doubtDay(p steps.Plan, f batch.Fact) string {
	switch f.(type) {
	case batch.WeighedIn, batch.Tested, batch.Released:
	default:
		return ""
	}
	when, cut := batch.SaidOf(f).When, p.Curing().Cut.Wall
	if when.IsZero() || cut.IsZero() || !before(when, cut) {
		return ""
	}
	return fmt.Sprintf("%s is before the last loaf was cut on %s", dayOf(when), dayOf(cut.In(when.Location())))
}
