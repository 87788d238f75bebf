package judge

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/rest"
	"bench/internal/steps"
	"bench/internal/work"
)

// Choice is one of several answers to a task.
type Choice struct {
	Title string
	Why   string // Why is what follows from it, such as a remedy.
	Ask   string // Ask is what must be said with it; empty is nothing.
	Fact  batch.Fact
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

// wentTo reads "12 to the market stall", or only where.
func wentTo(f batch.BarsWent, text string) (batch.Fact, error) {
	f.Where = text
	first, rest, more := strings.Cut(text, " ")
	if n, err := strconv.Atoi(first); err == nil && more && n > 0 {
		rest = strings.TrimSpace(strings.TrimPrefix(strings.TrimSpace(rest), "to "))
		f.Count, f.Where = n, rest
	}
	if f.Where == "" {
		return nil, errors.New("say where they went, such as: 12 to the market stall")
	}
	return f, nil
}

// madeOf reads "26K25A 900 g too much alkali", with or without the mass.
func madeOf(f batch.Reworks, text string) (batch.Fact, error) {
	words := strings.Fields(text)
	if len(words) > 2 {
		if m, err := quantity.ParseMass(words[1] + " " + words[2]); err == nil {
			f.Mass, words = m, append(words[:1], words[3:]...)
		}
	}
	if len(words) < 2 {
		return nil, errors.New("say which batch and why, such as: 26K25A 900 g too much alkali")
	}
	f.Batch, f.Reason = words[0], strings.Join(words[1:], " ")
	return f, nil
}

// limitBy reads "6 % certificate of 3 March".
func limitBy(f batch.LimitStated, text string) (batch.Fact, error) {
	number, reference, ok := strings.Cut(text, "%")
	limit, err := quantity.ParseRatio(strings.TrimSpace(number) + " %")
	if f.Limit, f.Reference = limit, strings.TrimSpace(reference); !ok || err != nil || f.Reference == "" {
		return nil, errors.New("say the limit and the certificate that states it, such as: 6 % certificate of 3 March")
	}
	return f, nil
}

// Afterwards gives what may be said of a batch besides its work, most of it when
// its bars are made, also when it is closed.
func Afterwards(p steps.Plan) []Choice {
	var list []Choice
	if p.Closed || p.Curing().Bars > 0 {
		list = ofBars(p)
	}
	if !p.Closed {
		list = append(list, limits(p)...)
		list = append(list, Choice{
			Title: "This batch is made of an earlier one", Why: "The earlier one was held; this one points at it, in the record and in a search.",
			Ask: "which batch, how much of it and why, such as 26K25A 900 g too much alkali", Fact: batch.Reworks{},
		})
	}
	return list
}

// limits are remedies for scents over their limits.
func limits(p steps.Plan) []Choice {
	var list []Choice
	for _, l := range p.OverLimit() {
		for _, s := range l.Scents {
			list = append(list, Choice{
				Title: "A certificate allows more of " + s.Material, Why: "The supplier's, for bar soap (IFRA category 9) and for this lot. If the bars are within it, they are not held for it any longer.",
				Ask: "the limit and the certificate, such as 6 % certificate of 3 March", Fact: batch.LimitStated{Material: s.Material},
			})
		}
	}
	return list
}

// ofBars is what may be said of bars that are made.
func ofBars(p steps.Plan) []Choice {
	list := []Choice{
		{Title: "Complaint", Why: "Kept with the batch code.", Ask: "what was said (and after a slash, by whom)", Fact: batch.Complained{About: batch.Complaint}},
		{
			Title: "Skin reaction", Why: "Kept with the batch code; the bars that are left should be held. Serious ones go to a doctor, and to the authority where the law says so.",
			Ask: "what was said (and after a slash, by whom)", Fact: batch.Complained{About: batch.SkinReaction},
		},
		{Title: "Where bars went", Why: "So that they can be found again.", Ask: "how many and where, such as 12 to the market stall", Fact: batch.BarsWent{}},
	}
	if released, _, _ := p.State().Verdict(); released {
		list = append(list, Choice{
			Title: "Hold what is left", Why: "What has left already is found by where it went.", Ask: "why they are held",
			Fact: batch.Held{Task: rest.DecideID, Open: p.Open()},
		})
	}
	return list
}

// lookAgain is after how long a loaf that is too soft is looked at again (common
// practice, no source).
const lookAgain = 12 * time.Hour

// remedy is what to do about what the loaves look like: common practice, no
// source.
func remedy(l batch.GelLook) string {
	switch l {
	case batch.NoGel:
		return "Nothing to do: ungelled soap is soap. If gel is wanted: wrap warmer, or a barely warm oven."
	case batch.Gelling:
		return "Leave it alone, covered; look again."
	case batch.FullGel:
		return "Good. Let it cool by itself."
	case batch.PartialGel:
		return "A dark disc with a pale rim stays; it is cosmetic. Wrap all of it warmer now, or leave it."
	case batch.Cracked:
		return "Unwrap and cool it. Gloves: press the crack shut, mist it; look for white pockets at the cut."
	case batch.Rising:
		return "Unwrap at once, a fan on it, a tray under the mould. Gloves and goggles: do not refill or stir; look for lye pockets at the cut."
	}
	return ""
}

// Choices gives the answers to a task, or what may be said besides its plain
// answer. By is who answers for a release, if that is known.
func Choices(p steps.Plan, task string, by string) []Choice {
	t, st, ok := p.Task(task)
	if !ok {
		return nil
	}
	switch {
	case st.Kind == work.GelStage:
		return gelChoices(task)
	case st.Kind == work.Unmould, st.Kind == work.CutStage && t.Do == work.Count:
		return []Choice{{
			Title: "Too soft: look again in 12 h", Why: "Soft oils, much water or no gel take two to five days.",
			Fact: batch.UnmouldPutOff{Task: task, Why: "too soft", For: lookAgain},
		}}
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

func gelChoices(task string) []Choice {
	var list []Choice
	for _, l := range []struct {
		look  batch.GelLook
		title string
	}{
		{batch.NoGel, "No gel: pale and even"},
		{batch.Gelling, "Gelling: dark in the middle, spreading"},
		{batch.FullGel, "Full gel: dark to the edge"},
		{batch.PartialGel, "Partial gel: dark in the middle, and cooling"},
		{batch.Cracked, "Cracked along the top"},
		{batch.Rising, "Rising, splitting or oozing: it overheats"},
	} {
		list = append(list, Choice{Title: l.title, Why: remedy(l.look), Fact: batch.GelLooked{Task: task, Look: l.look}})
	}
	return list
}

// gelAt gives the look that goes with a temperature at its least; the eye has the last
// word (common practice, no source).
var gelAt = []struct { //nolint:gochecknoglobals // A table.
	least quantity.Temperature
	look  batch.GelLook
}{
	{82 * quantity.Degree, batch.Rising},
	{65 * quantity.Degree, batch.FullGel},
	{55 * quantity.Degree, batch.Gelling},
}

// Likely gives the place of the answer that is offered first, by the figure that was
// typed with it.
func Likely(list []Choice, typed string) int {
	warm, err := temperatureAnswer(work.Task{}, Answer{How: batch.Typed, Text: typed})
	if err != nil {
		return 0
	}
	look := batch.NoGel
	for _, g := range gelAt {
		if warm.(batch.TemperatureTaken).Temperature >= g.least {
			look = g.look
			break
		}
	}
	return max(0, slices.IndexFunc(list, func(c Choice) bool {
		f, ok := c.Fact.(batch.GelLooked)
		return ok && f.Look == look
	}))
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

// verdicts are the release, and the hold; bars that are held may be made anew.
func verdicts(p steps.Plan, by string) []Choice {
	open := p.Open()
	free := Choice{
		Title: "Release the bars", Why: "No warning is open. Whether they may be sold is for the rules of the place.",
		Fact: batch.Released{Task: rest.DecideID, By: by, Bars: p.Bars(), Open: open},
	}
	if len(open) > 0 {
		free.Title = fmt.Sprintf("Release all the same: %s open", quantity.Count(len(open), "warning is", "warnings are"))
		free.Why = strings.Join(open, ". ") + "."
		free.Ask = "why they are released all the same"
	}
	return []Choice{free, {
		Title: "Hold: they stay here", Why: p.Anew(),
		Ask: "why they are held", Fact: batch.Held{Task: rest.DecideID, By: by, Open: open},
	}}
}
