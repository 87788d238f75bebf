// Package label says what stands on the label of a soap, by the rules of its
// market: ingredients in their order and by their names, allergens, net weight,
// code, date and who answers for it.
//
// The rule: it puts in order what the recipe, the batch and the maker's
// documents say, and makes nothing up. What is not known stays blank or is
// marked, and is said in a note. Where a rule was not read but remembered, the
// comment says so; nothing here replaces the safety assessment.
package label

import (
	"time"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/steps"
	"bench/internal/work"
)

// Market is where the soap is to be sold.
type Market string

// The markets. Their conventions differ in names, allergens and weights.
const (
	EU Market = "eu"
	UK Market = "uk"
	US Market = "us"
)

// Markets lists the markets.
func Markets() []Market { return []Market{EU, UK, US} }

// As says how the list of ingredients sees the soap.
type As string

// The two styles of list that makers use.
const (
	AsMade       As = "made"       // AsMade names what went in: oils, water, sodium hydroxide.
	AsSaponified As = "saponified" // AsSaponified names what came out: soaps, glycerin, what is left of the oils.
)

// Styles lists the styles.
func Styles() []As { return []As{AsMade, AsSaponified} }

// Options are what the maker chooses.
type Options struct {
	Market   Market
	As       As
	Checked  bool // Checked says that the maker has looked up the names from memory: no mark stands beside them.
	Workshop recipe.Workshop
}

// Label is what a label says. All of it is words and numbers; where they stand
// is for the printer.
type Label struct {
	Market      Market
	As          As
	Product     string
	Function    string // Function is empty where the product's name says it.
	Heading     string // Heading stands before the list.
	Ingredients []Ingredient
	Net         Net
	NetText     string // NetText is empty where nothing was weighed or planned.
	Batch       string
	Durability  Durability
	Responsible []string // Responsible is empty for the maker to fill in.
	Cautions    string
	Open        []string // Open is what keeps the label from being more than a proof.
	Over        []string // Over are the open warnings over which the bars were released: for the maker and not for the label.
	Notes       []string // Notes are for the maker and not for the label.
}

// Ingredient is one name in the list.
type Ingredient struct {
	Name    string
	Grams   float64 // Grams are at the time of making, all loaves together. What is counted within another is not in them.
	Most    float64 // Most is how many grams it may be, for the order: Grams, and all that it is within without a stated share.
	Share   float64 // Share is Most over the whole at the time of making, a fraction of 1.
	Percent int64   // Percent is Grams in hundredths of a per cent of the whole, rounded so that the list adds up to 100.00.
	Within  string  // Within names what it is counted with, where Grams is none of it or not all.
	Colour  bool
	Verify  bool   // Verify says that the name is from memory and was not checked.
	From    string // From is what brings it, in the maker's words.
}

// Of gives the label of a batch or, without a code, of a recipe at its plan.
func Of(code string, plan steps.Plan, s batch.State, o Options) Label {
	l := Label{
		Market: o.Market, As: o.As, Batch: code, Product: s.Control.Recipe.Label.Product, Heading: "Ingredients",
		Responsible: o.Workshop.Responsible, Cautions: s.Control.Recipe.Label.Cautions,
	}
	if l.Product == "" {
		l.Product = s.Control.Recipe.Name
	}
	if !saysSoap(l.Product) {
		l.Function = "Soap"
	}
	n := naming{control: s.Control, options: o}
	pots := n.pots(plan)
	w := weightsOf(s, plan)
	l.Ingredients = n.list(pots, w.loss)
	if o.Checked {
		for i := range l.Ingredients {
			l.Ingredients[i].Verify = false
		}
	}
	l.Net = Suggest(w.Weights)
	l.NetText = l.Net.text(o.Market)
	l.Durability = durability(s.Control.Recipe.Label, poured(plan, s))
	l.say(n, w)
	l.sayWeighed(plan, s)
	l.sayRelease(plan, s)
	return l
}

// poured gives when the soap was made: the last tick of a pour, or the begin
// of the batch; zero for a recipe.
func poured(plan steps.Plan, s batch.State) time.Time {
	if !s.Begun() {
		return time.Time{}
	}
	at := s.Entries[0].At.Wall
	for _, st := range plan.Stages {
		if st.Kind != work.Pour && st.Kind != work.ScentAndPour {
			continue
		}
		for _, t := range st.Tasks {
			if t.Done && t.Skipped == "" && t.At.Wall.After(at) {
				at = t.At.Wall
			}
		}
	}
	return at
}

// Plainly gives the list as it is printed.
func (l Label) Plainly() string {
	words := l.Heading + ": "
	for i, g := range l.Ingredients {
		if i > 0 {
			words += ", "
		}
		words += g.Name
		if g.Verify {
			words += " (verify)"
		}
	}
	return words + "."
}

// grams is a mass for words, to a tenth of a gram.
func grams(m quantity.Mass) string { return m.Reading(quantity.Gram / 10) }
