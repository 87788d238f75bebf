package steps_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/steps"
	"bench/internal/work"
)

// scented is the harbour's sea alone, with one scent that does so, wanted so
// thick, with embeds or none, and the place that the recipe insists on.
func scented(does recipe.Behaviour, embeds bool, trace recipe.Trace, where recipe.Place) recipe.Control {
	c := harbour()
	c.Recipe.Batters, c.Recipe.Layers = c.Recipe.Batters[:1], c.Recipe.Layers[:1]
	l := &c.Recipe.Layers[0]
	l.Trace = trace
	l.Scents = []recipe.Scent{{Material: "harbour rope", Rate: 3 * quantity.Percent, Of: recipe.OfOils, Where: where}}
	if !embeds {
		l.Embeds = nil
	}
	for i := range c.Materials {
		if c.Materials[i].Name == "harbour rope" {
			c.Materials[i].Does = []recipe.Behaviour{does}
		}
	}
	return c
}

var behaviours = []recipe.Behaviour{
	recipe.Behaves, recipe.Accelerates, recipe.Rices, recipe.Seizes, recipe.Separates, recipe.Heats, recipe.Discolours,
}

// expectPlace says where a scent belongs, as the trade has it (common practice,
// no source): what spoils batter never goes into the whole pot; what thickens it
// is kept out of a pot that must stay thin, and is welcome where it helps; what
// heats or discolours is stirred in like one that behaves.
func expectPlace(does recipe.Behaviour, embeds bool, trace recipe.Trace) (place recipe.Place, why string) {
	switch does {
	case recipe.Rices, recipe.Seizes, recipe.Separates:
		return recipe.InPortions, string(does)
	case recipe.Accelerates:
		switch {
		case trace == recipe.Emulsion || trace == recipe.Light:
			return recipe.InPortions, "must stay thin"
		case embeds:
			return recipe.InPot, "carry embeds"
		}
		return recipe.InPot, string(trace) + " trace"
	case recipe.Behaves, recipe.Heats, recipe.Discolours:
	}
	return recipe.InPot, "behaves"
}

// TestScentPlace: behaviour × embeds × wanted trace × what the recipe says.
func TestScentPlace(t *testing.T) {
	for _, does := range behaviours {
		for _, embeds := range []bool{true, false} {
			for _, trace := range recipe.Traces() {
				for _, where := range []recipe.Place{recipe.PlaceDerived, recipe.InWarmOils, recipe.InPot, recipe.InPortions} {
					place, why := expectPlace(does, embeds, trace)
					if where != recipe.PlaceDerived {
						place, why = where, "the recipe says so"
					}
					t.Run(fmt.Sprintf("%s embeds %v %s trace %s", does, embeds, trace, where), func(t *testing.T) {
						p := steps.Of(batch.State{Control: scented(does, embeds, trace, where)})
						l := p.Layers[0]
						if l.Place != place || !strings.Contains(l.PlaceWhy, why) {
							t.Errorf("into the %s because %q; want the %s because %q", l.Place, l.PlaceWhy, place, why)
						}
						if l.Scents[0].Place != place {
							t.Errorf("the scent says %s", l.Scents[0].Place)
						}
						scentStages(t, p, does, place, why)
					})
				}
			}
		}
	}
}

// scentStages checks where the stages stand for a place, and their reasons.
func scentStages(t *testing.T, p steps.Plan, does recipe.Behaviour, place recipe.Place, why string) {
	t.Helper()
	hurries := does == recipe.Accelerates || does == recipe.Rices || does == recipe.Seizes || does == recipe.Separates
	want := []work.Kind{work.Oils, work.ColourOils}
	if place == recipe.InPortions || place == recipe.InPot && hurries {
		want = append(want, work.ScentOut)
	}
	if place == recipe.InWarmOils {
		want = append(want, work.ScentOils)
	}
	want = append(want, work.Gate, work.LyeIntoOils, work.TraceStage)
	if place == recipe.InPot {
		want = append(want, work.ScentPot)
	}
	want = append(want, work.Split)
	if place == recipe.InPortions {
		want = append(want, work.ScentAndPour, work.ScentAndPour, work.ScentAndPour)
	} else {
		want = append(want, work.Pour)
	}
	got := kinds(p)
	from := slices.Index(got, work.Oils)
	if from < 0 || len(got) < from+len(want) || !slices.Equal(got[from:from+len(want)], want) {
		t.Fatalf("%v\nwant from the oils on %v", got, want)
	}
	for _, s := range p.Stages {
		stirs := s.Kind == work.ScentPot || s.Kind == work.ScentAndPour || s.Kind == work.ScentOils
		if s.Why == "" || stirs && !strings.Contains(s.Why, why) && !strings.Contains(s.Why, "The recipe says so") {
			t.Errorf("%s is done because %q; want %q", s.ID, s.Why, why)
		}
	}
}

func kinds(p steps.Plan) []work.Kind {
	list := make([]work.Kind, len(p.Stages))
	for i, s := range p.Stages {
		list[i] = s.Kind
	}
	return list
}

