package ledger

import (
	"cmp"
	"slices"
	"strings"
	"unicode"

	"bench/internal/batch"
	"bench/internal/recipe"
)

// The kinds of search term. What stands behind the colon is in lower case,
// except a lot, which is kept as it was typed.
const (
	recipeTerm   = "recipe:"
	materialTerm = "material:"
	lotTerm      = "lot:"
	noteTerm     = "note:"
)

// termsOf gives what a fact can be found by.
func termsOf(f batch.Fact) []string {
	switch f := f.(type) {
	case batch.Started:
		return startTerms(f.Control)
	case batch.Weighed:
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
		return []string{"rework:" + f.Batch}
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
		return termsOf(f.With) // A lot that was mistyped is found under the right one, too.
	case batch.BarsWent:
		return wordTerms(f.Where)
	case batch.GelLooked, batch.UnmouldPutOff, batch.BarsCut, batch.BarsWeighed, batch.Marked, batch.WeighedIn,
		batch.Tested, batch.Released, batch.Held, batch.LimitStated:
		return nil
	case batch.Ticked, batch.Grossed, batch.TemperatureTaken, batch.Skipped, batch.TimerSeen, batch.TimerPutOff,
		batch.Withdrawn, batch.Closed, batch.Decided, batch.WarningSeen, batch.PotWeighed:
		return nil
	}
	return nil
}

// startTerms gives what is known of a batch when it begins: its recipe, and what
// lies in its bars without being weighed here, which are sticks and their dough.
func startTerms(c recipe.Control) []string {
	terms := []string{recipeTerm + strings.ToLower(c.Recipe.Name)}
	add := func(term, value string) {
		if value != "" && !slices.Contains(terms, term+value) {
			terms = append(terms, term+value)
		}
	}
	for _, l := range c.Recipe.Layers {
		for _, e := range l.Embeds {
			dough, _ := c.Material(e.Dough)
			add(materialTerm, strings.ToLower(e.Dough))
			add(materialTerm, strings.ToLower(cmp.Or(e.Stick, e.Name)))
			add(lotTerm, dough.Lot)
		}
	}
	for _, plan := range c.Sticks {
		for _, s := range plan.Plan.Sticks {
			add(lotTerm, s.Lot)
		}
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
