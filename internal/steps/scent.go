package steps

import (
	"fmt"
	"slices"

	"bench/internal/recipe"
)

// placeOf derives where a layer's scents are stirred in, and says why. The
// recipe may know better. Otherwise a scent that spoils the batter (rices,
// seizes, separates) is kept out of the pot; one that accelerates goes into the
// pot when thickening helps, and into each portion when the layer must stay
// thin; one that behaves goes into the pot, which is the least work.
//
// Common practice, no source.
func placeOf(c recipe.Control, l recipe.Layer) (recipe.Place, string) {
	if len(l.Scents) == 0 {
		return recipe.InPot, ""
	}
	for _, s := range l.Scents {
		if s.Where != recipe.PlaceDerived {
			return s.Where, "the recipe says so"
		}
	}
	spoilt := "one portion at a time, poured at once, so that never the whole pot is at risk"
	thick, calm := "split first, then scent a portion and pour it at once", "one stirring for the whole pot, then split"
	if c.Loaves == 1 {
		spoilt, thick, calm = "last of all, and poured at once", "scent it last and pour it at once", "one stirring for the whole pot"
	}
	thin := l.Trace == recipe.Emulsion || l.Trace == recipe.Light
	for _, s := range l.Scents {
		m, _ := c.Material(s.Material)
		for _, spoils := range []recipe.Behaviour{recipe.Seizes, recipe.Rices, recipe.Separates} {
			if slices.Contains(m.Does, spoils) {
				return recipe.InPortions, fmt.Sprintf("%s %s: %s", s.Material, spoils, spoilt)
			}
		}
	}
	for _, s := range l.Scents {
		m, _ := c.Material(s.Material)
		if !slices.Contains(m.Does, recipe.Accelerates) {
			continue
		}
		switch {
		case thin:
			return recipe.InPortions, fmt.Sprintf("%s thickens the batter and this layer must stay thin: %s", s.Material, thick)
		case len(l.Embeds) > 0:
			return recipe.InPot, fmt.Sprintf("%s thickens the batter, which helps here: the layer must carry embeds", s.Material)
		default:
			return recipe.InPot, fmt.Sprintf("%s thickens the batter, and this layer is wanted at %s trace", s.Material, l.Trace)
		}
	}
	return recipe.InPot, "the scent behaves: " + calm
}

// hurries says that a scent is weighed out before the lye solution meets the
// oils, because there is no time for it afterwards.
func hurries(c recipe.Control, l recipe.Layer) bool {
	for _, s := range l.Scents {
		m, _ := c.Material(s.Material)
		for _, d := range m.Does {
			if d == recipe.Accelerates || d == recipe.Seizes || d == recipe.Rices || d == recipe.Separates {
				return true
			}
		}
	}
	return false
}

// thickens says that a scent takes the batter to a thicker trace by itself.
func thickens(c recipe.Control, l recipe.Layer) bool {
	return slices.ContainsFunc(l.Scents, func(s recipe.Scent) bool {
		m, _ := c.Material(s.Material)
		return slices.Contains(m.Does, recipe.Accelerates)
	})
}
