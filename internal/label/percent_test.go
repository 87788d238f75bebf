package label_test

import (
	"math"
	"testing"

	"bench/internal/batch"
	"bench/internal/label"
	"bench/internal/sample"
	"bench/internal/steps"
)

// TestPerCentsAddUp: of every built-in recipe in every market and style the per cents
// add up to 100.00 as they are printed, and nothing is counted twice: an allergen is in
// its scent (Regulation (EC) 1223/2009, article 19(1)(g) and annex III: named besides
// the perfume, from memory), a colour in its mica.
func TestPerCentsAddUp(t *testing.T) {
	for _, file := range []string{"lighthouse-at-dusk.yaml", "tide-lines.yaml", "wharf-puck.yaml", "wind-over-the-mole.yaml"} {
		s := batch.State{Control: sample.Control(t, file, 0)}
		for _, market := range label.Markets() {
			for _, as := range label.Styles() {
				l := label.Of("", steps.Of(s), s, label.Options{Market: market, As: as, Workshop: sample.Workshop(t)})
				sum, total := int64(0), 0.0
				for _, g := range l.Ingredients {
					sum += g.Percent
					total += g.Grams
				}
				for _, g := range l.Ingredients {
					if off := float64(g.Percent) - 1e4*g.Grams/total; math.Abs(off) >= 1 {
						t.Errorf("%s, %s, %s: %s is off by %.2f hundredths", file, market, as, g.Name, off)
					}
					if allergen := g.From == "scent"; allergen && (g.Grams != 0 || g.Within != "Parfum" || g.Most <= 0) {
						t.Errorf("%s: %+v", file, g)
					}
				}
				if sum != 100_00 {
					t.Errorf("%s, %s, %s: %d hundredths of a per cent", file, market, as, sum)
				}
			}
		}
	}
}

// TestListHoldsWhatIsInTheLoaves: as made, the grams of the list are the batter that
// reached the moulds; tide lines has no embeds and no topping, and one pot for three
// layers, of which 20 g stay behind.
func TestListHoldsWhatIsInTheLoaves(t *testing.T) {
	s := batch.State{Control: sample.Control(t, "tide-lines.yaml", 3)}
	plan := steps.Of(s)
	l := label.Of("", plan, s, label.Options{Market: label.EU, As: label.AsMade, Workshop: sample.Workshop(t)})
	listed, parfum := 0.0, 0.0
	for _, g := range l.Ingredients {
		listed += g.Grams
		if g.Name == "Parfum" {
			parfum = g.Grams
		}
	}
	inLoaves, scent := plan.Balance.Loaves.Grams(), 0.0
	for _, layer := range plan.Layers {
		in := 0.0
		for _, loaf := range layer.Loaves {
			in += loaf.Mass.Grams()
		}
		scent += layer.Scents[0].Mass.Grams() * in / layer.Mass.Grams()
	}
	if math.Abs(listed-inLoaves) > 1 || math.Abs(parfum-scent) > 0.01 {
		t.Errorf("%.1f g are listed and %.1f g in the loaves; scent %.2f and %.2f g", listed, inLoaves, parfum, scent)
	}
}

// TestAPerfumeNamesAllItsScents: one word stands for all scents, and behind it is
// said which they are.
func TestAPerfumeNamesAllItsScents(t *testing.T) {
	s := batch.State{Control: sample.Control(t, "lighthouse-at-dusk.yaml", 2)}
	for _, i := range label.Of("", steps.Of(s), s, label.Options{Market: label.EU, As: label.AsMade, Workshop: sample.Workshop(t)}).Ingredients {
		if i.Name == "Parfum" && i.From != "driftwood, evening rose" {
			t.Errorf("from %q", i.From)
		} else if i.Name == "Parfum" {
			return
		}
	}
	t.Error("there is no perfume")
}
