package steps

import (
	"bench/internal/recipe"
	"bench/internal/scent"
	"bench/internal/work"
)

func (r pour) colourOils() work.Stage {
	s := r.stage("colour/", work.ColourOils, "colour")
	s.After = []string{oilStageID(r.recipe.Batter)}
	s.Why = "In the oils, before the lye solution: there is time to stir until no specks show."
	for i, c := range r.recipe.Colours {
		if c.In == recipe.InOils {
			s.Tasks = append(s.Tasks, r.colours[i])
		}
	}
	return s
}

// wetColours readies the colours of a layer that shares its pot.
func (r pour) wetColours() work.Stage {
	s := r.stage("wet/", work.WetColours, "wet colour")
	s.After, s.Tasks = []string{oilStageID(r.recipe.Batter)}, r.wetted
	s.Why = "Before the lye solution: after the split there is no time to rub specks out."
	return s
}

func (p *planner) scentOut(r pour) work.Stage {
	s := r.stage("cups/", work.ScentOut, "scent cups")
	s.After = []string{setOutID}
	switch {
	case len(r.cups) > 0:
		s.Why = "One lidded cup a loaf, weighed now: after the split there is no time for it."
		if p.c.Loaves == 1 {
			s.Why = "In a lidded cup, weighed now: later there is no time for it."
		}
		s.Tasks = r.cups
	case r.layer.Place == recipe.InPot && scent.Hurries(p.c, r.recipe):
		s.Why = "This scent hurries, so it is weighed before the lye solution meets the oils."
		s.Tasks = r.scents
	}
	return s
}

func (r pour) scentOils() work.Stage {
	s := r.stage("scent oils/", work.ScentOils, "scent")
	s.After, s.Why = []string{oilStageID(r.recipe.Batter)}, r.layer.PlaceWhy
	if r.layer.Place == recipe.InWarmOils {
		s.Tasks = r.scents
	}
	return s
}
