package calc

import (
	"fmt"
	"math"
)

// The policy of this file: the arithmetic of going on after a wrong weight.
// Nothing comes out of a mixture again, so a way adds, or pours part of a
// solution that stands by itself, or is an error that says why it is none.

// Weighing is an ingredient's grams as planned and as weighed. One that is not
// in yet has nothing weighed, and In is false.
type Weighing struct {
	Target, Actual float64
	In             bool
}

// InProportion gives the factor by which everything follows the ingredient that
// is furthest over its share, and the grams to add to each so that the planned
// shares hold again. An ingredient that is under, with all others not yet in,
// gives a factor below 1: the others follow it down. Without any that is in,
// the factor is 1.
func InProportion(weighings []Weighing) (factor float64, add []float64) {
	for _, w := range weighings {
		if w.In && w.Target > 0 {
			factor = math.Max(factor, w.Actual/w.Target)
		}
	}
	if factor == 0 {
		factor = 1
	}
	add = make([]float64, len(weighings))
	for i, w := range weighings {
		add[i] = factor * w.Target
		if w.In {
			add[i] = math.Max(0, add[i]-w.Actual)
		}
	}
	return factor, add
}

// Poured is a lye solution of which only a part is used: the grams to pour, the
// grams to label and keep, both of the strength (a fraction of 1), and the
// water that is then missing from the batter.
type Poured struct{ Pour, Keep, Strength, WaterToAdd float64 }

// PourPart gives the part of a solution that brings the alkali that is wanted.
// The solution is weighed after dissolving, when steam has left it; alkali is
// what was weighed into it, all kinds together, and so is alkaliWanted.
func PourPart(solutionGrams, alkaliGrams, alkaliWanted, waterWanted float64) (Poured, error) {
	if err := Possible(solutionGrams, alkaliGrams, alkaliWanted, waterWanted); err != nil {
		return Poured{}, err
	}
	if alkaliWanted > alkaliGrams*(1+1e-9) {
		return Poured{}, fmt.Errorf("solution holds %.1f g of alkali and %.1f g are wanted: dissolve the rest", alkaliGrams, alkaliWanted)
	}
	if solutionGrams <= alkaliGrams {
		return Poured{}, fmt.Errorf("solution of %.1f g cannot hold %.1f g of alkali: weigh it again", solutionGrams, alkaliGrams)
	}
	strength := alkaliGrams / solutionGrams
	pour := solutionGrams
	if alkaliGrams > 0 {
		pour = math.Min(pour, alkaliWanted/strength)
	}
	return Poured{
		Pour: pour, Keep: solutionGrams - pour, Strength: strength,
		WaterToAdd: math.Max(0, waterWanted-pour*(1-strength)),
	}, nil
}

// DissolveShortfall gives the grams of alkali that are still missing and the
// least water to dissolve them in by themselves at 20 °C. Held back is the
// water of the recipe that is not in yet; too little of it is an error.
func DissolveShortfall(alkaliGrams, alkaliWanted, heldBackGrams float64) (alkali, leastWater float64, err error) {
	if err := Possible(alkaliGrams, alkaliWanted, heldBackGrams); err != nil {
		return 0, 0, err
	}
	alkali = math.Max(0, alkaliWanted-alkaliGrams)
	leastWater = alkali * (1 - MaxLyeConcentration) / MaxLyeConcentration
	if leastWater > heldBackGrams*(1+1e-9) {
		return alkali, leastWater, fmt.Errorf("%.1f g of alkali need at least %.1f g of water and %.1f g were held back: take more water",
			alkali, leastWater, heldBackGrams)
	}
	return alkali, leastWater, nil
}

// RestoringOil gives the grams of one oil that bring the superfat back up to
// what is wanted, a fraction of 1, when more alkali is in than planned:
// x = ((A − acids)/(1 − s) − N)·1000/SV, from s = 1 − (A − acids)/(N + x·SV/1000).
// It is zero where the superfat is there already. The oil's own Grams do not
// count.
func RestoringOil(oils []OilAmount, alkalis []AlkaliAmount, acidsKOHGrams float64, oil OilAmount, superfat float64) (float64, error) {
	if !(superfat < 1) {
		return 0, fmt.Errorf("superfat of %.4g %% is not possible: ask for less than 100 %%", 100*superfat)
	}
	if !(oil.SV.Nominal > 0) {
		return 0, fmt.Errorf("oil %q takes no alkali: choose one with a saponification value", oil.Name)
	}
	b := balance{oils, alkalis, acidsKOHGrams}
	nominal := func(i Interval) float64 { return i.Nominal }
	n, a := b.sums(nominal, nominal)
	return math.Max(0, ((a-acidsKOHGrams)/(1-superfat)-n)*1000/oil.SV.Nominal), nil
}
