// Package reply says what becomes of what a person says, on whatever front it
// was said: a fact to keep, a question first, or words why not.
//
// The rule: nothing is drawn here and nothing is kept; a front that shows other
// words for the same answer is a second set of rules.
package reply

import (
	"cmp"
	"errors"
	"strings"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/phrase"
	"bench/internal/quantity"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/work"
)

// To says what becomes of the answer to a task: an intent, or words that refuse
// it, or a doubt. What is doubted must be said a second time and come out the
// same; doubt is the doubt before, or nil.
func To(code string, p steps.Plan, t work.Task, a judge.Answer, doubt *Doubted, at timer.Moment) (act Act, doubted *Doubted, word string) {
	f, err := judge.Fact(p, t.ID, a)
	if err == nil && AfterPour(t.Do) {
		act, word = Propose(code, p, f, at)
		return act, doubt, word
	}
	if err == nil {
		f = byLook(p, f)
		err = judge.Allows(p, f, at)
	}
	switch {
	case err != nil:
		return nil, doubt, cmp.Or(refusedReading(t, a), phrase.Sentence(err))
	case doubt != nil && doubt.Fact == f:
		return Keep{Code: code, Fact: f}, nil, ""
	}
	if d := doubtOf(p, t, f, a, at); d.Words != "" {
		return nil, &d, ""
	}
	return Keep{Code: code, Fact: f}, doubt, ""
}

// doubtOf says why an answer looks like a slip, in terms of what was typed; without
// words it does not.
func doubtOf(p steps.Plan, t work.Task, f batch.Fact, a judge.Answer, at timer.Moment) Doubted {
	d := Doubted{Fact: f, Words: judge.DoubtNow(p, asTyped(f, a), at)}
	m, err := quantity.ParseNumberMass(a.Text, quantity.Gram)
	if err != nil {
		return d
	}
	if net, untared := t.Net(m); untared && a.How == batch.Typed {
		d.Words = m.At(t.Reads) + " is the reading with the vessel: without it " + net.At(t.Reads) + ", which is what will be kept"
		d.Again = m.At(t.Reads)
	} else if t.Do == work.Portion && d.Words != "" {
		d.Words = "reads " + m.At(t.Reads) + "; stop at " + t.StopAt.At(t.Reads)
	}
	return d
}

// AfterPour says that what is answered follows the pour: a doubt about it is
// kept with its answer.
func AfterPour(d work.Do) bool {
	switch d {
	case work.Count, work.Bars, work.Aside, work.WeighIn, work.Measure:
		return true
	default:
		return false
	}
}

// asTyped gives the fact as if a figure that was judged by eye had been read from
// the scale: a slip of the finger is one either way.
func asTyped(f batch.Fact, a judge.Answer) batch.Fact {
	if w, ok := f.(batch.Weighed); ok && w.How == batch.ByEye && a.Text != "" {
		w.How = batch.Typed
		return w
	}
	return f
}

// refusedReading says what is wrong with the reading of a portion, in terms of
// what was typed: the weight that follows from it is nowhere in sight.
func refusedReading(t work.Task, a judge.Answer) string {
	m, err := quantity.ParseNumberMass(a.Text, quantity.Gram)
	if t.Do != work.Portion || err != nil {
		return ""
	}
	most := t.SoFar - t.Mass
	switch {
	case m > most:
		return "Reads " + m.At(t.Reads) + ", and before pouring it read " + most.At(t.Reads) + "; stop at " + t.StopAt.At(t.Reads) + "."
	case m < t.Tare:
		return "Reads " + m.At(t.Reads) + ", and the empty vessel alone weighs " + t.Tare.At(t.Reads) + "; stop at " + t.StopAt.At(t.Reads) + "."
	}
	return ""
}

// Propose says what becomes of a fact: it is kept, asked about first, or
// refused in words.
func Propose(code string, p steps.Plan, f batch.Fact, at timer.Moment) (Act, string) {
	doubt := judge.DoubtNow(p, f, at)
	if doubt == "" || !judge.Keeps(f) {
		return allowed(code, p, f, at)
	}
	answered, _ := judge.Answered(f, doubt, "?")
	if act, word := allowed(code, p, answered, at); act == nil { // No answer would let it be.
		return nil, word
	}
	return Question{
		Title: "Is that so?",
		Hint:  sentence(doubt) + " If it is right, say how that came: it is kept with your answer.",
		Make: func(text string, at timer.Moment) (Act, string) {
			if text == "" {
				return nil, "Say how that came."
			}
			answered, _ := judge.Answered(f, doubt, text)
			return allowed(code, p, answered, at)
		},
	}, ""
}

func allowed(code string, p steps.Plan, f batch.Fact, at timer.Moment) (Act, string) {
	if err := judge.Allows(p, f, at); err != nil {
		return nil, phrase.Sentence(err)
	}
	return Keep{Code: code, Fact: f}, ""
}

// sentence makes a doubt into one, or leaves the question that it ends with.
func sentence(doubt string) string {
	s := phrase.Sentence(errors.New(doubt))
	if strings.HasSuffix(s, "?.") {
		return strings.TrimSuffix(s, ".")
	}
	return s
}
