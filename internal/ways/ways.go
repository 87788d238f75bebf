// Package ways knows what can be done after a weight that was off.
//
// The rule: only what is physically possible now. What is mixed cannot be taken
// out again, and what a way adds must still be taken in. What a way comes to,
// and whether there is room for it, is tried out by steps.
package ways

import (
	"fmt"

	"bench/internal/batch"
	"bench/internal/calc"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/sure"
)

// Way is one way to go on.
type Way struct {
	Fact    batch.Decided // Fact takes it.
	Title   string
	Until   string // Until says how long it is there to be taken.
	Default bool
}

// Kind is what was off.
type Kind int

// What can be off.
const (
	Oil Kind = iota
	Alkali
	Water
	Additive
	Scent
)

// Weight is a weighing that was off.
type Weight struct {
	Kind     Kind
	Material string
	OilKey   string        // OilKey is an oil's key in the table.
	Off      quantity.Mass // Off is below zero for too little.
	Reads    quantity.Mass // Reads is what its scale reads to.
	ByEye    quantity.Mass // ByEye is how much less it may be, when it was not weighed.
	Other    string        // Other is the alkali that is not weighed yet, and can make up for this one.
	Alone    bool          // Alone says that it is not mixed with anything yet.
	Over     bool          // Over says that a layer is over its scent's limit for it.
}

// Pot is where a batter stands.
type Pot struct {
	Control    recipe.Control
	Batter     recipe.Batter
	Account    sure.Account
	Finest     quantity.Mass // Finest is what the finest scale reads to.
	Strength   float64       // Strength of the lye solution as it stands, a fraction.
	Met        bool          // Met says that the lye solution is in the oils.
	Emulsified bool          // Emulsified says that emulsion was reached.
	OilsIn     bool          // OilsIn says that some oil was weighed.
	AlkaliIn   bool          // AlkaliIn says that some alkali was weighed.
	OthersIn   bool          // OthersIn says that another oil is in already.
	Shared     bool          // Shared says that the batter is shared out by now, some of it at least.
}

const (
	anyTime       = "there at any time"
	untilMet      = "until the lye solution meets the oils"
	untilPoured   = "until it is poured"
	untilStirred  = "until it is stirred in"
	untilShared   = "until the batter is shared out, or poured"
	untilTrace    = "until light trace"
	untilEmulsion = "until emulsion"
	untilItGoesOn = "until it is coloured, scented or poured"
)

// Of lists the ways, the simplest first.
func Of(p Pot, w Weight) []Way {
	list := []Way{{Fact: batch.Decided{Way: batch.CarryOn}, Title: "Carry on: what is still to come follows", Until: anyTime}}
	switch w.Kind {
	case Oil:
		return append(list, p.oil(w)...)
	case Alkali:
		return append(list, p.alkali(w)...)
	case Water:
		return p.water(w)
	case Additive:
		if w.Off < 0 && p.Shared {
			return []Way{p.tooLate(w)}
		}
		return append(list, p.stirred(w)...)
	case Scent:
		return p.scent(w)
	}
	return list
}

func (p Pot) oil(w Weight) []Way {
	if w.ByEye > 0 {
		return []Way{{
			Fact:  batch.Decided{Way: batch.AddOil, Oil: w.OilKey, Mass: w.ByEye},
			Title: fmt.Sprintf("Add %s g of %s, in case it was so much less", w.ByEye.At(w.Reads), w.Material), Until: untilTrace,
		}}
	}
	if w.Off < 0 {
		list := []Way{p.missingOil(w)}
		if !p.Met && !p.OthersIn {
			list = append(list, proportion("Bring the others down in proportion"))
		}
		return append(list, p.without(w)...)
	}
	var list []Way
	if !p.Met {
		list = append(list, proportion("Bring the other oils up in proportion"))
	}
	if restore, ok := p.restore(); ok {
		list = append(list, restore)
	}
	return list
}

// without goes on for want of an oil: with another one, or with less lye solution. Where
// the alkali is not weighed yet it follows from what is there, and neither is needed.
func (p Pot) without(w Weight) []Way {
	other, ok := p.inItsPlace(w)
	if !p.AlkaliIn || p.Account.Has() <= p.Account.Wants(p.Batter.Superfat.Fraction()) {
		return nil
	}
	var list []Way
	if ok {
		list = append(list, other)
	}
	if !p.Met {
		list = append(list, pourPart())
	}
	return list
}

// inItsPlace adds of another oil what takes up as much alkali as what is missing, and no
// more: other weights that are off may be mended, too.
func (p Pot) inItsPlace(w Weight) (Way, bool) {
	missing, known := p.Control.Oil(w.OilKey)
	other, ok := p.restoring(w.OilKey)
	if !known || !ok {
		return Way{}, false
	}
	mass := (quantity.FromGrams(-w.Off.Grams()*missing.SV.Nominal/other.SV.Nominal) + p.Finest - 1).FloorTo(p.Finest)
	return Way{
		Fact:  batch.Decided{Way: batch.AddOil, Oil: other.Key, Mass: mass},
		Title: fmt.Sprintf("Add %s g of %s in its place", mass.At(max(p.Finest, quantity.Gram/10)), other.Name), Until: untilTrace,
	}, true
}

