package bench

import (
	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/ui/ink"
	"bench/internal/ui/intent"
	"bench/internal/ui/keys"
)

// answer turns the key into a proposed fact, or into words that say why not.
func (b Screen) answer(p keys.Press) (Screen, intent.Action) {
	t, _, ok := b.Current(p.At)
	switch {
	case p.Held:
		return b, nil
	case !ok:
		b.Word = "There is nothing to do just now."
		return b, nil
	case b.sending != "":
		b.Word = "Still saving the last entry: press it again."
		return b, nil
	}
	if t.Do == steps.Choose {
		return b.answers(p.At)
	}
	a, why := b.heard(t, p)
	if why != "" {
		b.Word, b.jumped = why, timer.Moment{}
		return b, nil
	}
	if _, rest := restVerdict(t); rest {
		return b.proposeRest(t, a, p.At)
	}
	f, err := b.Plan.Answer(t.ID, a)
	if err == nil {
		err = b.Plan.Allows(f, p.At)
	}
	if err != nil {
		b.Word = ink.Sentence(err)
		if words := refusedReading(t, a); words != "" {
			b.Word = words
		}
		b.Typed = "" // Or the next figures would go on with a number that was refused.
		return b, nil
	}
	return b.propose(t, a, f)
}

// heard reads the key and what was typed as an answer; why says why it is none.
func (b Screen) heard(t steps.Task, p keys.Press) (a steps.Answer, why string) {
	switch {
	case keys.Matches(p, keys.Tick):
		if b.Typed != "" {
			return a, "Enter keeps " + b.Typed + "; esc clears it."
		}
		if b.doubt != nil {
			return a, "Type it a second time, or esc to begin anew."
		}
		if keys.Within(p.At, b.jumped, keys.Startle) {
			return a, "This is another stage: look first, then press space again."
		}
		return steps.Answer{How: batch.AtTarget}, ""
	case keys.Matches(p, keys.ByEye):
		if t.Do != steps.Weigh && t.Do != steps.Portion {
			return a, "Nothing is weighed here."
		}
		if b.Typed == "" && b.doubt != nil {
			return a, "Type it a second time, or esc to begin anew."
		}
		return steps.Answer{How: batch.ByEye, Text: b.Typed}, ""
	case b.Typed == "" && !t.Numeric():
		return a, "Space ticks this."
	case b.Typed == "":
		return a, "Type the number first, then " + p.String() + "."
	case keys.Matches(p, keys.More):
		if t.Do != steps.Weigh {
			return a, "This comes from one vessel: enter keeps it."
		}
		return steps.Answer{How: batch.Typed, Text: b.Typed, More: true}, ""
	}
	return steps.Answer{How: batch.Typed, Text: b.Typed}, ""
}

// propose sends a fact off, unless it looks like a slip: then it must be typed
// a second time and come out the same.
func (b Screen) propose(t steps.Task, a steps.Answer, f batch.Fact) (Screen, intent.Action) {
	if b.doubt != nil && b.doubt.Fact == f {
		return b, intent.Keep{Code: b.Code, Fact: f}
	}
	if words := b.Plan.Doubt(asTyped(f, a)); words != "" {
		if m, err := quantity.ParseNumberMass(a.Text, quantity.Gram); t.Do == steps.Portion && err == nil {
			words = "reads " + m.At(t.Reads) + "; stop at " + t.StopAt.At(t.Reads)
		}
		b.doubt = &intent.Doubted{Fact: f, Words: words}
		b.Typed = ""
		return b, nil
	}
	return b, intent.Keep{Code: b.Code, Fact: f}
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
