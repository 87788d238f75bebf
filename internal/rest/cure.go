package rest

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"bench/internal/batch"
	"bench/internal/curing"
	"bench/internal/quantity"
	"bench/internal/tell"
	"bench/internal/timer"
	"bench/internal/work"
)

func (r Rest) cureStage() work.Stage {
	c := curing.Of(r.State)
	s := work.Stage{
		ID: "cure", Kind: work.CureStage, Title: "cure",
		Why: "Weeks of cure are mainly water leaving: marked bars tell when that has become slow.",
	}
	over := r.cured()
	next := 1
	for _, m := range c.Marks {
		t := r.markedTask(m.Bar, fmt.Sprintf("Weigh marked bar %s", m.Bar))
		last := m.Last()
		t.Target = max(0, last.Mass)
		t.Mass, t.Seq, t.At, t.Counted = last.Mass, last.Seq, last.At, len(m.Readings)
		s.Tasks = append(s.Tasks, PassedBy(t, over, ""))
		if n, err := strconv.Atoi(m.Bar); err == nil {
			next = max(next, n+1)
		}
	}
	if len(c.Marks) < mostMarked {
		title := "Mark a bar as bar " + strconv.Itoa(next) + " and weigh it"
		if len(c.Marks) > 0 {
			title = "If you like: mark another as bar " + strconv.Itoa(next) + ", too"
		}
		s.Tasks = append(s.Tasks, PassedBy(r.markedTask(strconv.Itoa(next), title), over, "not marked"))
	}
	s.Tasks = append(s.Tasks, r.wholeCure(c))
	return s
}

func (r Rest) wholeCure(c curing.Curing) work.Task {
	t := r.tick(WholeCure, "The cure is over: on to the release test", fmt.Sprintf(
		"Shortest cure %s from the cut, usual %s. Leave it out (x) with the reason to test earlier.", timer.Words(c.Rules.Least), timer.Words(c.Rules.Usual)))
	t.Signal = "Is the cure over"
	if dry := r.tooShort(); dry > 0 {
		t.Done, t.Seq, t.At = false, 0, timer.Moment{}
		t.Hint = fmt.Sprintf("It was ticked %s after the cut, as the cut is dated now. %s", timer.Words(dry), t.Hint)
	}
	return t
}

// cured says that the cure is over: it was ticked when it was long enough, by the cut as it is
// dated now, or left out with a reason.
func (r Rest) cured() bool { return r.ticked(WholeCure) && r.tooShort() == 0 }

// tooShort gives how long after the cut the cure was ticked over, where a corrected cut leaves
// that below the shortest cure; or zero.
func (r Rest) tooShort() time.Duration {
	d, ticked := r.State.Done(WholeCure)
	c := curing.Of(r.State)
	dry, cut := c.Dry(d.At)
	if !ticked || d.Skipped != "" || !cut || dry >= c.Rules.Least {
		return 0
	}
	return max(dry, time.Minute)
}

func (r Rest) markedTask(mark, title string) work.Task {
	t := r.do(work.WeighIn, curing.BarTask(mark), title, "Always the same bars, the same scale. t: with the day, where it was another.")
	t.Bar, t.Target = mark, r.BarMass(0) // What is expected, as a guide.
	t.Scale, t.Reads, t.Max = r.Scale.Name, r.Scale.Reads, r.Scale.Max
	return t
}

// curedBar is what a cured bar is expected to weigh: what the bars weighed fresh,
// less what the marked ones have lost; the mean of those where no others were
// weighed, or zero, which is not known.
func (r Rest) curedBar() quantity.Mass {
	marks := curing.Of(r.State).Marks
	if len(marks) == 0 {
		return 0
	}
	first, last := quantity.Mass(0), quantity.Mass(0)
	for _, m := range marks {
		first, last = first+max(0, m.Readings[0].Mass), last+max(0, m.Last().Mass)
	}
	fresh := curing.SpreadOf(batch.All[batch.BarsWeighed](r.State), func(id string) bool { return id != WeightTest }).Mean
	if fresh <= 0 || first <= 0 {
		return last / quantity.Mass(len(marks))
	}
	return quantity.FromGrams(fresh.Grams() * last.Grams() / first.Grams())
}

