package face

import (
	"bench/internal/form"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/scene"
	"bench/internal/steps"
)

// Of gives a loaf of a batch as it stands: loaf counts from 0, and at is the
// stage at hand. A plan without facts gives a loaf that is still to be poured.
func Of(plan steps.Plan, c recipe.Control, loaf int, at steps.Stage) Loaf {
	l := Loaf{
		Title: recipe.Clean(plan.Recipe), Mould: recipe.Clean(plan.Mould.Name),
		Walls: pointsOf(plan.Mould.Section().Boundary()), Rim: plan.Mould.Height.Millimetres(), Length: plan.Mould.Length.Millimetres(),
	}
	for i, planned := range plan.Layers {
		if i < len(c.Recipe.Layers) && loaf < len(planned.Loaves) {
			l.Layers = append(l.Layers, layerOf(plan, c, i, loaf, planned.Name == at.Layer))
		}
	}
	if topping, ok := toppingOf(c); ok {
		l.Topping, l.Dusted = &topping, done(plan, steps.Texture)
	}
	return l
}

// layerOf gives one layer of one loaf.
func layerOf(plan steps.Plan, c recipe.Control, i, loaf int, next bool) Layer {
	drawn, pour := c.Recipe.Layers[i], plan.Layers[i].Loaves[loaf]
	in := embedsIn(plan, drawn, loaf)
	l := Layer{
		Name: recipe.Clean(drawn.Name), Colour: colourOf(c, drawn), Of: colourantsOf(drawn),
		PourLine: levelOf(pour.PourLine), Finished: levelOf(pour.Surface),
		Poured: pour.Poured, Settled: true, Next: next && !pour.Poured,
	}
	for n, e := range drawn.Embeds {
		l.Embeds = append(l.Embeds, Embed{
			Name: recipe.Clean(e.Name), Outline: pointsOf(e.Outline(pour.Surface).Boundary()), Colour: uncoloured, In: in[n],
		})
		l.Settled = l.Settled && in[n]
	}
	return l
}

// embedsIn says of each embed of a layer whether it is in this loaf: the tasks
// of its stage go loaf by loaf.
func embedsIn(plan steps.Plan, layer recipe.Layer, loaf int) []bool {
	in := make([]bool, len(layer.Embeds))
	for _, s := range plan.Stages {
		if s.Kind != steps.Embeds || s.Layer != layer.Name {
			continue
		}
		for n := range in {
			if at := loaf*len(in) + n; at < len(s.Tasks) {
				in[n] = s.Tasks[at].Done && s.Tasks[at].Skipped == ""
			}
		}
	}
	return in
}

// done says that every stage of that kind is done, and that there is one.
func done(plan steps.Plan, kind steps.Kind) bool {
	any := false
	for _, s := range plan.Stages {
		if s.Kind == kind && !s.Done {
			return false
		}
		any = any || s.Kind == kind
	}
	return any
}

func levelOf(height quantity.Length) Level { return Level{At: height.Millimetres()} }

func pointsOf(boundary []form.Point) []scene.Point {
	points := make([]scene.Point, len(boundary))
	for i, p := range boundary {
		points[i] = scene.Point(p)
	}
	return points
}