func pourPart() Way {
	return Way{Fact: batch.Decided{Way: batch.PourPart}, Title: "Pour only part of the lye solution; label and keep the rest", Until: untilPoured}
}

func (p Pot) alkali(w Weight) []Way {
	list := p.makeUp(w)
	if w.Off < 0 {
		missing := p.missingAlkali(w)
		for i := range missing {
			missing[i].Default = missing[i].Default && len(list) == 0
		}
		return append(list, missing...)
	}
	if w.Alone {
		out := takeOut(w, "Leave %s g of %s out: dry, it can come out of its cup again", "until it is dissolved")
		out.Default = len(list) == 0
		list = append(list, out)
	}
	if !p.Met {
		part := pourPart()
		part.Default = len(list) == 0
		list = append(list, part)
	}
	if restore, ok := p.restore(); ok {
		restore.Default = p.Met
		list = append(list, restore)
	}
	return list
}

// makeUp lets the other of two alkalis take up what is off, mole for mole, while
// it is not weighed yet. Nothing is wasted; the soap becomes a little harder or
// softer.
func (p Pot) makeUp(w Weight) []Way {
	if w.Other == "" {
		return nil
	}
	grams := quantity.FromGrams(max(w.Off, -w.Off).Grams() * p.pureMoles(w.Material) / p.pureMoles(w.Other))
	more := "less"
	if w.Off < 0 {
		more = "more"
	}
	return []Way{{
		Fact: batch.Decided{Way: batch.MakeUp}, Default: true, Until: "until that is weighed",
		Title: fmt.Sprintf("Weigh %s g %s of %s, to make up for it", grams.At(w.Reads), more, w.Other),
	}}
}

// pureMoles gives the moles of pure alkali in a gram as weighed.
func (p Pot) pureMoles(alkali string) float64 {
	m, _ := p.Control.Material(alkali)
	return m.PureFraction() / recipe.MolarMass(alkali)
}

func proportion(title string) Way {
	return Way{Fact: batch.Decided{Way: batch.InProportion}, Title: title, Until: untilMet}
}

// missingOil adds the rest of an oil that came out short.
func (p Pot) missingOil(w Weight) Way {
	return Way{
		Fact:    batch.Decided{Way: batch.AddOil, Oil: w.OilKey, Mass: -w.Off},
		Title:   fmt.Sprintf("Add the %s g of %s that are missing", (-w.Off).At(w.Reads), w.Material),
		Until:   untilTrace,
		Default: p.Met || p.AlkaliIn,
	}
}

// restore adds so much of the liquid oil with the greatest share that the
// superfat is as stated again; false when it is no lower.
func (p Pot) restore() (Way, bool) {
	use, ok := p.restoring("")
	if !ok {
		return Way{}, false
	}
	grams, err := calc.RestoringOil(p.Account.Oils, p.Account.Alkalis, p.Account.Acids,
		calc.OilAmount{Name: use.Name, SV: use.SV}, p.Batter.Superfat.Fraction())
	mass := (quantity.FromGrams(grams) + p.Finest - 1).FloorTo(p.Finest)
	all := 0.0
	for _, o := range p.Account.Oils {
		all += o.Grams.Nominal
	}
	if err != nil || grams <= all*noticed {
		return Way{}, false
	}
	return Way{
		Fact:  batch.Decided{Way: batch.AddOil, Oil: use.Key, Mass: mass},
		Title: fmt.Sprintf("Add %s g of %s", mass.At(max(p.Finest, quantity.Gram/10)), use.Name), Until: untilTrace,
	}, true
}

// noticed is the part of the oils below which more oil makes no difference: a
// tenth of a point of superfat (common practice, no source).
const noticed = 0.001

// restoring is the oil that is added: liquid, so that it needs no melting, and
// one that the recipe has most of, but for one that there is no more of, or "".
func (p Pot) restoring(but string) (best recipe.OilUse, ok bool) {
	most := quantity.Ratio(0)
	for _, wantLiquid := range []bool{true, false} {
		for _, o := range p.Batter.Oils {
			use, known := p.Control.Oil(o.Oil)
			if known && o.Oil != but && (!wantLiquid || !use.Hard) && o.Share > most && use.SV.Nominal > 0 {
				best, most, ok = use, o.Share, true
			}
		}
		if ok {
			return best, true
		}
	}
	return best, false
}

// missingAlkali dissolves what is missing: in the jug before the lye solution
// is poured, and after that by itself, up to emulsion.
func (p Pot) missingAlkali(w Weight) []Way {
	if p.Emulsified {
		return nil
	}
	m, _ := p.Control.Material(w.Material)
	short := p.Account.Wants(p.Batter.Superfat.Fraction()) - p.Account.Has()
	mass := quantity.FromGrams(short * recipe.MolarMass(w.Material) / calc.MolarMassKOH / m.PureFraction()).FloorTo(w.Reads)
	if mass <= 0 {
		return nil
	}
	title := fmt.Sprintf("Dissolve the %s g that are missing in the jug", mass.At(w.Reads))
	if p.Met {
		title = fmt.Sprintf("Dissolve the %s g that are missing in a little water, and stir them in", mass.At(w.Reads))
	}
	return []Way{{
		Fact: batch.Decided{Way: batch.Shortfall, Mass: mass}, Title: title, Until: untilEmulsion, Default: !p.Met,
	}}
}