// curedFrom says how old the weights are that cured bars are expected by, or "".
func (r Rest) curedFrom() string {
	c := curing.Of(r.State)
	latest := timer.Moment{}
	for _, m := range c.Marks {
		if at := m.Last().At; latest.Wall.Before(at.Wall) {
			latest = at
		}
	}
	if latest.Wall.IsZero() || c.Cut.IsZero() {
		return ""
	}
	return fmt.Sprintf(" What is expected is what marked bars weighed last, on %s, day %d of the cure; they may be drier by now.",
		latest.Wall.Format("2 January"), int(latest.Wall.Sub(c.Cut.Wall).Hours()/24))
}

func (r Rest) testStage() work.Stage {
	s := work.Stage{
		ID: "release test", Kind: work.ReleaseTest, Title: "release test",
		Why: "A bar with free alkali burns, however well it looks.",
	}
	alkali := doneBy[batch.Tested](r, r.do(work.Measure, alkaliTest, "pH, or free alkali", fmt.Sprintf(
		"Gloves and goggles. pH of a 1 %% solution in distilled water, passed from %.0f to %.1f, by practice; or t: free alkali as 0.02 %%, passed up to %.2f %%. Strips read soap poorly; the test's own sheet and local rules come first.",
		LowestPH, HighestPH, mostFreeAlkali)))
	look := doneBy[batch.Tested](r, r.do(work.Choose, LookTest, "Look: no white pockets, beads, orange spots or cracks",
		"Cut one bar through the middle."))
	alkali.Warns, look.Warns = r.failed(batch.PHTest) != "", r.failed(batch.LookTest) != ""
	if loaves := r.overheated(); len(loaves) > 0 {
		look.Hint = strings.Join(loaves, ", ") + ". Cut a bar of it through the middle, gloves on."
	}
	weight := r.barsTask(WeightTest, 0, "Weigh the cured bars")
	weight.Target = r.curedBar()
	weight.Hint = "As many as you can: the label's weight rests on them." + r.curedFrom()
	s.Tasks = []work.Task{alkali, look, weight}
	return s
}

func (r Rest) releaseStage() work.Stage {
	t := r.do(work.Choose, DecideID, "Release the bars, or hold them", "An open warning asks for a reason, and stands in the record.")
	t.Signal = "Release or hold" // From afar it must not read as an order to release.
	if r.overPH() {
		t.Hint = fmt.Sprintf("That soap stays up to pH %.1f is practice, no law: bars on sale had 10.7 to 12.2 (Mwanza and Zombe 2020). Hold them to cure on and test again after a week, free alkali too; or release them with the reason.", HighestPH)
	}
	released, held, e := r.State.Verdict()
	if released && len(r.Since) == 0 {
		t.Done, t.Seq, t.At = true, e.Seq, e.At
	}
	s := work.Stage{
		ID: "release", Kind: work.Release, Title: "release", Tasks: []work.Task{t},
		Why: "Who releases them answers for them; safety assessment and local rules are the maker's to meet.",
	}
	if len(r.Since) > 0 {
		s.Title = "release: a word again"
		s.Why = "A warning that opens after the release wants a word of its own: the bars may be out already."
		s.Tasks[0].Title = "A warning opened after the release: hold what is left, or let it stand"
		s.Tasks[0].Signal = "Hold or let stand"
		s.Tasks[0].Hint = curing.Of(r.State).Out() + " Opened since: " + tell.Sentences(r.Since)
	}
	if held {
		s.Title = "release: held"
		s.Why = "The bars are held: they may be tested again, made anew, or thrown away safely."
	}
	return s
}
