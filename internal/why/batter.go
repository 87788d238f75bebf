package why

import (
	"fmt"
	"strings"

	"bench/internal/oils"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/solution"
	"bench/internal/steps"
)

// additives explains each additive, and the alkali that an acid uses up.
func (w *whys) additives(b steps.Batter, master recipe.Batter) {
	oils := 0.0
	for _, a := range b.Oils {
		oils += a.Mass.Grams()
	}
	for i, a := range master.Additives {
		r := Reason{
			Figure: b.Name + "/" + a.Material, Value: b.Additives[i].Target.String(), Formula: "additive = rate × oils",
			Numbers: []string{fmt.Sprintf("%.4g × %.1f g = %.3f g", a.Rate.Fraction(), oils, a.Rate.Fraction()*oils)},
			Sources: []string{"rate: the recipe"},
		}
		if m, _ := w.c.Material(a.Material); m.Acid > 0 {
			r.Numbers = append(r.Numbers, fmt.Sprintf("it uses up %.3f g × %.4g mg/g = %.3f g of the alkali, as KOH",
				a.Rate.Fraction()*oils, 1000*m.Acid.Fraction(), a.Rate.Fraction()*oils*m.Acid.Fraction()))
			r.Sources = append(r.Sources, "acid: the workshop; citric acid 876 mg/g is 1000 × 3 × M(KOH)/M, anhydrous")
		}
		w.add(r)
	}
}

// density explains the batter's density and that of its lye solution.
func (w *whys) density(b steps.Batter, master recipe.Batter) {
	h := w.c.Hydroxides(master, alkaliOf(b, master))
	water := b.Water.Mass.Grams()
	celsius := b.MixAt.Celsius()
	lye := Reason{
		Figure: b.Name + "/lye density", Value: fmt.Sprintf("%.4f g/mL at %s", solution.MixedHydroxideDensity(h.NaOH, h.KOH, water+h.Bound, celsius), b.MixAt),
		Formula: "apparent volume of the hydroxide in water, by strength and temperature",
		Numbers: []string{fmt.Sprintf("%.2f g NaOH, %.2f g KOH and %.2f g water, of which %.2f g came with the alkali", h.NaOH, h.KOH, water+h.Bound, h.Bound)},
		Sources: []string{"NaOH: M. Laliberté, J. Chem. Eng. Data 54 (2009) 1725, doi 10.1021/je8008123 (read); low by up to 0.3 % at 40 %"},
	}
	if h.KOH > 0 {
		lye.Sources = append(
			lye.Sources,
			"KOH: parameters of Laliberté & Cooper, J. Chem. Eng. Data 49 (2004) 1141 (from memory); within 0.13 % of the International Critical Tables' at 15 °C (from memory); trust 1 % when hot",
			"both together: estimated; the volumes of two solutions of the whole's strength add up",
		)
	}
	w.add(lye)
	batter := Reason{
		Figure: b.Name + "/density", Value: fmt.Sprintf("%.3f g/mL at %s", b.Density, b.MixAt),
		Formula: "ρ = Σm / Σ(m/ρ): the volumes add up",
		Sources: []string{
			"oils: the table's densities, moved by −0.00067 g/mL per °C (Noureddini et al., JAOCS 69 (1992) 1184, from memory)",
			"scent 0.95, additives 1.1, colour 2.8 g/mL: common practice, no source",
		},
	}
	for _, a := range b.Oils {
		for _, o := range w.c.Oils {
			if o.Name == a.Name {
				batter.Numbers = append(batter.Numbers, fmt.Sprintf("%s: %s at %.4f g/mL", a.Name, a.Mass, o.GramsPerML(b.MixAt)))
				batter.Sources = append(batter.Sources, densitySource(o))
			}
		}
	}
	batter.Numbers = append(batter.Numbers, "lye solution: "+lye.Value)
	w.add(batter)
}

func densitySource(o recipe.OilUse) string {
	row, ok := oils.ByKey(o.Key)
	if !ok || o.DensityFrom != "" {
		return fmt.Sprintf("density of %s: %.4g g/mL at 20 °C, %s", o.Name, o.Density, o.DensityFrom)
	}
	return fmt.Sprintf("density of %s: %s (%s)", o.Name, row.RelativeDensity.Source, row.RelativeDensity.Flag)
}

