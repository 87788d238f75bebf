// Package why gives the reason of every figure of a plan: the formula, the
// numbers in it, and where they come from.
//
// The rule: a reason is worked out again from what the plan rests on, and never
// kept with the plan, so that it costs nothing until somebody asks.
package why

import (
	"fmt"
	"slices"
	"strings"

	"bench/internal/batch"
	"bench/internal/calc"
	"bench/internal/recipe"
	"bench/internal/steps"
	"bench/internal/sure"
)

// Reason says why a figure of the plan is what it is.
type Reason struct {
	Figure  string   // Figure is its name, such as "sea/alkali".
	Value   string   // Value is the figure as the plan shows it.
	Formula string   // Formula is in symbols, with what they stand for.
	Numbers []string // Numbers are the same with the numbers in it.
	Sources []string // Sources say where formula and values come from.
}

// Of gives the reason of every figure of the plan, batter by batter and then
// layer by layer.
func Of(s batch.State) []Reason {
	plan, w := steps.Of(s), whys{c: s.Control}
	for _, b := range plan.Batters {
		master, _ := w.c.Recipe.Batter(b.Name)
		w.oils(b, master)
		carriers := slices.Clone(b.Additives)
		for _, l := range plan.Layers {
			if l.Batter == b.Name {
				carriers = append(carriers, l.Colours...)
			}
		}
		w.alkali(b, master, carriers)
		w.water(b, master)
		w.heat(b, master)
		w.additives(b, master)
		w.superfat(b)
		w.density(b, master)
	}
	for i, l := range plan.Layers {
		w.layer(l, i)
	}
	return w.list
}

// whys collects reasons.
type whys struct {
	c    recipe.Control
	list []Reason
}

func (w *whys) add(r Reason) { w.list = append(w.list, r) }

func (w *whys) oils(b steps.Batter, master recipe.Batter) {
	total := 0.0
	for _, a := range b.Oils {
		total += a.Mass.Grams()
	}
	from := "layers' volume × density × loaves + what stays in the vessels, divided by the batter of a gram of oils"
	if master.OilWeight > 0 {
		from = "stated in the recipe"
	}
	for _, a := range b.Oils {
		share := 0.0
		for _, o := range master.Oils {
			if use, _ := w.c.Oil(o.Oil); use.Name == a.Name {
				share = o.Share.Fraction()
			}
		}
		w.add(Reason{
			Figure: b.Name + "/" + a.Name, Value: a.Mass.String(), Formula: "oil = share × oils",
			Numbers: []string{fmt.Sprintf("%.4g × %.1f g = %.2f g", share, total, share*total)},
			Sources: []string{"share: the recipe", "oils: " + from},
		})
	}
}

// alkali explains what is weighed of each alkali, from the oils up. Carriers are
// what may bring oil along.
func (w *whys) alkali(b steps.Batter, master recipe.Batter, carriers []steps.Amount) {
	var numbers, sources []string
	koh := 0.0
	for _, a := range b.Oils {
		for _, o := range w.c.Oils {
			if o.Name != a.Name {
				continue
			}
			for _, part := range w.c.PartsOf(o) {
				mass, called := a.Mass.Grams()*part.Part, part.Name
				if len(o.Blend) > 0 {
					called += " in the " + o.Name
				}
				grams := mass * part.SV.Nominal / 1000
				koh += grams
				numbers = append(numbers, fmt.Sprintf("%s: %.2f g × %.4g mg/g = %.3f g KOH (%.4g to %.4g mg/g)", called, mass, part.SV.Nominal, grams, part.SV.Low, part.SV.High))
				if source := "saponification value of " + part.Name + ": " + part.SVFrom; !slices.Contains(sources, source) {
					sources = append(sources, source)
				}
			}
		}
	}
	for _, a := range carriers {
		o, ok := w.c.CarriedBy(a.Name, a.Mass.Grams())
		if !ok {
			continue
		}
		grams := o.Grams * o.Oil.SV.Nominal / 1000
		koh += grams
		numbers = append(numbers, fmt.Sprintf("%s in the %s: %.2f g × %.4g mg/g = %.3f g KOH", o.Oil.Name, a.Name, o.Grams, o.Oil.SV.Nominal, grams))
		sources = append(sources, "saponification value of "+o.Oil.Name+": "+o.Oil.SVFrom)
	}
	acids := b.Account.Acids
	all := koh*(1-b.Asked.Fraction()) + acids
	numbers = append(numbers, fmt.Sprintf("A = %.3f g × (1 − %s) + %.3f g for acids = %.3f g KOH", koh, b.Asked, acids, all))
	sources = append(sources, "N = Σ m·SV/1000: definition of the saponification value, ISO 3657", "molar masses: CIAAW, abridged (from memory)")
	for _, a := range master.Alkali {
		m, _ := w.c.Material(a.Material)
		purity, said := "100 %, because none is stated", "not stated; the band allows for 95 to 100 % (JECFA, USP-NF)"
		if m.Stock > 0 {
			purity, said = m.Stock.String()+" (a stock solution)", m.StockFrom()
		} else if m.Purity > 0 {
			purity, said = m.Purity.String(), m.PurityFrom()
		}
		grams := calc.AlkaliNeeded(koh, acids, b.Asked.Fraction(), a.Share.Fraction(), recipe.MolarMass(a.Material), m.PureFraction())
		w.add(Reason{
			Figure: b.Name + "/" + a.Material, Value: askedOf(b, a.Material),
			Formula: "alkali = A × share × M/M(KOH) / purity, with A = N × (1 − superfat) + acids and N = Σ m·SV/1000",
			Numbers: append(append([]string(nil), numbers...), fmt.Sprintf("%.3f g × %s × %.3f/%.3f / purity %s = %.3f g",
				all, a.Share, recipe.MolarMass(a.Material), calc.MolarMassKOH, purity, grams)),
			Sources: append(append([]string(nil), sources...), "purity: "+said),
		})
	}
}

