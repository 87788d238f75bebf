// Package sure says how sure a superfat is, what would make it surer, and which
// superfat is low enough.
//
// The rule: a band is worked out by calc from an account; what is here asks the
// same account again, as it would be with one thing known better.
package sure

import (
	"fmt"
	"slices"
	"strings"

	"bench/internal/calc"
	"bench/internal/quantity"
)

// Account is what a superfat is worked out from.
type Account struct {
	Oils    []calc.OilAmount
	Alkalis []calc.AlkaliAmount
	Acids   float64 // Acids is the alkali that acids take, in grams of KOH.
}

// Oils collects what a batter's oils are. What is one oil is one amount, however
// many weighings bring it: nobody knows its value better for that.
type Oils []calc.OilAmount

// Add adds a part, a fraction, of a weighing of grams.
func (o *Oils) Add(name string, grams calc.Interval, part float64, sv calc.Interval) {
	i := slices.IndexFunc(*o, func(have calc.OilAmount) bool { return have.Name == name && have.SV == sv })
	if i < 0 {
		i = len(*o)
		*o = append(*o, calc.OilAmount{Name: name, SV: sv})
	}
	g := &(*o)[i].Grams
	g.Low, g.Nominal, g.High = g.Low+grams.Low*part, g.Nominal+grams.Nominal*part, g.High+grams.High*part
}

// Band gives the superfat with its band, and what makes the band wide, most
// first.
func (a Account) Band() (calc.Superfat, []calc.Contribution) {
	return calc.SuperfatBand(a.Oils, a.Alkalis, a.Acids)
}

// Lowest gives the superfat, in percent, that keeps the band above zero.
func (a Account) Lowest() float64 { return calc.LowestSuperfat(a.Oils, a.Alkalis, a.Acids) }

// Has gives the alkali that there is, in grams of KOH.
func (a Account) Has() float64 {
	have := 0.0
	for _, k := range a.Alkalis {
		have += k.Grams.Nominal * k.Purity.Nominal * calc.MolarMassKOH / k.MolarMass
	}
	return have
}

// Wants gives the alkali that a superfat, a fraction of 1, leaves room for, in
// grams of KOH.
func (a Account) Wants(superfat float64) float64 {
	return calc.AlkaliAsKOH(a.Oils)*(1-superfat) + a.Acids
}

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

// Surer works out what narrows the band. It is not part of a plan until
// it is asked for, because it tries many superfats.
func (a Account) Surer() Surer {
	s := Surer{Lowest: a.Lowest()}
	if _, widens := a.Band(); len(widens) > 0 {
		s.Most = widens[0]
		known := a.knowing(s.Most)
		s.Narrower, _ = known.Band()
		s.LowestNarrower = known.Lowest()
	}
	certified := a
	certified.Oils = slices.Clone(certified.Oils)
	s.AlreadyCertified = true
	for i, o := range certified.Oils {
		if better := calc.Certificate(o.SV.Nominal); better.High-better.Low < o.SV.High-o.SV.Low-1e-9 {
			certified.Oils[i].SV = better
			s.AlreadyCertified = false
		}
	}
	s.LowestCertified = certified.Lowest()
	return s
}

// knowing gives the account with one input known as well as it can be: an oil's
// value by its certificate, a purity by its container, a weight by a scale that
// reads ten times finer.
func (a Account) knowing(c calc.Contribution) Account {
	a.Oils, a.Alkalis = slices.Clone(a.Oils), slices.Clone(a.Alkalis)
	for i, o := range a.Oils {
		switch {
		case o.Name != c.Name:
		case c.Input == calc.InputSV:
			a.Oils[i].SV = tighter(o.SV, calc.Certificate(o.SV.Nominal))
		case c.Input == calc.InputMass:
			a.Oils[i].Grams = finer(o.Grams)
		}
	}
	for i, k := range a.Alkalis {
		switch {
		case k.Name != c.Name:
		case c.Input == calc.InputPurity:
			a.Alkalis[i].Purity = tighter(k.Purity, calc.StatedPurity(k.Purity.Nominal))
		case c.Input == calc.InputMass:
			a.Alkalis[i].Grams = finer(k.Grams)
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
func (a Account) Sentences() []string {
	band, widens := a.Band()
	s := a.Surer()
	var out []string
	if band.Low < 0 {
		out = append(out, fmt.Sprintf("The band reaches below zero: there may be free alkali in the soap, which burns. %s keeps it above.", PercentUp(s.Lowest)))
	}
	if len(widens) > 0 {
		out = append(out, fmt.Sprintf("What widens the band most is the %s of %s (%.0f %% of its variance).", s.Most.Input, s.Most.Name, 100*s.Most.Share))
		if narrows(band, s.Narrower) {
			out = append(out, fmt.Sprintf("%s would narrow it to %.1f to %.1f %%.", remedy(s.Most), s.Narrower.Low, s.Narrower.High))
		}
	}
	words := fmt.Sprintf("The lowest superfat that keeps the band above zero is %s.", PercentUp(s.Lowest))
	if !s.AlreadyCertified && PercentUp(s.LowestCertified) != PercentUp(s.Lowest) {
		words = strings.TrimSuffix(words, ".") + fmt.Sprintf("; with a certificate for every oil, %s.", PercentUp(s.LowestCertified))
	}
	return append(out, words)
}

func narrows(have, then calc.Superfat) bool {
	return then.High-then.Low < 0.95*(have.High-have.Low)
}

// PercentUp rounds up, so that what is named really keeps the band above zero.
func PercentUp(percent float64) string {
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
