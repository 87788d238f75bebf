package ways

import (
	"fmt"

	"bench/internal/batch"
	"bench/internal/calc"
	"bench/internal/quantity"
	"bench/internal/recipe"
)

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
	grams := quantity.FromGrams(w.Off.Abs().Grams() * p.pureMoles(w.Material) / p.pureMoles(w.Other))
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

func pourPart() Way {
	return Way{Fact: batch.Decided{Way: batch.PourPart}, Title: "Pour only part of the lye solution; label and keep the rest", Until: untilPoured}
}