func (w *whys) water(b steps.Batter, master recipe.Batter) {
	alkali, oils := w.c.Dry(master, alkaliOf(b, master)), 0.0
	for _, a := range b.Oils {
		oils += a.Mass.Grams()
	}
	r := Reason{Figure: b.Name + "/" + recipe.Water, Value: b.Water.Mass.String(), Sources: []string{"the recipe; alkali as weighed"}}
	v := master.Water.Value
	switch master.Water.Kind {
	case calc.ByLyeConcentration:
		r.Formula = "water = alkali × (1 − w) / w, with the lye concentration w"
		r.Numbers = []string{fmt.Sprintf("%.2f g × (1 − %.4g) / %.4g = %.2f g", alkali, v, v, alkali*(1-v)/v)}
	case calc.ByWaterPerAlkali:
		r.Formula = "water = alkali × water : alkali"
		r.Numbers = []string{fmt.Sprintf("%.2f g × %.4g = %.2f g", alkali, v, alkali*v)}
	case calc.ByWaterOfOils:
		r.Formula = "water = oils × share"
		r.Numbers = []string{fmt.Sprintf("%.2f g × %.4g = %.2f g", oils, v, oils*v)}
	}
	if brought := w.brought(b, master); len(brought) > 0 {
		r.Formula += ", less what is there already"
		r.Numbers = append(r.Numbers, brought...)
	}
	r.Sources = append(r.Sources, "no more alkali than dissolves at 20 °C: ICSC (second-hand) for sodium hydroxide")
	w.add(r)
}

// superfat explains the superfat, its band and the lowest that keeps it above
// zero.
func (w *whys) superfat(b steps.Batter) {
	var need, have []string
	for _, o := range b.Account.Oils {
		need = append(need, fmt.Sprintf("%.2f × %.4g/1000", o.Grams.Nominal, o.SV.Nominal))
	}
	for _, k := range b.Account.Alkalis {
		have = append(have, fmt.Sprintf("%.2f × %.4g × %.3f/%.3f", k.Grams.Nominal, k.Purity.Nominal, calc.MolarMassKOH, k.MolarMass))
	}
	f := b.Superfat
	w.add(Reason{
		Figure: b.Name + "/superfat", Value: fmt.Sprintf("%.2f %%", f.Percent),
		Formula: "s = 1 − (A − acids)/N, both as grams of KOH, from what the scales show",
		Numbers: []string{
			"N = " + strings.Join(need, " + ") + fmt.Sprintf(" = %.3f", calc.AlkaliAsKOH(b.Account.Oils)),
			"A = " + strings.Join(have, " + "), fmt.Sprintf("acids = %.3f", b.Account.Acids),
		},
		Sources: []string{"definition of the saponification value, ISO 3657"},
	})
	band := Reason{
		Figure: b.Name + "/band", Value: fmt.Sprintf("%.2f to %.2f %% (worst case %.2f to %.2f)", f.Low, f.High, f.WorstLow, f.WorstHigh),
		Formula: "u(s)² = ((A − acids)/N²)²·u(N)² + u(A)²/N²; every half-width a is rectangular, u = a/√3; k = 2, or less where one or two inputs outweigh all others and a purity is not stated; no wider than the worst case",
		Sources: []string{"JCGM 100:2008 (GUM), 4.3.7, 5.1.2 and 6.3.3", "k of one or two flat inputs: EA-4/02, S9.14 and S10.13 (from memory); a test holds every oil to draws by JCGM 101"},
	}
	for _, o := range b.Account.Oils {
		band.Numbers = append(band.Numbers, fmt.Sprintf("%s: %.2f to %.2f g, %.4g to %.4g mg/g", o.Name, o.Grams.Low, o.Grams.High, o.SV.Low, o.SV.High))
	}
	for _, k := range b.Account.Alkalis {
		band.Numbers = append(band.Numbers, fmt.Sprintf("%s: %.2f to %.2f g, purity %.4g to %.4g", k.Name, k.Grams.Low, k.Grams.High, k.Purity.Low, k.Purity.High))
	}
	for _, c := range b.Widens {
		band.Numbers = append(band.Numbers, fmt.Sprintf("%.1f %% of the variance: %s of %s", 100*c.Share, c.Input, c.Name))
	}
	w.add(band)
	w.add(Reason{
		Figure: b.Name + "/lowest superfat", Value: sure.PercentUp(b.Account.Lowest()),
		Formula: "the smallest superfat at which the band's lower end is zero, found by halving",
		Numbers: b.Account.Sentences(), Sources: band.Sources,
	})
}