// layer explains what a layer takes, its lines, its colours and its scents.
func (w *whys) layer(l steps.Layer, at int) {
	mixtures := w.c.Mixtures()
	mix := mixtures[at]
	fill, section := w.c.Fills()[at], w.c.Mould.Section()
	room := fmt.Sprintf("%.1f mm² × %s", fill.Area, w.c.Mould.Length)
	if section.Lean != 0 || !w.c.Mould.HasHeights() {
		room = fmt.Sprintf("%.1f ml", fill.Volume/1000) // It is not as long everywhere.
	}
	need := w.c.OilsNeeded(mixtures)[at]
	w.add(Reason{
		Figure: l.Name + "/batter", Value: l.Mass.String(),
		Formula: "batter = cross-section × length × density × loaves + what stays in the vessels; oils = batter / batter of a gram of oils",
		Numbers: []string{
			fmt.Sprintf("%s × %.4f g/mL × %d loaves + %s", room, mix.GramsPerML, w.c.Loaves, w.c.Clinging(at)),
			fmt.Sprintf("1 g of oils makes %.4f g of batter, so that takes %.1f g of oils", mix.Total, need),
		},
		Sources: []string{"geometry: the recipe and the mould, embeds taken away", "what stays in a vessel: the workshop"},
	})
	w.add(Reason{
		Figure: l.Name + "/pour line", Value: fmt.Sprintf("%s from the floor, %s down from the rim", steps.ToAnEye(l.PourLine), steps.ToAnEye(l.Rim)),
		Formula: "the height at which what is poured fills the section before this layer's embeds are in",
		Numbers: []string{fmt.Sprintf("%s, said to half a millimetre as an eye pours; finished at %s; the mould is %s high", l.PourLine, steps.ToAnEye(l.Surface), w.c.Mould.Height)},
		Sources: []string{"plane geometry"},
	})
	for _, k := range w.c.Recipe.Layers[at].Colours {
		w.add(rated(l, k.Material, k.Rate.Fraction(), l.Colours))
	}
	for i, s := range w.c.Recipe.Layers[at].Scents {
		r := rated(l, s.Material, s.Rate.Fraction(), []steps.Amount{l.Scents[i].Amount})
		if s.Of == recipe.OfBatter {
			r.Formula = "scent = rate × batter, itself included"
			r.Numbers = []string{fmt.Sprintf("%.4g × %.4f g of batter = %.4f g for each gram of oils; %s of oils", s.Rate.Fraction(), mix.Total, mix.Scents[i], l.Oils)}
		}
		if m, _ := w.c.Material(s.Material); m.Limit > 0 {
			r.Sources = append(r.Sources, fmt.Sprintf("limit %s in the finished bar: the supplier's certificate, as the workshop states it", m.Limit))
		}
		w.add(r)
	}
}

func rated(l steps.Layer, name string, rate float64, amounts []steps.Amount) Reason {
	r := Reason{
		Figure: l.Name + "/" + name, Formula: "amount = rate × the layer's oils", Sources: []string{"rate: the recipe"},
		Numbers: []string{fmt.Sprintf("%.4g × %s = %.3f g", rate, l.Oils, rate*l.Oils.Grams())},
	}
	for _, a := range amounts {
		if a.Name == name {
			r.Value = a.Mass.String()
		}
	}
	return r
}

// alkaliOf gives the grams of each alkali of a recipe in a batter, with what came on top.
func alkaliOf(b steps.Batter, master recipe.Batter) []float64 {
	out := make([]float64, len(master.Alkali))
	for i, a := range master.Alkali {
		for _, there := range b.Alkali {
			if there.Name == a.Material {
				out[i] += there.Mass.Grams()
			}
		}
	}
	return out
}

// askedOf says how much of an alkali is asked for, all in all and each time.
func askedOf(b steps.Batter, material string) string {
	var all quantity.Mass
	var each []string
	for _, a := range b.Alkali {
		if a.Name == material {
			all += a.Target
			each = append(each, a.Target.String())
		}
	}
	if len(each) < 2 {
		return all.String()
	}
	return all.String() + " (" + strings.Join(each, " and then ") + ")"
}

// heat explains how hot the lye solution can get.
func (w *whys) heat(b steps.Batter, master recipe.Batter) {
	if b.Peak.Celsius == 0 {
		return
	}
	h := w.c.Hydroxides(master, alkaliOf(b, master))
	r := Reason{
		Figure: b.Name + "/peak", Value: b.Peak.String() + " (k = 2)",
		Formula: "T = 25 °C + (heat of solution at that strength + what alkali and water bring) / heat capacity; nothing is lost to jug or air, and it goes no higher than the solution boils",
		Numbers: []string{fmt.Sprintf("%.2f g NaOH and %.2f g KOH, with %.2f g of bound water, into %s of water; all at %s",
			h.NaOH, h.KOH, h.Bound, b.Water.Mass, w.c.RoomTemperature())},
		Sources: []string{
			"integral heats of NaOH: Felder & Rousseau, table B.11, towards the CRC Handbook's value at infinite dilution (both from memory)",
			"heat capacity: Laliberté, J. Chem. Eng. Data 54 (2009) 1725, lowered towards Perry's (from memory)",
		},
	}
	if m, _ := w.c.Material(master.Alkali[0].Material); m.Stock > 0 {
		r.Formula = "the same from the difference of the integral heats at the two strengths, the stock at the room's temperature"
	}
	if h.KOH > 0 {
		r.Sources = append(r.Sources, "KOH: estimated from 57.61 kJ/mol at infinite dilution (CRC Handbook, from memory) and what bound water has given away; the error covers it")
	}
	w.add(r)
}

// brought lists the water that a stock solution and watery additives bring.
func (w *whys) brought(b steps.Batter, master recipe.Batter) []string {
	var list []string
	for i, a := range master.Alkali {
		if m, _ := w.c.Material(a.Material); m.Stock > 0 {
			g := alkaliOf(b, master)[i]
			list = append(list, fmt.Sprintf("less %.2f g × (1 − %s) = %.2f g in the stock solution", g, m.Stock, g*(1-m.Stock.Fraction())))
		}
	}
	for i, a := range master.Additives {
		if m, _ := w.c.Material(a.Material); m.Water > 0 && i < len(b.Additives) {
			g := b.Additives[i].Mass.Grams()
			list = append(list, fmt.Sprintf("less %.2f g × %s = %.2f g in the %s", g, m.Water, g*m.Water.Fraction(), m.Name))
		}
	}
	return list
}
