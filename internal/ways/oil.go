package ways

import (
	"fmt"

	"bench/internal/batch"
	"bench/internal/calc"
	"bench/internal/quantity"
	"bench/internal/recipe"
)

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
	way := p.add(other, -w.Off.Grams()*missing.SV.Nominal/other.SV.Nominal)
	way.Title += " in its place"
	return way, true
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
	all := 0.0
	for _, o := range p.Account.Oils {
		all += o.Grams.Nominal
	}
	if err != nil || grams <= all*noticed {
		return Way{}, false
	}
	return p.add(use, grams), true
}

// add adds so many grams of an oil, or as little more as the finest scale can show.
func (p Pot) add(use recipe.OilUse, grams float64) Way {
	mass := (quantity.FromGrams(grams) + p.Finest - 1).FloorTo(p.Finest)
	return Way{
		Fact:  batch.Decided{Way: batch.AddOil, Oil: use.Key, Mass: mass},
		Title: fmt.Sprintf("Add %s g of %s", mass.At(max(p.Finest, quantity.Gram/10)), use.Name), Until: untilTrace,
	}
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

func proportion(title string) Way {
	return Way{Fact: batch.Decided{Way: batch.InProportion}, Title: title, Until: untilMet}
}
