package label

import (
	"fmt"
	"slices"
	"strings"

	"bench/internal/batch"
	"bench/internal/recipe"
	"bench/internal/steps"
)

// assessment is said wherever a label is made.
func (m Market) assessment() string {
	switch m {
	case US:
		return "Whether this is soap or a cosmetic under US law (21 CFR 701.20), its safety and its substantiation, " +
			"registration and the rules of your state are yours, the maker's, to meet; bench has checked none of it."
	case UK:
		return "A safety assessment by a qualified assessor (retained Regulation (EC) 1223/2009, article 10 and annex I), the product " +
			"information file, the notification to SCPN before sale and local rules are yours, the maker's, to meet; bench has checked none of it."
	case EU:
	}
	return "A safety assessment by a qualified assessor (Regulation (EC) 1223/2009, article 10 and annex I), the product " +
		"information file, the notification to CPNP before sale and local rules are yours, the maker's, to meet; bench has checked none of it."
}

// say fills in what is open and what the maker should know.
func (l *Label) say(n naming, w weights) {
	l.Notes = append(l.Notes, l.Market.assessment())
	l.note("No label needs the per cents: they are for you and your assessor, put the list in order and show what is under 1 %%. They are by weight at the time of making and add up to 100.00. An allergen is in its scent, and a part of a mixture whose shares are not stated is in that: both are named, may be as much as stands in brackets, and are not counted again.")
	l.sayNames(n)
	l.sayScents(n)
	for _, layer := range n.control.Recipe.Layers {
		for _, e := range layer.Embeds {
			if e.Dough == "" {
				l.open("what %s is made of is not stated: give the embed its \"dough\", or its ingredients are missing", e.Name)
			}
		}
	}
	if len(l.Responsible) == 0 {
		l.open("who answers for the soap is left blank: fill it in by hand, or state \"responsible person\" in the workshop")
	}
	if l.Batch == "" {
		l.open("this is a recipe: code, date and weight come with a batch")
	}
	l.sayDurability()
	l.sayWeight(w)
	l.sayMarket()
}

// sayRelease says that bars may not leave: they are held, or nobody has released them.
func (l *Label) sayRelease(plan steps.Plan, s batch.State) {
	if !s.Begun() {
		return
	}
	for _, words := range plan.Since() {
		l.open("opened after the release, and not answered: %s", words)
	}
	released, held, e := s.Verdict()
	switch f, _ := e.Fact.(batch.Held); {
	case held:
		l.open("the bars are held: %s", f.Reason)
	case !released:
		l.open("the bars are not released")
	default:
		l.over(plan)
	}
}

// over lists the warnings that are open and were answered by the reason of the release.
func (l *Label) over(plan steps.Plan) {
	since := plan.Since()
	for _, words := range plan.Open() {
		if i := slices.Index(since, words); i >= 0 {
			since = slices.Delete(since, i, i+1)
			continue
		}
		l.Over = append(l.Over, words)
	}
	_, _, e := plan.State().Verdict()
	if f, _ := e.Fact.(batch.Released); len(l.Over) > 0 && f.Reason != "" {
		l.Over = append(l.Over, "the reason was: "+f.Reason)
	}
}

// sayWeighed says that a batch was abandoned, and what of it is only planned.
func (l *Label) sayWeighed(plan steps.Plan, s batch.State) {
	if !s.Begun() {
		return
	}
	for _, e := range s.Entries {
		if f, ok := e.Fact.(batch.Closed); ok && f.Reason != "" {
			l.open("the batch ended before its release, or without it: %s", f.Reason)
		}
	}
	missing, weighed := []string{}, false
	for _, b := range plan.Batters {
		for _, a := range b.Ingredients() {
			weighed = weighed || a.Known
			if !a.Known && a.Mass > 0 && !slices.Contains(missing, a.Name) {
				missing = append(missing, a.Name)
			}
		}
	}
	switch {
	case !weighed:
		l.open("nothing was weighed in this batch: the list is what was planned")
	case len(missing) > 0:
		l.open("not weighed, and listed as planned: %s", strings.Join(missing, ", "))
	}
}

