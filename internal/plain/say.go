package plain

import (
	"fmt"
	"slices"
	"strings"

	"bench/internal/front"
	"bench/internal/judge"
	"bench/internal/phrase"
	"bench/internal/readback"
	"bench/internal/reply"
	"bench/internal/tell"
	"bench/internal/timer"
	"bench/internal/work"
)

// describe says all that the screen shows of a task: how much, on which scale,
// into what, what the scale reads tared and not, how far off is still right, and
// how or why.
func (s *session) describe(t work.Task, stage work.Stage, some bool) {
	s.say("")
	if !some {
		s.nothing()
		return
	}
	at := 1 + slices.IndexFunc(stage.Tasks, func(each work.Task) bool { return each.ID == t.ID })
	s.sayf("Stage %d of %d, %s; task %d of %d.", stage.N, len(s.plan.Stages), stage.Title, at, len(stage.Tasks))
	s.sayTitle(t, stage)
	if t.Done && !reply.Again(t, stage) {
		s.say("u corrects it; g goes back to what is next.")
		return
	}
	if shared := reply.Shared(s.plan, t, s.beside); shared != "" {
		s.warn("WARNING: " + shared + ".")
	}
	if in := reply.InAlready(s.plan, t); in != "" {
		s.warn("WARNING: " + in + ".")
	}
	s.sayScale(t)
	for _, l := range readback.Of(s.plan, t.ID) {
		off := ""
		if l.Off {
			off = "OFF: "
		}
		s.sayf("%s%s %s, asked %s", off, l.What, l.Was, l.Asked)
	}
	if t.Hint != "" {
		s.say(t.Hint)
	} else {
		s.say(stage.Why)
	}
	s.sayHow(t, stage)
}

// sayTitle says what it is, and how much of it or how it was done.
func (s *session) sayTitle(t work.Task, stage work.Stage) {
	number, unit := reply.Asked(t, stage)
	switch {
	case t.Done || t.Skipped != "":
		s.say(t.Title + ": " + doneWords(t))
	case number != "" && t.Do != work.Gross && (t.Do == work.Weigh || t.Do == work.Portion || !t.Numeric() || t.Do == work.Temperature):
		s.say(t.Title + ": " + s.what(t, stage) + number + " " + unit)
	default:
		s.say(t.Title)
	}
}

// what says what the figure after it is.
func (s *session) what(t work.Task, stage work.Stage) string {
	switch t.Do {
	case work.Portion:
		return "stop when the scale reads "
	case work.Temperature:
		return reply.Warmth(s.plan, t, stage) + " "
	default:
		return ""
	}
}

func doneWords(t work.Task) string {
	switch {
	case t.Skipped != "":
		return "left out, " + t.Skipped
	case t.ByEye:
		return "done, by eye, not weighed"
	case t.Mass > 0:
		return "done, " + t.Mass.Reading(t.Reads)
	}
	return "done"
}

// sayScale says where it is weighed, what the scale must read and how far off is right.
func (s *session) sayScale(t work.Task) {
	s.sayWhere(t)
	s.sayReads(t)
	if parts := reply.Parts(t); t.Do == work.Weigh && parts != "" {
		s.say(parts)
	}
	if t.Tolerance <= 0 || t.Do != work.Weigh && t.Do != work.Portion {
		return
	}
	middle := t.Remaining()
	if t.Do == work.Portion {
		middle = t.StopAt
	}
	words := "Right within " + reply.Tolerance(t) + " g"
	if near := t.Tolerance.FloorTo(t.Reads); near > 0 {
		words += fmt.Sprintf(", from %s to %s", (middle - near).At(t.Reads), (middle + near).At(t.Reads))
	}
	s.say(words + ".")
}

func (s *session) sayWhere(t work.Task) {
	switch {
	case t.Do == work.Portion:
		s.sayf("Out of %s, into %s; %s.", t.Vessel, t.Into, t.Scale)
		s.sayf("The scale reads now %s, pot and all; the portion is %s g.", t.SoFar.At(t.Reads), t.Target.At(t.Reads))
	case t.Vessel != "" && t.Scale != "":
		s.sayf("Vessel: %s, on %s.", t.Vessel, t.Scale)
	case t.Vessel != "" || t.Scale != "":
		s.sayf("On %s.", t.Vessel+t.Scale)
	}
}

func (s *session) sayReads(t work.Task) {
	switch {
	case t.Do == work.Gross && t.TareKnown:
		s.sayf("The whole weight, vessel included; the vessel alone is %s g.", t.Tare.At(t.Reads))
	case t.Do == work.Gross:
		s.say("The whole weight, vessel included.")
	case t.Wetted:
		s.sayf("About %d %% of the cup goes in, by eye: the oil in it hides the weight.", t.Part())
	case t.FromCup && !t.TareKnown:
		s.sayf("Tared full, it reads -%s.", t.Remaining().At(t.Reads))
	case t.Stays() > 0 && t.TareKnown:
		s.sayf("Tared full, it reads -%s. Not tared, %s: vessel %s, and the %s that stays.",
			t.Remaining().At(t.Reads), t.Untared().At(t.Reads), t.Tare.At(t.Reads), t.Stays().At(t.Reads))
	case t.Do == work.Weigh && t.FromCup && t.TareKnown:
		s.sayf("Not tared, with all that goes in, it reads %s.", t.Untared().At(t.Reads))
	case t.Do == work.Weigh && t.TareKnown:
		s.sayf("Tared, it reads %s. Not tared, %s: vessel %s, so far %s, and this.",
			t.Remaining().At(t.Reads), t.Untared().At(t.Reads), t.Tare.At(t.Reads), t.SoFar.At(t.Reads))
	case t.Do == work.Weigh:
		s.sayf("Tared, it reads %s. No weight is known of %s: tare it.", t.Remaining().At(t.Reads), t.Vessel)
	}
}

