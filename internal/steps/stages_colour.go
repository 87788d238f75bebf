package steps

import (
	"bench/internal/recipe"
	"bench/internal/scent"
	"bench/internal/work"
)

func (p *planner) colourOils(k pot, r pour) work.Stage {
	s := work.Stage{
		ID: "colour/" + r.recipe.Name, Kind: work.ColourOils, Batter: k.recipe.Name, Layer: r.recipe.Name,
		Title: of("colour", r.recipe.Name), After: []string{"oils/" + k.recipe.Name},
		Why: "In the oils, before the lye solution: there is time to stir until no specks show.",
	}
	for i, c := range r.recipe.Colours {
		if c.In == recipe.InOils {
			s.Tasks = append(s.Tasks, r.colours[i])
		}
	}
	return s
}

// wetColours readies the colours of a layer that shares its pot.
func (p *planner) wetColours(r pour) work.Stage {
	return work.Stage{
		ID: "wet/" + r.recipe.Name, Kind: work.WetColours, Batter: r.recipe.Batter, Layer: r.recipe.Name,
		Title: of("wet colour", r.recipe.Name), After: []string{"oils/" + r.recipe.Batter}, Tasks: r.wetted,
		Why: "Before the lye solution: after the split there is no time to rub specks out.",
	}
}

func (p *planner) scentOut(r pour) work.Stage {
	s := work.Stage{
		ID: "cups/" + r.recipe.Name, Kind: work.ScentOut, Batter: r.recipe.Batter, Layer: r.recipe.Name,
		Title: of("scent cups", r.recipe.Name), After: []string{"set out"},
	}
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

func (p *planner) scentOils(r pour) work.Stage {
	s := work.Stage{
		ID: "scent oils/" + r.recipe.Name, Kind: work.ScentOils, Batter: r.recipe.Batter, Layer: r.recipe.Name,
		Title: of("scent", r.recipe.Name), After: []string{"oils/" + r.recipe.Batter}, Why: r.layer.PlaceWhy,
	}
	if r.layer.Place == recipe.InWarmOils {
		s.Tasks = r.scents
	}
	return s
}
