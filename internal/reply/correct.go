package reply

import (
	"fmt"
	"slices"
	"strings"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/phrase"
	"bench/internal/recipe"
	"bench/internal/say"
	"bench/internal/steps"
	"bench/internal/timer"
)

// NewValue judges a corrected value before its reason is asked for: words refuse
// it, and one that looks like a slip must be said a second time. Doubt is the
// doubt before; without a doubt and without words the value will do.
func NewValue(s batch.State, p steps.Plan, seq int, text string, doubt *Doubted, now timer.Moment) (*Doubted, string) {
	f, err := judge.Correct(p, s, seq, text, "?")
	if err == nil {
		err = judge.Allows(p, f, now)
	}
	if err != nil {
		return doubt, phrase.Sentence(err)
	}
	words := judge.Doubt(p, f)
	if words == "" || doubt != nil && doubt.Fact == f {
		return nil, ""
	}
	return &Doubted{Fact: f, Words: words}, ""
}

// Correct corrects an entry, with the reason.
func Correct(code string, s batch.State, p steps.Plan, seq int, text, reason string, now timer.Moment) (Act, string) {
	f, err := judge.Correct(p, s, seq, text, reason)
	if err != nil {
		return nil, phrase.Sentence(err)
	}
	return allowed(code, p, f, now)
}

// Correctable says that a fact holds a value: a number, words, or the time of a
// tick.
func Correctable(f batch.Fact) bool { return valueOf(f) != "" }

// Measured says that a fact holds a number, which is what is misread.
func Measured(f batch.Fact) bool { return numberOf(f) != "" }

// TakeBack takes an entry back, with the reason; with "?" for a reason it says
// whether it could be.
func TakeBack(code string, p steps.Plan, seq int, reason string, now timer.Moment) (Act, string) {
	return allowed(code, p, batch.Withdrawn{Seq: seq, Reason: strings.TrimSpace(reason)}, now)
}

// Said puts an entry into words; one that was corrected says what stands now, and
// what was said first.
func Said(p steps.Plan, s batch.State, e batch.Entry) string {
	if s.Withdrawn(e.Seq) {
		return recipe.Clean("taken back: " + say.Fact(e, p, s))
	}
	with := Standing(s, e)
	if with == nil {
		return recipe.Clean(say.Fact(e, p, s))
	}
	return recipe.Clean(fmt.Sprintf("now %s (corrected; first %s): %s", valueOf(with), valueOf(e.Fact), say.Fact(batch.Entry{Fact: with}, p, s)))
}

// Standing gives what stands in the place of an entry that was corrected, or
// nil.
func Standing(s batch.State, e batch.Entry) batch.Fact {
	for _, later := range slices.Backward(s.Entries) {
		if c, ok := later.Fact.(batch.Corrected); ok && c.Seq == e.Seq && c.With != nil {
			return c.With
		}
	}
	return nil
}

// ValuePrompt says what a correction asks for, in which unit, and what stood there
// before.
func ValuePrompt(p steps.Plan, s batch.State, e batch.Entry) string {
	f := Standing(s, e)
	if f == nil {
		f = e.Fact
	}
	switch f := f.(type) {
	case batch.Weighed:
		what := f.Material + ", g"
		if t, _, ok := p.Task(f.Task); ok && t.OfBatter() {
			what = t.Title + ", net g"
		}
		return fmt.Sprintf("%s (was %s, asked %s)", what, f.Mass.At(f.Reads), f.Target.At(f.Reads))
	case batch.Grossed:
		asked := ""
		if t, _, ok := p.Task(f.Task); ok {
			asked = ", asked " + t.Target.At(f.Reads)
		}
		return fmt.Sprintf("%s: the whole weight, vessel included, g (was %s%s)", f.Vessel, f.Gross.At(f.Reads), asked)
	case batch.VesselReplaced:
		return fmt.Sprintf("%s: what it weighs empty, g (was %s)", f.By, f.Tare)
	case batch.TemperatureTaken:
		return fmt.Sprintf("%s, °C (was %s)", strings.Replace(f.Task, "/", ", ", 1), f.Temperature)
	case batch.BarsCut, batch.BarsWeighed, batch.SetAside, batch.WeighedIn, batch.Tested:
		return fmt.Sprintf("%s (was %s)", strings.Replace(batch.Task(f), "/", ", ", 1), numberOf(f))
	case batch.Ticked:
		if t, st, _ := p.Task(f.Task); st.TakesWeight(t) {
			was := "not weighed"
			if f.Mass > 0 {
				was = "was " + numberOf(f)
			}
			return fmt.Sprintf("g (%s), or the time at which it was done, such as 09:40", was)
		}
		return fmt.Sprintf("the time at which it was done, such as 09:40 (was %s)", e.At.Wall.Format("15:04"))
	case batch.TimerPutOff:
		return fmt.Sprintf("put off for how many minutes (was %s)", wordsOf(f))
	default:
		return fmt.Sprintf("in words (was %s)", wordsOf(f))
	}
}
