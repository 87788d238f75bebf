package reply

import (
	"fmt"
	"slices"
	"strings"

	"bench/internal/batch"
	"bench/internal/recipe"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/uses"
)

// abandonWord must be typed before a reason, so that no stray key ends a batch.
const abandonWord = "abandon"

// closeWord must be typed for the same reason where everything is done.
const closeWord = "close"

// End asks for the word that closes a batch whose tasks are all done, or for the
// one that abandons it, and then what becomes of what stands in its vessels.
func End(code string, p steps.Plan) (Act, string) {
	if stop, ok := p.State().Stopped(); ok {
		return ending{code: code, reason: stop.Reason, left: stop.Left}.ask(lots(p.Standing())), ""
	}
	switch {
	case p.Closed:
		return nil, "The batch is closed."
	case len(p.Since()) > 0:
		return nil, "A warning opened after the release: say first whether what is left is held, or why the release stands."
	case p.Finished():
		return askClose(code, p), ""
	}
	return Question{
		Title: "Abandon this batch?",
		Hint: "Tasks are still open. " + standing(p) + "To end it here for good, type the word " + abandonWord +
			" and then why. To go on another day just leave with q: the batch stays open.",
		Make: func(text string, _ timer.Moment) (Act, string) {
			word, reason, _ := strings.Cut(text, " ")
			if reason = strings.TrimSpace(reason); !strings.EqualFold(strings.TrimRight(word, ":,"), abandonWord) || reason == "" {
				return nil, "Type the word " + abandonWord + " and then why."
			}
			return ending{code: code, reason: reason}.ask(lots(p.Standing())), ""
		},
	}, ""
}

// askClose asks once before a batch whose tasks are all done is closed for good.
func askClose(code string, p steps.Plan) Question {
	return Question{
		Title: "Close this batch?",
		Hint:  "Everything is done. " + standing(p) + "Once it is closed nothing but notes, complaints and where bars went can be added. To close it for good, type the word " + closeWord + ".",
		Make: func(text string, _ timer.Moment) (Act, string) {
			if !strings.EqualFold(text, closeWord) {
				return nil, "Type the word " + closeWord + "."
			}
			return ending{code: code}.ask(lots(p.Standing())), ""
		},
	}
}

// standing says before a batch ends that something of it stands in vessels.
func standing(p steps.Plan) string {
	var names []string
	for _, o := range p.Standing() {
		if o.Burns {
			names = append(names, o.Vessel+" ("+o.Held()+")")
		}
	}
	if len(names) == 0 {
		return ""
	}
	return recipe.Clean("What burns still stands there: "+strings.Join(names, ", ")+".") + " It is asked next what becomes of it. "
}

// StillFull says what stands in the vessels of a batch that has ended, or "".
func StillFull(p steps.Plan) string {
	if _, ok := p.State().Stopped(); !ok {
		return ""
	}
	list := p.Standing()
	names := make([]string, len(list))
	for i, o := range list {
		names[i] = o.Vessel + " (" + o.Held() + ")"
	}
	return "still full: " + strings.Join(names, ", ")
}

// lots are the vessels that are asked about together: each that holds or held what burns
// by itself, and then all others.
func lots(list []uses.Occupied) [][]uses.Occupied {
	var lots [][]uses.Occupied
	var rest []uses.Occupied
	for _, o := range list {
		if o.Burns {
			lots = append(lots, []uses.Occupied{o})
		} else {
			rest = append(rest, o)
		}
	}
	if len(rest) > 0 {
		lots = append(lots, rest)
	}
	return lots
}

// ending is a batch that ends, with what was said of its vessels so far.
type ending struct {
	code, reason string
	left         []batch.Left
}

// The words that begin an answer about what stands in a vessel.
const (
	emptiedWord = "emptied"
	keptWord    = "kept"
)

// ask asks about the first lot and then about the others; after the last it is a fact.
func (e ending) ask(lots [][]uses.Occupied) Act {
	if len(lots) == 0 {
		return Keep{Code: e.code, Fact: e.fact()}
	}
	lot := lots[0]
	title := "What becomes of " + lot[0].Held() + "?"
	names := make([]string, len(lot))
	for i, o := range lot {
		names[i] = o.Vessel + " (" + o.Held() + ")"
	}
	if len(lot) > 1 {
		title = fmt.Sprintf("What becomes of the other %d?", len(lot))
	}
	return Question{
		Title: recipe.Clean(title), Hint: recipe.Clean(strings.Join(names, ", ")) + ". " + whatToDo(lot[0]) +
			" Write " + emptiedWord + " and how, or " + keptWord + " and where: what is kept stays known as full to other batches, until e says here that it is empty.",
		Make: func(text string, _ timer.Moment) (Act, string) {
			word, answer, _ := strings.Cut(text, " ")
			word, answer = strings.ToLower(strings.TrimRight(word, ":,")), strings.TrimSpace(answer)
			if word != emptiedWord && word != keptWord || answer == "" {
				return nil, "Begin with the word " + emptiedWord + " and then how, or " + keptWord + " and then where."
			}
			return e.with(lot, word == emptiedWord, answer).ask(lots[1:]), ""
		},
	}
}

// fact is that of a batch of which all was said: it is closed if no vessel holds anything.
func (e ending) fact() batch.Fact {
	words := make([]string, len(e.left))
	for i, l := range e.left {
		if words[i] = l.String(); !l.Emptied {
			return batch.Stopped{Reason: e.reason, Left: e.left}
		}
	}
	return batch.Closed{Reason: e.reason, Left: strings.Join(words, "; ")}
}

// with takes an answer about several vessels, in the place of what was said of them before.
func (e ending) with(lot []uses.Occupied, emptied bool, answer string) ending {
	var left []batch.Left
	for _, l := range e.left {
		if !slices.ContainsFunc(lot, func(o uses.Occupied) bool { return o.Vessel == l.Vessel }) {
			left = append(left, l)
		}
	}
	for _, o := range lot {
		left = append(left, batch.Left{Vessel: o.Vessel, Held: o.Held(), Emptied: emptied, Answer: answer})
	}
	e.left = left
	return e
}

// whatToDo says what to do with what burns. That raw batter hardens into soap that is still
// caustic, and that lye is made harmless by nobody's guess, is common practice, no source:
// the safety data sheet comes first.
func whatToDo(o uses.Occupied) string {
	if !o.Burns {
		return "Clean, or in nobody's way?"
	}
	return "It burns, and may still be hot. Gloves, goggles. Neutralised or disposed of by the supplier's safety data sheet and local rules; or kept lidded, labelled with what it is and the date, out of reach."
}
