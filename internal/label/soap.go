package label

import (
	"strings"

	"bench/internal/calc"
	"bench/internal/recipe"
)

// Molar masses in g/mol (CIAAW abridged atomic weights, from memory).
const (
	molarGlycerol = 92.094
	molarWater    = 18.015
)

// soap is what one oil became.
type soap struct {
	left     float64 // left is the unreacted part of the oil, in grams.
	sodium   float64 // sodium is its sodium soap, in grams.
	potash   float64 // potash is its potassium soap, in grams.
	glycerol float64 // glycerol is in grams.
	water    float64 // water is what a free acid gives off, in grams.
}

// soaps works out what a pot's oils became: the alkali there is, over the alkali
// they would take, is the part of each that reacts. That the oils react evenly
// is the usual assumption, no source.
//
// A glyceride: fat + 3 MOH = 3 soap + glycerol, so that one third of a mole of
// glycerol comes of each mole of alkali. A free acid gives water instead. A wax
// without a usual soap name stays as it is.
func (p pot) soaps() []soap {
	need := 0.0
	for _, o := range p.oils {
		need += o.grams * o.sv / 1000
	}
	part := 1.0
	if need > 0 {
		part = min(1, p.asKOH()/need)
	}
	sodium := p.sodiumPart()
	list := make([]soap, len(p.oils))
	for i, o := range p.oils {
		if o.row.SoapINCI == "" {
			list[i].left = o.grams
			continue
		}
		reacted := o.grams * part
		moles := reacted * o.sv / 1000 / calc.MolarMassKOH
		s := soap{left: o.grams - reacted}
		if freeAcid(o.row.Key) {
			s.water = moles * molarWater
		} else {
			s.glycerol = moles / 3 * molarGlycerol
		}
		acids := reacted - s.glycerol - s.water
		s.sodium = sodium * (acids + moles*calc.MolarMassNaOH)
		s.potash = (1 - sodium) * (acids + moles*calc.MolarMassKOH)
		list[i] = s
	}
	return list
}

// free gives the alkali that finds no oil, in grams of each hydroxide: there is some where
// the superfat is below zero.
func (p pot) free() (sodium, potash float64) {
	over := p.asKOH()
	for _, o := range p.oils {
		over -= o.grams * o.sv / 1000
	}
	if len(p.oils) == 0 || over <= 0 {
		return 0, 0
	}
	moles, part := over/calc.MolarMassKOH, p.sodiumPart()
	return moles * part * calc.MolarMassNaOH, moles * (1 - part) * calc.MolarMassKOH
}

// sodiumPart is the part of the alkali, by moles, that is sodium hydroxide.
func (p pot) sodiumPart() float64 {
	var sodium, all float64
	for _, a := range p.alkalis {
		moles := a.pure / recipe.MolarMass(a.name)
		all += moles
		if a.name != recipe.PotassiumHydroxide {
			sodium += moles
		}
	}
	if all <= 0 {
		return 1
	}
	return sodium / all
}

// freeAcid says that an oil is a fatty acid and no glyceride.
func freeAcid(key string) bool { return strings.HasSuffix(recipe.Fold(key), " acid") }

// potassiumName gives the name of the potassium soap.
func potassiumName(soapINCI string) string {
	return strings.Replace(soapINCI, "Sodium ", "Potassium ", 1)
}