func (l *Label) open(format string, args ...any) {
	l.Open = append(l.Open, fmt.Sprintf(format, args...))
}

func (l *Label) note(format string, args ...any) {
	l.Notes = append(l.Notes, fmt.Sprintf(format, args...))
}

func (l *Label) sayNames(n naming) {
	var names []string
	for _, g := range l.Ingredients {
		if g.Verify {
			names = append(names, g.Name)
		}
	}
	if len(names) > 0 {
		l.open("these names are from memory: look them up in the glossary of your market, then state them as \"inci\" in the workshop, or say --checked: %s", strings.Join(names, ", "))
	}
	for _, m := range n.control.Materials {
		if m, _ = n.material(m.Name); m.INCI == "" && (m.Kind == recipe.ColourMaterial || m.Kind == recipe.AdditiveMaterial || m.Kind == recipe.ToppingMaterial) {
			l.open("%s has no name for a label: state its \"inci\" in the workshop", m.Name)
		}
	}
	for i, g := range l.Ingredients {
		if g.Share < onePercent && !g.Colour {
			l.note("From %s on each is under 1 %%: these may stand in any order; colours follow in any order.", l.Ingredients[i].Name)
			break
		}
	}
	if l.As == AsSaponified {
		l.note("As it came out: soaps and glycerin are worked out from the saponification values, as if all oils reacted alike; whether your market takes this style is for you and your assessor to settle.")
	}
}

func (l *Label) sayScents(n naming) {
	for _, called := range n.unstatedInRecipe() {
		l.open("the allergens of %s are not stated: take them from the supplier's declaration into the workshop as \"allergens\"", called)
	}
	if l.Market == US {
		return
	}
	l.note("Allergens are named above 0.01 %% of the finished bar, which is rinsed off (Regulation (EC) 1223/2009, annex III; the threshold was read second-hand).")
	if l.Market != UK {
		return
	}
	for _, g := range l.Ingredients {
		if g.From == "scent" && !isOlder(g.Name) {
			l.note("%s is not one of the 24 older allergens, which Great Britain is remembered to keep: naming it does no harm; check with OPSS.", g.Name)
		}
	}
}

func (l *Label) sayDurability() {
	switch {
	case l.Market == US:
	case l.Durability == (Durability{}):
		l.open("how long it keeps is not stated: give the recipe's label \"keeps\", or above 30 months \"after opening\"")
	}
}

func (l *Label) sayWeight(w weights) {
	if l.Net.Nominal == 0 {
		l.open("no net weight: bars were neither weighed nor planned")
		return
	}
	l.note("Net weight from %s: %d of them, mean %s, spread %s. The largest whole gram for which the average is met, no more than 2.5 %% are short by more than %s (under %s) and none by twice that (under %s): Directive 76/211/EEC.",
		l.Net.From, l.Net.Weighed, grams(l.Net.Mean), l.Net.spreadWords(w.Weights), grams(l.Net.Allowed), grams(l.Net.T1), grams(l.Net.T2))
	for _, d := range l.Net.Doubts {
		l.open("the net weight: %s", d)
	}
	if !w.measured && l.Market != US {
		l.note("Allergens are reckoned as if the bar lost %.0f %% in the cure.", 100*w.loss)
	}
}

func (l *Label) sayMarket() {
	if l.Market != US {
		return
	}
	l.note("The US dictionary adds the English plant name, as in Olea Europaea (Olive) Fruit Oil, and colours have names of their own (from memory): check both.")
	l.note("Letters of the list are 1/16 in high or more (21 CFR 701.3); soap sold only as soap need not list its ingredients (21 CFR 701.20).")
	l.note("The variations that NIST Handbook 133 allows were not to hand; the weight keeps to the European rules, which say less than is there.")
}

// spreadWords says how far bars differ, as far as it is known.
func (n Net) spreadWords(w Weights) string {
	switch {
	case len(w.Each) < 2:
		return "not known"
	case w.Count > 0:
		return fmt.Sprintf("%s (of the %d weighed one by one)", grams(n.Spread), len(w.Each))
	}
	return grams(n.Spread)
}