// TestWorstScentDecides: of two scents in one layer the one that spoils batter
// decides, in whichever order they are listed.
func TestWorstScentDecides(t *testing.T) {
	for _, names := range [][2]string{{"calm", "clove"}, {"clove", "calm"}} {
		c := scented(recipe.Behaves, true, recipe.MediumTr, recipe.PlaceDerived)
		c.Materials = append(
			c.Materials,
			recipe.Material{Name: "calm", Kind: recipe.EssentialMaterial, Does: []recipe.Behaviour{recipe.Behaves}},
			recipe.Material{Name: "clove", Kind: recipe.EssentialMaterial, Does: []recipe.Behaviour{recipe.Heats, recipe.Seizes}},
		)
		c.Recipe.Layers[0].Scents = []recipe.Scent{
			{Material: names[0], Rate: quantity.Percent, Of: recipe.OfOils}, {Material: names[1], Rate: quantity.Percent, Of: recipe.OfOils},
		}
		l := steps.Of(batch.State{Control: c}).Layers[0]
		if l.Place != recipe.InPortions || !strings.Contains(l.PlaceWhy, "clove seizes") {
			t.Errorf("%v: %s because %s", names, l.Place, l.PlaceWhy)
		}
	}
}

// TestSingleLoafIsNotSplit: the reason never speaks of a split that is not made.
func TestSingleLoafIsNotSplit(t *testing.T) {
	for _, does := range behaviours {
		c := scented(does, false, recipe.Light, recipe.PlaceDerived)
		c.Loaves = 1
		p := steps.Of(batch.State{Control: c})
		if slices.Contains(kinds(p), work.Split) {
			t.Errorf("%s: one loaf is split", does)
		}
		for _, s := range p.Stages {
			if strings.Contains(s.Why, "split") || strings.Contains(s.Why, "portion") {
				t.Errorf("%s: %s is done because %q", does, s.ID, s.Why)
			}
		}
	}
}

// TestNoCupTwice: no cup is named for a second scent, or for a colour, while it
// stands full of the first.
func TestNoCupTwice(t *testing.T) {
	for name, design := range designs(t) {
		c := design(3)
		for i := range c.Recipe.Layers {
			c.Recipe.Layers[i].Scents = []recipe.Scent{
				{Material: "driftwood", Rate: quantity.Percent, Of: recipe.OfOils, Where: recipe.InPortions},
				{Material: "sea air", Rate: quantity.Percent, Of: recipe.OfOils, Where: recipe.InPortions},
			}
		}
		full := map[string]string{} // full is of which batter something waits in a cup.
		for _, s := range steps.Of(batch.State{Control: c}).Stages {
			for _, task := range s.Tasks {
				if task.Do != work.Weigh || task.MustType || s.Kind == work.Texture {
					continue
				}
				if s.Kind != work.ScentAndPour && s.Kind != work.ColourBatter && full[task.Vessel] == s.Batter {
					t.Errorf("%s: %s into %s, which is full", name, task.ID, task.Vessel)
				}
				if s.Kind == work.ScentOut || s.Kind == work.WetColours {
					full[task.Vessel] = s.Batter
				}
			}
		}
	}
}

// TestScentAddsUp: of every scent of every design, what the loaves get and what stays
// behind is what is weighed; each loaf's part of it is the loaf's part of the batter;
// and what is said of it adds up.
func TestScentAddsUp(t *testing.T) {
	stirred := 0
	for name, design := range designs(t) {
		p := steps.Of(batch.State{Control: design(2)})
		for _, l := range p.Layers {
			for _, s := range l.Scents {
				all := s.Stays
				for n, m := range s.Portions {
					all += m
					if l.Place == recipe.InPortions {
						continue // Weighed by the portion.
					}
					task, _, ok := p.Task(fmt.Sprintf("%s/%s/loaf %d", l.Batter, l.Name, n+1))
					if !ok {
						t.Fatalf("%s, %s: no portion %d", name, l.Name, n+1)
					}
					if want := s.Mass.Grams() * task.Target.Grams() / l.Mass.Grams(); math.Abs(m.Grams()-want) > 0.11 {
						t.Errorf("%s, %s: %v of %s for loaf %d, by hand %.3f g", name, l.Name, m, s.Name, n+1, want)
					}
				}
				if weigh, _, ok := p.Task(s.Task); ok && (s.Reads <= 0 || s.Reads != weigh.Reads) {
					t.Errorf("%s, %s: %s is shown to %v, its scale reads to %v", name, l.Name, s.Name, s.Reads, weigh.Reads)
				}
				if all != s.Mass {
					t.Errorf("%s, %s: %v of %v is accounted for", name, l.Name, all, s.Mass)
				}
				if stir, _, ok := p.Task(l.Batter + "/" + l.Name + "/scent in"); ok && len(l.Scents) == 1 {
					if stirred++; !strings.Contains(stir.Hint, s.Stays.At(g/100)) {
						t.Errorf("%s: %q does not say that %v stays", name, stir.Hint, s.Stays)
					}
				}
			}
		}
	}
	if stirred == 0 {
		t.Error("no scent is stirred into a pot")
	}
}
