package ui

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"bench/internal/batch"
	"bench/internal/steps"
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
		b.word = why
		return b, nil
	}
	f, err := b.plan.Answer(t.ID, a)
	if err == nil {
		err = b.plan.Allows(f, p.at)
	}
	if err != nil {
		b.word = sentence(err)
		return b, nil
	}
	return b.propose(f)
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
		return steps.Answer{How: batch.AtTarget}, ""
	case matches(p, keys.ByEye):
		if t.Do != steps.Weigh && t.Do != steps.Portion {
			return a, "Nothing is weighed here."
		}
		return steps.Answer{How: batch.ByEye}, ""
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
func (b bench) propose(f batch.Fact) (bench, action) {
	if b.doubt != nil && b.doubt.fact == f {
		return b, keep{code: b.code, fact: f}
	}
	if words := b.plan.Doubt(f); words != "" {
		b.doubt = &doubted{f, words}
		b.typed = ""
		return b, nil
	}
	return b, keep{code: b.code, fact: f}
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
