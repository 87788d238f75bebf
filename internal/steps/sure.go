package steps

import (
	"fmt"
	"slices"
	"strings"

	"bench/internal/calc"
	"bench/internal/quantity"
	"bench/internal/recipe"
)

// account is what a superfat is worked out from.
type account struct {
	oils    []calc.OilAmount
	alkalis []calc.AlkaliAmount
	acids   float64 // acids is the alkali that acids take, as g of KOH.
}

func (a account) band() (calc.Superfat, []calc.Contribution) {
	return calc.SuperfatBand(a.oils, a.alkalis, a.acids)
}

func (a account) lowest() float64 { return calc.LowestSuperfat(a.oils, a.alkalis, a.acids) }

// Surer is how sure a batter's superfat is, the useful way round. Superfats are
// in percent.
type Surer struct {
	Most             calc.Contribution // Most is what widens the band most.
	Narrower         calc.Superfat     // Narrower is the band once Most is known as well as it can be.
	Lowest           float64           // Lowest keeps the band above zero.
	LowestNarrower   float64           // LowestNarrower is the same once Most is known so well.
	LowestCertified  float64           // LowestCertified is the same with a certificate for every oil.
	AlreadyCertified bool              // AlreadyCertified says that every oil has one.
}

// Surer works out what narrows a batter's band. It is not part of a plan until
// it is asked for, because it tries many superfats.
func (b Batter) Surer() Surer {
	s := Surer{Lowest: b.account.lowest()}
	if len(b.Widens) > 0 {
		s.Most = b.Widens[0]
		known := b.account.knowing(s.Most)
		s.Narrower, _ = known.band()
		s.LowestNarrower = known.lowest()
	}
	certified := b.account
	certified.oils = slices.Clone(certified.oils)
	s.AlreadyCertified = true
	for i, o := range certified.oils {
		if better := calc.Certificate(o.SV.Nominal); better.High-better.Low < o.SV.High-o.SV.Low-1e-9 {
			certified.oils[i].SV = better
			s.AlreadyCertified = false
		}
	}
	s.LowestCertified = certified.lowest()
	return s
}

// knowing gives the account with one input known as well as it can be: an oil's
// value by its certificate, a purity by its container, a weight by a scale that
// reads ten times finer.
func (a account) knowing(c calc.Contribution) account {
	a.oils, a.alkalis = slices.Clone(a.oils), slices.Clone(a.alkalis)
	for i, o := range a.oils {
		switch {
		case o.Name != c.Name:
		case c.Input == calc.InputSV:
			a.oils[i].SV = tighter(o.SV, calc.Certificate(o.SV.Nominal))
		case c.Input == calc.InputMass:
			a.oils[i].Grams = finer(o.Grams)
		}
	}
	for i, k := range a.alkalis {
		switch {
		case k.Name != c.Name:
		case c.Input == calc.InputPurity:
			a.alkalis[i].Purity = tighter(k.Purity, calc.StatedPurity(k.Purity.Nominal))
		case c.Input == calc.InputMass:
			a.alkalis[i].Grams = finer(k.Grams)
		}
	}
	return a
}

func tighter(have, better calc.Interval) calc.Interval {
	if better.High-better.Low < have.High-have.Low {
		return better
	}
	return have
}

func finer(i calc.Interval) calc.Interval {
	tenth := func(end float64) float64 { return i.Nominal + (end-i.Nominal)/10 }
	return calc.Interval{Low: tenth(i.Low), Nominal: i.Nominal, High: tenth(i.High)}
}

// Sentences says how sure the superfat is, and what would make it surer.
func (b Batter) Sentences() []string {
	s := b.Surer()
	var out []string
	if b.Superfat.Low < 0 {
		out = append(out, fmt.Sprintf("The band reaches below zero: there may be free alkali in the soap, which burns. %s keeps it above.", percentUp(s.Lowest)))
	}
	if len(b.Widens) > 0 {
		out = append(out, fmt.Sprintf("What widens the band most is the %s of %s (%.0f %% of its variance).", s.Most.Input, s.Most.Name, 100*s.Most.Share))
		if narrows(b.Superfat, s.Narrower) {
			out = append(out, fmt.Sprintf("%s would narrow it to %.1f to %.1f %%.", remedy(s.Most), s.Narrower.Low, s.Narrower.High))
		}
	}
	words := fmt.Sprintf("The lowest superfat that keeps the band above zero is %s.", percentUp(s.Lowest))
	if !s.AlreadyCertified && percentUp(s.LowestCertified) != percentUp(s.Lowest) {
		words = strings.TrimSuffix(words, ".") + fmt.Sprintf("; with a certificate for every oil, %s.", percentUp(s.LowestCertified))
	}
	return append(out, words)
}

func narrows(have, then calc.Superfat) bool {
	return then.High-then.Low < 0.95*(have.High-have.Low)
}

// percentUp rounds up, so that what is named really keeps the band above zero.
func percentUp(percent float64) string {
	return quantity.FromFraction(float64(int(percent*10+0.999999)) / 1000).String()
}

// remedy says what would tell more about an input.
func remedy(c calc.Contribution) string {
	switch c.Input {
	case calc.InputSV:
		return "A certificate value for " + c.Name
	case calc.InputPurity:
		return "The purity on the container of the " + c.Name
	case calc.InputMass:
		return "A finer scale for the " + c.Name
	}
	return "More about " + c.Name
}

// Own is a value that the maker stated, in words.
type Own struct{ Name, Value, From string }

// own lists the maker's values that a batter rests on.
func (p *planner) own(k pot) []Own {
	var out []Own
	for _, t := range k.oils {
		if o, _ := p.c.Oil(p.oilKey(k.recipe, t)); o.Own {
			out = append(out, Own{o.Name, fmt.Sprintf("saponification value %.4g mg/g (%.4g to %.4g)", o.SV.Nominal, o.SV.Low, o.SV.High), o.SVFrom})
		}
	}
	for _, a := range k.recipe.Alkali {
		switch m, _ := p.c.Material(a.Material); {
		case m.Stock > 0:
			out = append(out, Own{m.Name, "stock solution of " + m.Stock.String(), stockFrom(m)})
		case m.Purity > 0:
			out = append(out, Own{m.Name, "purity " + m.Purity.String(), from(m)})
		}
	}
	return out
}

func from(m recipe.Material) string {
	if m.Lot == "" {
		return "the container"
	}
	return "the container of lot " + m.Lot
}
