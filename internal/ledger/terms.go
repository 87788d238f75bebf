package ledger

import (
	"slices"
	"strings"
	"unicode"

	"bench/internal/batch"
	"bench/internal/recipe"
	"bench/internal/steps"
	"bench/internal/work"
)

// The kinds of search term. What stands behind the colon is in lower case,
// except a lot, which is kept as it was typed.
const (
	recipeTerm   = "recipe:"
	materialTerm = "material:"
	lotTerm      = "lot:"
	noteTerm     = "note:"
	stickTerm    = "stick:" // stickTerm is the lot of a stick that was set out and cut, whether it was laid or not.
)

// termsOf gives what a fact of a batch can be found by: of materials and lots, what the
// record has of them.
func termsOf(c recipe.Control, f batch.Fact) []string {
	switch f := f.(type) {
	case batch.Started:
		return []string{recipeTerm + strings.ToLower(f.Control.Recipe.Name)}
	case batch.Ticked:
		return laidTerms(c, f.Task)
	case batch.Weighed:
		if f.Material == work.Batter && f.Lot == "" {
			return nil // It was weighed by what it is made of.
		}
		terms := []string{materialTerm + strings.ToLower(f.Material)}
		if f.Lot != "" {
			terms = append(terms, lotTerm+f.Lot)
		}
		return terms
	case batch.SetAside:
		if f.Lot != "" {
			return []string{lotTerm + f.Lot}
		}
		return nil
	case batch.Reworks:
		return append([]string{reworkTerm + f.Batch}, wordTerms(f.Reason)...)
	case batch.Noted:
		return wordTerms(f.Text)
	case batch.Complained:
		return wordTerms(f.Words)
	case batch.PotAnswered:
		return wordTerms(f.Vessel + " " + f.Answer)
	case batch.SharedAnswered:
		return wordTerms(f.Shared + " " + f.Answer) // A note, before it was a fact of its own.
	case batch.VesselReplaced:
		return wordTerms(f.Vessel + " " + f.By)
	case batch.Corrected:
		return termsOf(c, f.With) // A lot that was mistyped is found under the right one, too.
	case batch.BarsWent:
		return wordTerms(f.Where)
	case batch.GelLooked, batch.UnmouldPutOff, batch.BarsCut, batch.BarsWeighed, batch.Marked, batch.WeighedIn,
		batch.Tested, batch.Released, batch.Held, batch.LimitStated:
		return nil
	case batch.Grossed, batch.TemperatureTaken, batch.Skipped, batch.TimerSeen, batch.TimerPutOff,
		batch.Withdrawn, batch.Closed, batch.Stopped, batch.Decided, batch.WarningSeen, batch.PotWeighed:
		return nil
	}
	return nil
}

// laidTerms gives what lies in a loaf without being weighed here: a stick, its dough and
// their lot; and which stick was cut for it.
func laidTerms(c recipe.Control, task string) []string {
	if _, s, ok := steps.StickOf(c, task); ok && !s.Fresh {
		return []string{stickTerm + s.Lot}
	}
	in, ok := steps.LaidBy(c, task)
	if !ok {
		return nil
	}
	terms := []string{materialTerm + strings.ToLower(in.Stick)}
	if in.Dough != "" {
		terms = append(terms, materialTerm+strings.ToLower(in.Dough))
	}
	if in.Lot != "" {
		terms = append(terms, lotTerm+in.Lot)
	}
	return terms
}

// wordTerms gives the words of a note, each once.
func wordTerms(text string) []string {
	var terms []string
	for _, word := range wordsOf(text) {
		if t := noteTerm + word; !slices.Contains(terms, t) {
			terms = append(terms, t)
		}
	}
	return terms
}

// wordsOf gives the words of a text, in lower case and without punctuation.
func wordsOf(text string) []string {
	return strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
}
