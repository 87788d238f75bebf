package steps

import (
	"fmt"
	"slices"
	"strings"

	"bench/internal/calc"
	"bench/internal/recipe"
	"bench/internal/sure"
	"bench/internal/work"
)

// batter gives what the plan says of a pot.
func (p *planner) batter(k pot) Batter {
	b := Batter{
		Name: k.recipe.Name, Oils: amounts(k.allOils()), Alkali: k.alkaliAmounts(), Water: k.ofPartAmount(amount(k.water)),
		Additives: amounts(k.additives), Asked: k.recipe.Superfat, MixAt: k.recipe.MixAt, Mass: k.base(),
	}
	b.Concentration = p.concentration(k)
	var layers []calc.Part
	for _, l := range p.pours {
		if l.recipe.Batter == k.recipe.Name {
			b.Mass += sum(l.colours...) + sum(l.scents...)
			layers = append(layers, calc.Part{Grams: l.layer.Mass.Grams(), GramsPerML: p.size.Mixtures[l.at].GramsPerML})
		}
	}
	b.Density = calc.DensityByVolume(layers...)
	b.Account, b.Own = p.account(k), p.own(k)
	b.Peak, _ = p.lyeSolution(k).Peak()
	b.Superfat, b.Widens = b.Account.Band()
	if p.met(b.Name) {
		b.MetAt, _ = p.mix(k, lyeTemperatureID(b.Name), oilTemperatureID(b.Name))
	}
	return b
}

func (p *planner) account(k pot) sure.Account {
	var oils sure.Oils
	for _, t := range k.allOils() {
		use, _ := p.c.Oil(oilKey(k.recipe, t))
		for _, o := range p.c.PartsOf(use) {
			oils.Add(o.Name, interval(t), o.Part, o.SV)
		}
	}
	for _, t := range p.carriers(k) {
		if o, ok := p.c.CarriedBy(t.Material, 0); ok {
			oils.Add(o.Oil.Name, interval(t), o.Share, o.Oil.SV)
		}
	}
	var alkalis []calc.AlkaliAmount
	for _, t := range k.allAlkali() {
		m, _ := p.c.Material(t.Material)
		pure := calc.UnstatedPurity()
		if m.Stock > 0 {
			pure = calc.StatedPurity(m.Stock.Fraction())
		} else if m.Purity > 0 {
			pure = calc.StatedPurity(m.Purity.Fraction())
		}
		alkalis = append(alkalis, calc.AlkaliAmount{
			Name: m.Name, Grams: k.inPot(t), Purity: pure, MolarMass: recipe.MolarMass(t.Material),
		})
	}
	return sure.Account{Oils: oils, Alkalis: alkalis, Acids: k.acids}
}

func amounts(tasks []work.Task) []Amount {
	out := make([]Amount, len(tasks))
	for i, t := range tasks {
		out[i] = amount(t)
	}
	return out
}

// own lists the maker's values that a batter rests on.
func (p *planner) own(k pot) []Own {
	var out []Own
	for _, share := range k.recipe.Oils {
		use, _ := p.c.Oil(share.Oil)
		if len(use.Blend) > 0 {
			out = append(out, Own{use.Name, "premelted oils", strings.TrimPrefix(use.SVFrom, "of its oils: ")})
		}
		for _, o := range p.c.PartsOf(use) {
			said := Own{o.Name, fmt.Sprintf("saponification value %.4g mg/g (%.4g to %.4g)", o.SV.Nominal, o.SV.Low, o.SV.High), o.SVFrom}
			if o.Own && !slices.Contains(out, said) {
				out = append(out, said)
			}
		}
	}
	for _, a := range k.recipe.Alkali {
		switch m, _ := p.c.Material(a.Material); {
		case m.Stock > 0:
			out = append(out, Own{m.Name, "stock solution of " + m.Stock.String(), m.StockFrom()})
		case m.Purity > 0:
			out = append(out, Own{m.Name, "purity " + m.Purity.String(), m.PurityFrom()})
		}
	}
	return out
}