// sayHow says what the task waits for, or how it is answered when that is not
// plain.
func (s *session) sayHow(t work.Task, stage work.Stage) {
	if expected, ok := reply.Expected(t); ok && expected != "" {
		s.say(phrase.Sentence(fmt.Errorf("%s", expected)))
	}
	if words := s.plan.Unguarded(); words != "" {
		s.warn(words + ".")
	}
	if reply.AfterPour(t.Do) {
		s.say(reply.InWordsHint(t.Do, s.now().Wall))
		if t.Do == work.Bars {
			s.say("done when those are all that you weigh.")
		}
	}
	switch choices := judge.Choices(s.plan, t.ID, ""); {
	case !t.Open && !reply.Again(t, stage):
		s.warn(t.Waits)
	case t.MustType:
		s.say("It burns: type what the scale says.")
	case t.Do == work.Choose:
		s.number(choiceTitles(choices))
		if stage.Kind == work.GelStage {
			s.say("A temperature goes after the number: 2 78.")
			if len(s.plan.GelUnseen(t.ID)) > 1 {
				s.say("That is of all loaves; of one alone: 2 loaf 1 78.")
			}
		}
	case stage.Kind == work.Gate && len(choices) > 0:
		s.say("Too hot: the word answers.")
	case len(choices) > 0:
		s.say("Too soft: the word answers.")
	}
	s.sayBand(stage)
}

// sayBand is the superfat of the batter at hand, for as long as weighing can
// still move it.
func (s *session) sayBand(stage work.Stage) {
	switch stage.Kind {
	case work.LyeSolution, work.Oils, work.Gate, work.LyeIntoOils:
	default:
		return
	}
	for _, b := range s.plan.Batters {
		if f := b.Superfat; b.Name == stage.Batter && f.High > f.Low {
			s.sayf("Superfat %.1f %%, between %.1f and %.1f, asked %s.", f.Percent, f.Low, f.High, b.Asked)
		}
	}
}

// promptFor is short: it comes again after every word.
func (s *session) promptFor(t work.Task) string {
	_, stage, _ := s.plan.Task(t.ID)
	_, unit := reply.Asked(t, stage)
	switch {
	case t.Do == work.Choose:
		return t.Title + ", number of the answer"
	case t.Do == work.Bars || t.Do == work.WeighIn:
		return t.Title + ", g"
	case t.Numeric() && unit != "":
		return t.Title + ", " + unit
	case t.Numeric():
		return t.Title
	}
	if stage.TakesWeight(t) {
		return t.Title + ", done, or g?"
	}
	return t.Title + ", done?"
}

// nothing says what a batch waits for.
func (s *session) nothing() {
	switch {
	case s.plan.Closed && len(s.plan.Since()) > 0:
		s.say("A warning opened after the release: " + tell.Sentences(s.plan.Since()) + " " + s.plan.Curing().Out() + " Afterwards: hold what is left, or let the release stand.")
		return
	case reply.StillFull(s.plan) != "":
		s.say("This batch has ended; " + reply.StillFull(s.plan) + ". end says what is empty by now; then it is closed.")
		return
	case s.plan.Closed:
		s.say("This batch is closed. Notes can still be added: note; complaints and where bars went: afterwards.")
		return
	case s.plan.Finished():
		s.say("Everything is done: end closes the batch. The record stays.")
		return
	}
	if which, remedy := judge.Overheats(s.plan); which != "" {
		s.warn("It overheats: " + which + ". " + remedy)
	} else {
		s.say("Nothing to do just now: the batch waits for a timer. It stays open when you leave, and the timers go on.")
	}
	s.sayElsewhere()
	s.listTimers()
	if !s.plan.Curing().Cut.IsZero() {
		s.cure("")
	}
}

// sayElsewhere says which other batches ask for something, and how one comes there.
func (s *session) sayElsewhere() {
	var others []front.UnderWay
	for _, b := range s.board().Batches {
		if b.Code != s.code && b.HeldBy == "" && !b.State.Closed() {
			others = append(others, b)
		}
	}
	for _, e := range reply.AskedElsewhere(others, s.now()) {
		there := "home (h), then " + e.Code + ", goes there"
		if len(others) == 1 {
			there = "other (o) goes there"
		}
		words := e.Waits
		if e.Now != "" {
			words = append(words, "now, "+e.Now)
		}
		s.sayf("BUT batch %s, %s: %s; %s.", e.Code, e.Recipe, strings.Join(words, "; "), there)
	}
}

// cure says how the bars dry.
func (s *session) cure(string) {
	for _, words := range s.plan.Curing().Words(s.now(), s.plan.Water(), s.Location) {
		s.say(words)
	}
}

// listTimers says what runs, since when, and due when.
func (s *session) listTimers() {
	now := s.now()
	list := s.board().Timers(now)
	if len(list) == 0 {
		s.say("No timer runs.")
		return
	}
	s.say("Timers:")
	for _, t := range list {
		s.say("  " + s.timerWords(t.Code, t.Timer, now))
	}
}

func (s *session) timerWords(code string, t timer.Timer, now timer.Moment) string {
	words := []string{t.Label + ", " + phrase.Timing(t, now, s.Location), "since " + phrase.Stamp(t.Start, now, s.Location)}
	if code != s.code {
		words[0] = code + ": " + words[0]
	}
	return strings.Join(words, ", ")
}
