package paper

import (
	"slices"

	"bench/internal/form"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/steps"
)

// pourJSON is what one loaf gets of a layer. Left and right are at the walls.
type pourJSON struct {
	G       grams       `json:"g"`
	Line    surfaceJSON `json:"pour_line"`
	Surface surfaceJSON `json:"surface"`

	Displaced *[]displacedJSON `json:"displaced,omitempty"` // Displaced is that of a loaf which is not as the first.
}

type surfaceJSON struct {
	Middle millimetres `json:"mm"`
	Left   millimetres `json:"left_mm"`
	Right  millimetres `json:"right_mm"`
}

type displacedJSON struct {
	Embed string      `json:"embed"`
	Layer string      `json:"layer"`
	ML    decimal     `json:"ml"`
	Lift  millimetres `json:"lift_mm"`
}

func mouldToJSON(m recipe.Mould) mouldJSON {
	out := mouldJSON{
		Name: m.Name, Capacity: decimal(m.Capacity().Millilitres()), Kind: string(m.Kind),
		Heights: m.HasHeights(), Cavities: m.Cavities,
	}
	if m.Kind == "" {
		out.Kind = string(recipe.LoafMould)
	}
	if !m.HasHeights() {
		out.Cavities = m.CavityCount()
		return out
	}
	out.Length, out.Width, out.Height, out.FloorWidth = millimetres(m.Length), millimetres(m.Width), millimetres(m.Height), millimetres(m.FloorWidth)
	if m.FloorWidth == 0 && m.Kind != recipe.LyingMould {
		out.FloorWidth = out.Width
	}
	return out
}

func poursToJSON(p steps.Plan, layer int, mould recipe.Mould) []pourJSON {
	pours, first := []pourJSON{}, displacedToJSON(p, layer, 0)
	for n, loaf := range p.Layers[layer].Loaves {
		pour := pourJSON{G: grams(loaf.Mass)}
		if mould.HasHeights() {
			pour.Line, pour.Surface = surfaceToJSON(loaf.Face.PourLine, mould), surfaceToJSON(loaf.Face.Surface, mould)
		}
		if own := displacedToJSON(p, layer, n); !slices.Equal(own, first) {
			pour.Displaced = &own
		}
		pours = append(pours, pour)
	}
	return pours
}

func surfaceToJSON(l form.Line, mould recipe.Mould) surfaceJSON {
	width := mould.Section().Width()
	at := func(x float64) millimetres { return millimetres(quantity.FromMillimetres(l.Height(x))) }
	return surfaceJSON{Middle: at(width / 2), Left: at(0), Right: at(width)}
}

func displacedToJSON(p steps.Plan, layer, loaf int) []displacedJSON {
	list := []displacedJSON{}
	for _, d := range p.Displaced(layer, loaf) {
		list = append(list, displacedJSON{d.Embed, d.Layer, decimal(d.Volume.Millilitres()), millimetres(d.Lift)})
	}
	return list
}

type balanceJSON struct {
	In       grams `json:"in_g"`
	Loaves   grams `json:"loaves_g"`
	Colours  grams `json:"with_colours_g,omitempty"`
	Leftover grams `json:"set_aside_g"`
	Rest     grams `json:"in_vessels_g"`
	Planned  grams `json:"expected_in_vessels_g"`
	Poured   bool  `json:"poured"`
}

func balanceToJSON(b steps.Balance) balanceJSON {
	return balanceJSON{grams(b.In), grams(b.Loaves), grams(b.Colours), grams(b.Leftover), grams(b.Rest), grams(b.Planned), b.Poured}
}
