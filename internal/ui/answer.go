package ui

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/steps"
	"bench/internal/timer"
)

// answer turns the key into a proposed fact, or into words that say why not.
func (b bench) answer(p press) (bench, action) {
	t, _, ok := b.current(p.at)
	switch {
	case p.held:
		return b, nil
	case !ok:
		b.word = "There is nothing to do just now."
		return b, nil
	case b.sending != "":
		b.word = "Still saving the last entry: press it again."
		return b, nil
	}
	a, why := b.heard(t, p)
	if why != "" {
		b.word, b.jumped = why, timer.Moment{}
		return b, nil
	}
	f, err := b.plan.Answer(t.ID, a)
	if err == nil {
		err = b.plan.Allows(f, p.at)
	}
	if err != nil {
		b.word = sentence(err)
		if words := refusedReading(t, a); words != "" {
			b.word = words
		}
		b.typed = "" // Or the next figures would go on with a number that was refused.
		return b, nil
	}
	return b.propose(t, a, f)
}

// heard reads the key and what was typed as an answer; why says why it is none.
func (b bench) heard(t steps.Task, p press) (a steps.Answer, why string) {
	switch {
	case matches(p, keys.Tick):
		if b.typed != "" {
			return a, "Enter keeps " + b.typed + "; esc clears it."
		}
		if b.doubt != nil {
			return a, "Type it a second time, or esc to begin anew."
		}
		if within(p.at, b.jumped, startle) {
			return a, "This is another stage: look first, then press space again."
		}
		return steps.Answer{How: batch.AtTarget}, ""
	case matches(p, keys.ByEye):
		if t.Do != steps.Weigh && t.Do != steps.Portion {
			return a, "Nothing is weighed here."
		}
		if b.typed == "" && b.doubt != nil {
			return a, "Type it a second time, or esc to begin anew."
		}
		return steps.Answer{How: batch.ByEye, Text: b.typed}, ""
	case b.typed == "" && !t.Numeric():
		return a, "Space ticks this."
	case b.typed == "":
		return a, "Type the number first, then " + p.String() + "."
	case matches(p, keys.More):
		if t.Do != steps.Weigh {
			return a, "This comes from one vessel: enter keeps it."
		}
		return steps.Answer{How: batch.Typed, Text: b.typed, More: true}, ""
	}
	return steps.Answer{How: batch.Typed, Text: b.typed}, ""
}

// propose sends a fact off, unless it looks like a slip: then it must be typed
// a second time and come out the same.
func (b bench) propose(t steps.Task, a steps.Answer, f batch.Fact) (bench, action) {
	if b.doubt != nil && b.doubt.fact == f {
		return b, keep{code: b.code, fact: f}
	}
	if words := b.plan.Doubt(asTyped(f, a)); words != "" {
		if m, err := quantity.ParseNumberMass(a.Text, quantity.Gram); t.Do == steps.Portion && err == nil {
			words = "reads " + m.At(t.Reads) + "; stop at " + t.StopAt.At(t.Reads)
		}
		b.doubt = &doubted{f, words}
		b.typed = ""
		return b, nil
	}
	return b, keep{code: b.code, fact: f}
}

// asTyped gives the fact as if a figure that was judged by eye had been read from
// the scale: a slip of the finger is one either way.
func asTyped(f batch.Fact, a steps.Answer) batch.Fact {
	if w, ok := f.(batch.Weighed); ok && w.How == batch.ByEye && a.Text != "" {
		w.How = batch.Typed
		return w
	}
	return f
}

// refusedReading says what is wrong with the reading of a portion, in terms of
// what was typed: the weight that follows from it is nowhere in sight.
func refusedReading(t steps.Task, a steps.Answer) string {
	m, err := quantity.ParseNumberMass(a.Text, quantity.Gram)
	if t.Do != steps.Portion || err != nil {
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

// sentence makes an error into one: it begins large and ends with a stop.
func sentence(err error) string {
	s := strings.TrimSpace(clean(err.Error()))
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	s = string(unicode.ToUpper(r)) + s[n:]
	if strings.ContainsAny(s[len(s)-1:], ".!?") {
		return s
	}
	return s + "."
}
