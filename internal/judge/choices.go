package judge

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"bench/internal/batch"
	"bench/internal/next"
	"bench/internal/quantity"
	"bench/internal/rest"
	"bench/internal/steps"
	"bench/internal/tell"
	"bench/internal/work"
)

// Choice is one of several answers to a task.
type Choice struct {
	Title string
	Why   string     // Why is what follows from it, such as a remedy.
	Ask   string     // Ask is what must be said with it; empty is nothing.
	Fact  batch.Fact // Fact is nil where nothing is kept, and one goes back to what Why says.
}

// With gives the choice's fact with what was said.
func (c Choice) With(text string) (batch.Fact, error) {
	text = strings.TrimSpace(text)
	if c.Ask != "" && text == "" {
		return nil, errors.New("say it in a few words")
	}
	switch f := c.Fact.(type) {
	case batch.Released:
		f.Reason = text
		return f, nil
	case batch.Held:
		f.Reason = text
		return f, nil
	case batch.Closed:
		f.Reason = thrownAway + text
		return f, nil
	case batch.Ticked:
		f.Why = text
		return f, nil
	case batch.Tested:
		f.Words = text
		return f, nil
	case batch.Complained:
		f.Words, f.Who = text, ""
		if words, who, named := strings.Cut(text, " / "); named {
			f.Words, f.Who = strings.TrimSpace(words), strings.TrimSpace(who)
		}
		return f, nil
	case batch.BarsWent:
		return wentTo(f, text)
	case batch.Reworks:
		return madeOf(f, text)
	case batch.LimitStated:
		return limitBy(f, text)
	default:
		return c.Fact, nil
	}
}

// On gives the choice's fact with what was said, which may end with the day on which
// bars left or somebody complained.
func (c Choice) On(text string, now time.Time) (batch.Fact, error) {
	words, said, err := saidOn(Answer{Text: text, Now: now})
	if err != nil || said.When.IsZero() { // Words may hold an "on" of their own.
		return c.With(text)
	}
	switch f := c.Fact.(type) {
	case batch.BarsWent:
		f.Said = said
		c.Fact, text = f, words
	case batch.Complained:
		f.Said = said
		c.Fact, text = f, words
	default:
	}
	return c.With(text)
}

// lookAgain is after how long a loaf that is too soft is looked at again (common
// practice, no source).
const lookAgain = 12 * time.Hour

// What a loaf gets that does not come out of its mould, before it is tried again (common
// practice, no source).
const (
	frozen = 3 * time.Hour
	stands = 24 * time.Hour
)

// Choices gives the answers to a task, or what may be said besides its plain
// answer. By is who answers for a release, if that is known.
func Choices(p steps.Plan, task string, by string) []Choice {
	t, st, ok := p.Task(task)
	if !ok {
		return nil
	}
	hot, too := p.TooHot(st.Batter)
	switch {
	case task == steps.MeetID(st.Batter) && too:
		return hotChoices(t, hot)
	case st.Kind == work.GelStage:
		return gelChoices(task)
	case st.Kind == work.Unmould && next.UnmouldWaits(p.Timers, p.State(), task):
		return append(notOut(task), Choice{
			Title: "Unmould it before its time", Why: "It may dent or stick, and fresh soap burns: gloves on.",
			Ask: "why it leaves its mould now", Fact: batch.Ticked{Task: task},
		})
	case st.Kind == work.Unmould:
		return notOut(task)
	case st.Kind == work.CutStage && t.Do == work.Count:
		return []Choice{tooSoft(task)}
	case task == rest.LookTest:
		return []Choice{
			{Title: "Sound: even all through", Fact: batch.Tested{Task: task, Test: batch.LookTest, Words: "sound", Passed: true}},
			{
				Title: "Not sound", Why: "White pockets or beads may be lye: do not touch them bare. Hold the bars.",
				Ask: "what is to be seen", Fact: batch.Tested{Task: task, Test: batch.LookTest},
			},
		}
	case task == rest.DecideID:
		return verdicts(p, by)
	}
	return nil
}

func tooSoft(task string) Choice {
	return Choice{
		Title: "Too soft: look again in 12 h", Why: "Soft oils, much water or no gel take two to five days.",
		Fact: batch.UnmouldPutOff{Task: task, Why: "too soft", For: lookAgain},
	}
}

// notOut are the answers of a loaf that stays in its mould for now.
func notOut(task string) []Choice {
	return []Choice{tooSoft(task), {
		Title: "It does not come out: into the freezer, then again in 3 h",
		Why:   "Cold soap shrinks, and lets go. Gloves on: ease the sides away, press from below. Cut it once it is dry, and as warm as the room.",
		Fact:  batch.UnmouldPutOff{Task: task, Why: "does not come out, into the freezer", For: frozen},
	}, {
		Title: "It does not come out: leave it, then again in 24 h",
		Why:   "It dries, and shrinks from the walls. Pulled out now it tears.",
		Fact:  batch.UnmouldPutOff{Task: task, Why: "does not come out, left to stand", For: stands},
	}}
}

// Offered gives the place of the answer that is offered first: over an open warning bars
// are held, and released only by who goes there.
func Offered(list []Choice) int {
	over := slices.ContainsFunc(list, func(c Choice) bool {
		f, ok := c.Fact.(batch.Released)
		return ok && len(f.Open) > 0
	})
	if !over {
		return 0
	}
	return max(0, slices.IndexFunc(list, func(c Choice) bool {
		_, hold := c.Fact.(batch.Held)
		return hold
	}))
}

// out says where bars went that are no longer here to be held, or "".
func out(p steps.Plan) string {
	if c := p.Curing(); len(c.Went) > 0 {
		return c.Out() + " "
	}
	return ""
}

// thrownAway begins the reason of a batch that ended because its bars were thrown away.
const thrownAway = "the bars were thrown away: "

// verdicts are the release, the hold, and the end of bars that are good for nothing; bars
// that are held may be made anew.
func verdicts(p steps.Plan, by string) []Choice {
	open := p.Open()
	free := Choice{
		Title: "Release the bars", Why: "No warning is open. Whether they may be sold is for the rules of the place.",
		Fact: batch.Released{Task: rest.DecideID, By: by, Bars: p.Bars(), Open: open},
	}
	if len(open) > 0 {
		free.Title = fmt.Sprintf("Release all the same: %s open", quantity.Count(len(open), "warning is", "warnings are"))
		free.Why = tell.Sentences(open)
		free.Ask = "why they are released all the same"
	}
	hold := "Hold: they stay here"
	if len(p.Since()) > 0 {
		hold = "Hold what is left, and call back what is out"
		free.Title = fmt.Sprintf("Let the release stand: %s open", quantity.Count(len(open), "warning is", "warnings are"))
		free.Ask = "why they stay released all the same"
	}
	list := []Choice{free, {
		Title: hold, Why: out(p) + p.Anew(),
		Ask: "why they are held", Fact: batch.Held{Task: rest.DecideID, By: by, Open: open},
	}}
	if len(p.Since()) > 0 { // What is out is no longer here to be thrown away.
		return list
	}
	return append(list, Choice{
		Title: "Throw them away: this ends the batch", Why: "By the supplier's safety data sheet and local rules; gloves on. " + p.Curing().Count() + ".",
		Ask: "why they are thrown away; the batch ends with it, and nothing but notes, complaints and where bars went follows", Fact: batch.Closed{},
	})
}
