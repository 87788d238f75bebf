package label

import (
	"bench/internal/calc"
	"bench/internal/form"
	"bench/internal/oils"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/steps"
	"bench/internal/work"
)

// doughGramsPerML is the density of made soap: common practice, 1.0 to 1.1, no
// source. It only decides how much of an embed there is beside the batter.
const doughGramsPerML = 1.05

// pot is what one batter, or one soap dough, was made of, as far as it is in the
// loaves.
type pot struct {
	name    string
	oils    []fat
	alkalis []alkali
	water   float64 // water is in grams.
	acids   float64 // acids is the alkali that acids take, in grams of potassium hydroxide.
	rest    []other
}

// fat is an oil in grams, with its saponification value in mg/g.
type fat struct {
	row   oils.Oil
	grams float64
	sv    float64
}

// alkali is in grams as weighed; pure is the part of it that is alkali.
type alkali struct {
	name        string
	grams, pure float64
}

// other is anything that soap-making leaves as it is.
type other struct {
	name  string
	grams float64
}

// pots gives the batters and doughs of a plan, in grams in all the loaves.
func (n naming) pots(plan steps.Plan) []pot {
	var list []pot
	for _, b := range plan.Batters {
		list = append(list, n.batter(plan, b))
	}
	for i, l := range n.control.Recipe.Layers {
		for k, e := range l.Embeds {
			o := e.Outline(l.Surface)
			_, _, _, top := o.Box()
			ml := n.control.Mould.Section().Volume(o.Under(form.Level(top))) / 1000 * float64(loavesWith(plan, i, k))
			if d, ok := n.material(e.Dough); ok && e.Dough != "" && ml > 0 {
				list = append(list, n.dough(d, ml*doughGramsPerML))
			}
		}
	}
	if on := strewn(plan); len(on) > 0 {
		list = append(list, pot{name: "strewn on", rest: on})
	}
	return list
}

// loavesWith counts the loaves that do not go without an embed.
func loavesWith(plan steps.Plan, layer, embed int) int {
	with := 0
	if layer >= len(plan.Layers) { // There is no plan.
		return 0
	}
	for _, loaf := range plan.Layers[layer].Loaves {
		if !loaf.Face.Embeds[embed].Out {
			with++
		}
	}
	return with
}

// batter gives a pot without what stayed in vessels, with the colours and
// scents of its layers.
func (n naming) batter(plan steps.Plan, b steps.Batter) pot {
	p := pot{name: b.Name, acids: b.Account.Acids}
	f := inMoulds(plan, b)
	for _, a := range b.Oils {
		if use, ok := n.oilNamed(a.Name); ok {
			for _, o := range n.control.PartsOf(use) {
				p.oils = append(p.oils, fat{rowOf(o.Key, o.Name, o.SV), a.Mass.Grams() * f * o.Part, o.SV.Nominal})
			}
		}
	}
	for _, a := range b.Alkali {
		p.add(n.hydroxide(a.Name, a.Mass.Grams()*f))
	}
	p.water += b.Water.Mass.Grams() * f
	p.acids *= f
	for _, a := range b.Additives {
		p.rest = append(p.rest, other{a.Name, a.Mass.Grams() * f})
	}
	for _, l := range plan.Layers {
		if l.Batter != b.Name {
			continue
		}
		batter, scent := inLoaves(l)
		for _, c := range l.Colours {
			p.rest = append(p.rest, other{c.Name, c.Mass.Grams() * batter})
		}
		for _, s := range l.Scents {
			p.rest = append(p.rest, other{s.Name, s.Mass.Grams() * scent})
		}
	}
	return p
}

// inMoulds gives which fraction of a batter reached the moulds, without the scents that
// went into portions of it.
func inMoulds(plan steps.Plan, b steps.Batter) float64 {
	in, all := 0.0, b.Mass.Grams()
	for _, l := range plan.Layers {
		if l.Batter != b.Name {
			continue
		}
		own := portioned(l)
		_, scent := inLoaves(l)
		in, all = in+reached(l).Grams()-own*scent, all-own
	}
	return fraction(in, all)
}

