package reply

import (
	"fmt"
	"strings"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/phrase"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/uses"
	"bench/internal/work"
)

// Shared warns of a vessel or moulds that hold something of another batch, or of
// another's lye that stands open when this one is cleaned up, until somebody answered
// for it; or "".
func Shared(p steps.Plan, t work.Task, others []uses.Occupied) string {
	shared := p.Shared(t.ID, others)
	if shared == "" || p.State().Answered(shared) {
		return ""
	}
	switch {
	case t.ID == steps.MouldsID:
		return shared + ": line others, or wait"
	case steps.SetsOutStick(t.ID):
		return shared + ": measure what is left"
	case steps.OnlySays(t.ID):
		return shared + ": leave that as it is"
	case shared == uses.HydroxideWanted(others):
		return shared + ": lid it tight and keep it for that, out of reach; or put it away and fetch it again"
	case t.Vessel+t.Into == "":
		return "not yet: " + shared
	}
	return shared + ": take another, or finish that first"
}

// AskShared asks about such a vessel before anything goes into it, until it was
// answered once: another was taken, or it is free by now.
func AskShared(code string, p steps.Plan, t work.Task, others []uses.Occupied) (Question, bool) {
	shared := p.Shared(t.ID, others)
	if !t.Open || shared == "" || p.State().Answered(shared) || steps.OnlySays(t.ID) || shared == uses.HydroxideWanted(others) {
		return Question{}, false
	}
	answered := said("Say how it stands now.", func(text string) Act {
		return Keep{Code: code, Fact: batch.SharedAnswered{Shared: shared, Answer: text}}
	})
	switch {
	case t.ID == steps.MouldsID:
		return Question{
			Title: "Moulds enough?",
			Hint:  recipe.Clean(sentence(shared)) + " Line others, or wait until those are free. To go on, say which moulds these are: it is kept with the batch. Then answer the task again.",
			Make:  answered,
		}, true
	case steps.SetsOutStick(t.ID):
		return Question{
			Title: "Sticks enough?",
			Hint: recipe.Clean(sentence(shared)) + " Measure what is left: a piece must be as long as the list says. To go on, say what these are, such as: new ones, measured. " +
				"It is kept with the batch. Then answer the task again.",
			Make: answered,
		}, true
	case t.Vessel+t.Into == "":
		return Question{
			Title: "Not yet?",
			Hint:  recipe.Clean(sentence(shared)) + " Finish that lye first. To go on, say why it is safe: it is kept with the batch. Then answer the task again.",
			Make:  answered,
		}, true
	}
	vessel := t.Into
	if _, holds := uses.Holds(t.Vessel, others); holds {
		vessel = t.Vessel
	}
	took := tookInstead(code, p, vessel, others)
	return Question{
		Title: "Is the vessel free?",
		Hint: recipe.Clean(sentence(shared)) + " Say which was taken instead: " + howToSay(p, vessel, others) +
			" If it is empty by now, write " + freeWord + " and how that came. Then answer the task again.",
		Make: func(text string, at timer.Moment) (Act, string) {
			if how, free := strings.CutPrefix(text, freeWord); free && strings.Trim(how[:min(1, len(how))], " :,.") == "" {
				return answered(strings.Trim(how, " :,."), at)
			}
			return took(text, at)
		},
	}, true
}

// freeWord begins the answer that a vessel holds nothing of the other batch any more.
const freeWord = "free"

// Instead asks which vessel was taken in place of the one of a task.
func Instead(code string, p steps.Plan, t work.Task, others []uses.Occupied) (Act, string) {
	if p.Closed {
		return nil, "The batch is closed."
	}
	vessel := judge.Fills(t)
	use, ok := p.Uses().Of(vessel)
	if !ok {
		vessel = ""
	}
	hint := ""
	switch {
	case vessel == "" && !vesselsLeft(p):
		return nil, "No vessel is wanted any more in this batch."
	case vessel == "":
		names := judge.Wanted(p)
		hint = fmt.Sprintf("This task fills none, so write for which behind it, such as spare jug 214.0 g for %s; wanted are %s. Say which vessel was taken instead: ", names[0], strings.Join(names, ", "))
	case use.Full:
		hint = fmt.Sprintf("%s holds %s. Say which vessel that stands in instead: ", vessel, use.What)
	default:
		hint = fmt.Sprintf("%s is for %s, and has to hold %s. Say which vessel was taken instead: ", vessel, use.What, use.Load.RoundTo(quantity.Gram))
	}
	return Question{
		Title: "Another vessel?",
		Hint:  recipe.Clean(recipe.Capital(hint) + howToSay(p, vessel, others) + orOther(p, t, vessel)),
		Make:  tookInstead(code, p, vessel, others),
	}, ""
}

// orOther says how the other vessel of a task is meant, where it has two.
func orOther(p steps.Plan, t work.Task, vessel string) string {
	other := t.Vessel
	if vessel == t.Vessel {
		other = t.Into
	}
	if _, used := p.Uses().Of(other); !used || vessel == "" {
		return ""
	}
	return fmt.Sprintf(" If it was %s that was replaced, write %q behind.", other, "for "+other)
}

func vesselsLeft(p steps.Plan) bool {
	for _, u := range p.Uses() {
		if !u.Over {
			return true
		}
	}
	return false
}

func tookInstead(code string, p steps.Plan, vessel string, others []uses.Occupied) func(string, timer.Moment) (Act, string) {
	return func(text string, at timer.Moment) (Act, string) {
		f, err := judge.Took(p, vessel, text)
		if err != nil {
			return nil, phrase.Sentence(err)
		}
		if o, holds := uses.Holds(f.By, others); holds {
			return nil, fmt.Sprintf("%s holds %s of batch %s: take an empty one.", o.Vessel, o.What, o.Batch)
		}
		return allowed(code, p, f, at)
	}
}

// mostFree is how many free vessels are named, so that all can be read at a glance.
const mostFree = 4

// howToSay says how a vessel is named, which are free, and what lye wants.
func howToSay(p steps.Plan, vessel string, others []uses.Occupied) string {
	var free []string
	for _, v := range judge.Spare(p, vessel) {
		if _, holds := uses.Holds(v.Name, others); !holds && len(free) < mostFree {
			free = append(free, v.Name)
		}
	}
	words := "one of the workshop by its name"
	if len(free) > 0 {
		words += " (not in use: " + strings.Join(free, ", ") + ")"
	}
	words += ", or any other with what it weighs empty and, where that is known, what it holds to the brim: spare jug 214.0 g, 1.5 l."
	if use, ok := p.Uses().Of(vessel); ok && (use.Lye || use.Alkali) {
		// Common practice, no source; that lye attacks aluminium is H290 of its safety data sheet.
		words += " For lye: polypropylene or stainless steel, clean and marked LYE; never aluminium or thin glass."
	}
	return words
}
