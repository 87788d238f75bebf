package bench

import (
	"fmt"
	"strconv"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/phrase"
	"bench/internal/quantity"
	"bench/internal/reply"
	"bench/internal/timer"
	"bench/internal/ui/after"
	"bench/internal/ui/ink"
	"bench/internal/ui/intent"
	"bench/internal/work"
)

// rests says that a stage comes after the pour has been cleaned up.
func rests(k work.Kind) bool {
	switch k {
	case work.GelStage, work.Unmould, work.CutStage, work.BarsStage, work.CureStage, work.ReleaseTest, work.Release:
		return true
	default:
		return false
	}
}

// takesFigures says that a number can be typed: an answer, or what the
// thermometer said beside a look.
func takesFigures(t work.Task, stage work.Stage) bool {
	return t.Numeric() || t.Do == work.Choose && stage.Kind == work.GelStage || stage.TakesWeight(t)
}

// answers opens the page of answers to the task at hand.
func (b Screen) answers(now timer.Moment) (Screen, intent.Action) {
	t, stage, ok := b.Current(now)
	switch {
	case !ok || len(judge.Choices(b.Plan, t.ID, "")) == 0:
		b.Word = "There is no other answer here."
		return b, nil
	case !t.Open && !reply.Again(t, stage):
		b.Word = phrase.Sentence(fmt.Errorf("%s", waitsOrDone(t)))
		return b, nil
	}
	return b, intent.Choose{Task: t.ID, Typed: b.Typed}
}

func waitsOrDone(t work.Task) string {
	if t.Done {
		return "this is answered already"
	}
	return t.Waits
}

// takesWords says that a task may be answered in words: with a day, or several together.
func takesWords(t work.Task, stage work.Stage) bool {
	switch t.Do {
	case work.Count, work.Bars, work.Aside, work.WeighIn, work.Measure:
		return t.Open || reply.Again(t, stage)
	default:
		return false
	}
}

// inWords asks for the answer in words; a figure that was typed begins them.
func (b Screen) inWords(now timer.Moment) (Screen, intent.Action) {
	t, stage, ok := b.Current(now)
	if !ok || !takesWords(t, stage) {
		b.Word = "Nothing is asked here that takes words; n takes a note."
		return b, nil
	}
	now.Wall = now.Wall.In(b.at) // A day is one of the place where the bench stands.
	q := reply.InWords(b.Code, b.Plan, t, now)
	if b.Typed != "" {
		q.Begun = b.Typed + " "
	}
	return b, intent.Of(q)
}

// restLarge says what the large figures are, before anything is typed.
func restLarge(t work.Task, number, unit string) (f figures, ok bool) {
	switch t.Do {
	case work.Count:
		return figures{number, unit, "planned"}, true
	case work.Bars:
		word := fmt.Sprintf("%d weighed", t.Counted)
		if t.Count > 0 {
			word = fmt.Sprintf("%d of %d", t.Counted, t.Count)
		}
		return figures{ink.Dashes(number), unit, word}, true
	case work.WeighIn, work.Measure, work.Aside:
		return figures{ink.Dashes(number), unit, "type it"}, true
	default:
		return figures{}, false
	}
}

// restNote is what stands beside a task in the list.
func restNote(t work.Task) (value, note string) {
	switch {
	case t.Do == work.Count && t.Done:
		return strconv.Itoa(t.Counted), "planned " + strconv.Itoa(t.Count)
	case t.Do == work.Bars && t.Counted > 0:
		return t.Mass.At(t.Reads), fmt.Sprintf("g, %s", quantity.Count(t.Counted, "bar", "bars"))
	case t.Do == work.WeighIn && t.Counted > 0:
		return t.Mass.At(t.Reads), "g, " + quantity.Count(t.Counted, "weigh-in", "weigh-ins")
	case t.Do == work.Aside && t.Done && t.Mass > 0:
		return t.Mass.At(t.Reads), "g"
	}
	return "", ""
}

// rest stands below the tasks of a stage after the pour: the spread of the bars,
// the curve, the open warnings.
func (p panel) rest() []string {
	var words []string
	switch p.stage.Kind {
	case work.CutStage, work.BarsStage:
		words = p.spreadWords()
	case work.CureStage:
		return after.Panel(p.t, p.b.Plan, p.w, max(0, p.h-13), p.now, p.b.at)
	case work.ReleaseTest, work.Release:
		words = p.openWords()
	default:
	}
	var lines []string
	for _, s := range words {
		for _, l := range ink.Wrap(ink.Clean(s), p.w-2) {
			lines = append(lines, " "+l)
		}
	}
	return lines[:min(len(lines), max(0, p.h-12))]
}

func (p panel) spreadWords() []string {
	var words []string
	if c := p.b.Plan.Curing(); c.Planned > 0 {
		words = append(words, fmt.Sprintf("Bars cut: %d of %d planned.", c.Bars, c.Planned))
		words = append(words, c.Short...)
	}
	fresh, _ := p.b.Plan.Spreads()
	return append(words, fresh.Words("fresh")...)
}

func (p panel) openWords() []string {
	fresh, cured := p.b.Plan.Spreads()
	words := append(fresh.Words("fresh"), cured.Words("cured")...)
	open, since := p.b.Plan.Open(), p.b.Plan.Since()
	switch {
	case len(open) == 0:
		return append(words, "No warning is open.")
	case len(since) > 0: // They come first: that bars are out stands above them.
		return append(signed(since), words...)
	}
	return append(words, signed(open)...)
}

// signed puts the sign of what is off before each.
func signed(list []string) []string {
	words := make([]string, len(list))
	for i, o := range list {
		words[i] = ink.SignOff + " " + o
	}
	return words
}

// signOf is what stands before a fact that is told: what was found amiss is no tick.
func signOf(f batch.Fact) string {
	switch f := f.(type) {
	case batch.Tested:
		if !f.Passed {
			return ink.SignOff
		}
	case batch.GelLooked:
		if f.Look == batch.Rising {
			return ink.SignOff
		}
	default:
	}
	return ink.SignDone
}

// afterwards opens what may be said of a batch besides its work.
func (b Screen) afterwards() (Screen, intent.Action) {
	return b, intent.Choose{}
}