// inLoaves gives which fraction of a layer's batter and of its scents reached the moulds. A
// scent that went into the portions is in what was poured of them, and in nothing that
// stayed in the jug.
func inLoaves(l steps.Layer) (batter, scent float64) {
	in, all := reached(l).Grams(), l.Mass.Grams()
	own := portioned(l)
	if own == 0 {
		part := fraction(in, all)
		return part, part
	}
	scent = fraction(in, all-l.Left.Grams())
	return fraction(in-own*scent, all-own), scent
}

// portioned gives the grams of scent that went into a layer's portions.
func portioned(l steps.Layer) float64 {
	sum := 0.0
	for _, s := range l.Scents {
		if s.Place == recipe.InPortions && len(s.Portions) > 1 {
			sum += s.Mass.Grams()
		}
	}
	return sum
}

func reached(l steps.Layer) quantity.Mass {
	in := quantity.Mass(0)
	for _, p := range l.Loaves {
		in += p.Mass
	}
	return in
}

func fraction(in, all float64) float64 {
	if all <= 0 || in <= 0 {
		return 1
	}
	return min(1, in/all)
}

// hydroxide gives an alkali and the water of its solution. Other impurities are
// not ingredients (Regulation (EC) 1223/2009, article 19(1)(g)).
func (n naming) hydroxide(name string, grams float64) (alkali, float64) {
	m, _ := n.control.Material(name)
	switch {
	case m.Stock > 0:
		dry := grams * m.Stock.Fraction()
		return alkali{name, dry, dry}, grams - dry
	case m.Purity > 0:
		return alkali{name, grams, grams * m.Purity.Fraction()}, 0
	}
	return alkali{name, grams, grams}, 0
}

func (p *pot) add(a alkali, water float64) {
	p.alkalis = append(p.alkalis, a)
	p.water += water
}

// dough gives what so many grams of a soap dough were made of.
func (n naming) dough(d recipe.Material, grams float64) pot {
	p := pot{name: d.Name}
	for _, part := range d.Contains {
		g := grams * part.Share.Fraction()
		switch name := recipe.Fold(part.Name); name {
		case recipe.Water:
			p.water += g
		case recipe.SodiumHydroxide, recipe.PotassiumHydroxide:
			p.add(n.hydroxide(name, g))
		default:
			if row, ok := n.row(part.Name); ok {
				p.oils = append(p.oils, fat{row, g, row.SV.Mid()})
				continue
			}
			p.rest = append(p.rest, other{part.Name, g})
		}
	}
	return p
}

// strewn lists what is weighed onto a surface: the mica lines and the toppings.
func strewn(plan steps.Plan) []other {
	var list []other
	for _, st := range plan.Stages {
		if st.Kind != work.Texture && st.Kind != work.MicaLine {
			continue
		}
		for _, t := range st.Tasks {
			mass := t.Target
			if t.Done {
				mass = t.Mass
			}
			if t.Do == work.Weigh && mass > 0 {
				list = append(list, other{t.Material, mass.Grams()})
			}
		}
	}
	return list
}

// total is everything in the pot at the time of making, in grams.
func (p pot) total() float64 {
	sum := p.water
	for _, o := range p.oils {
		sum += o.grams
	}
	for _, a := range p.alkalis {
		sum += a.grams
	}
	for _, r := range p.rest {
		sum += r.grams
	}
	return sum
}

// asKOH is the alkali there is for the oils, in grams of potassium hydroxide.
func (p pot) asKOH() float64 {
	sum := -p.acids
	for _, a := range p.alkalis {
		sum += a.pure * calc.MolarMassKOH / recipe.MolarMass(a.name)
	}
	return max(0, sum)
}
