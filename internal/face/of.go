package face

import (
	"bench/internal/form"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/scene"
	"bench/internal/steps"
)

// Designed gives the loaf of a recipe as it is drawn there, with nothing poured.
func Designed(c recipe.Control) Loaf {
	l := emptyLoaf(c)
	var drawn []form.Layer
	for _, layer := range c.Recipe.Layers {
		drawn = append(drawn, layer.Fill())
	}
	for i, fill := range form.FillLayers(c.Mould.Section(), drawn) {
		l.Layers = append(l.Layers, layerOf(c, i, c.Recipe.Layers[i].Surface, fill.PourLine, fill.Surface))
	}
	return l
}

// Of gives a loaf of a batch as it stands: loaf counts from 0, and at is the
// stage at hand.
func Of(plan steps.Plan, c recipe.Control, loaf int, at steps.Stage) Loaf {
	l := emptyLoaf(c)
	middle := c.Mould.Section().Width() / 2
	for i, planned := range plan.Layers {
		if i >= len(c.Recipe.Layers) || loaf >= len(planned.Loaves) {
			break
		}
		drawn, pour := c.Recipe.Layers[i], planned.Loaves[loaf]
		slope := drawn.Fill().Surface.Slope
		through := func(height quantity.Length) form.Line {
			return form.Through(form.Point{X: middle, Y: height.Millimetres()}, slope)
		}
		layer := layerOf(c, i, pour.Surface, through(pour.PourLine), through(pour.Surface))
		layer.Poured, layer.Next = pour.Poured, planned.Name == at.Layer && !pour.Poured
		for n, in := range embedsIn(plan, drawn, loaf) {
			layer.Embeds[n].In = in
			layer.Settled = layer.Settled && in
		}
		l.Layers = append(l.Layers, layer)
	}
	l.Dusted = l.Topping != nil && done(plan, steps.Texture)
	return l
}

// emptyLoaf gives the mould before anything is in it.
func emptyLoaf(c recipe.Control) Loaf {
	l := Loaf{
		Title: recipe.Clean(c.Recipe.Name), Mould: recipe.Clean(c.Mould.Name),
		Walls: pointsOf(c.Mould.Section().Boundary()), Rim: c.Mould.Section().Height, Length: c.Mould.Length.Millimetres(),
	}
	if topping, ok := toppingOf(c); ok {
		l.Topping = &topping
	}
	return l
}

// layerOf gives a layer that is still to come, with its embeds where they will
// lie under a surface of that height.
func layerOf(c recipe.Control, i int, surface quantity.Length, pourLine, finished form.Line) Layer {
	drawn := c.Recipe.Layers[i]
	l := Layer{
		Name: recipe.Clean(drawn.Name), Colour: colourOf(c, drawn), Of: colourantsOf(drawn),
		PourLine: Level(pourLine), Finished: Level(finished), Settled: true,
	}
	for _, e := range drawn.Embeds {
		l.Embeds = append(l.Embeds, Embed{
			Name: recipe.Clean(e.Name), Outline: pointsOf(e.Outline(surface).Boundary()), Colour: uncoloured,
		})
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
	some := false
	for _, s := range plan.Stages {
		if s.Kind == kind && !s.Done {
			return false
		}
		some = some || s.Kind == kind
	}
	return some
}

func pointsOf(boundary []form.Point) []scene.Point {
	points := make([]scene.Point, len(boundary))
	for i, p := range boundary {
		points[i] = scene.Point(p)
	}
	return points
}
