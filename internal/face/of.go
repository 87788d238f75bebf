package face

import (
	"slices"

	"bench/internal/form"
	"bench/internal/recipe"
	"bench/internal/scene"
	"bench/internal/steps"
	"bench/internal/work"
)

// Designed gives the loaf of a recipe as it is drawn there, with nothing poured.
func Designed(c recipe.Control) Loaf {
	l := emptyLoaf(c)
	for i, layer := range c.Face().Layers {
		l.Layers = append(l.Layers, layerOf(c, i, layer))
	}
	return l
}

// Of gives a loaf of a batch as it stands: loaf counts from 0, and at is the
// stage at hand.
func Of(plan steps.Plan, c recipe.Control, loaf int, at work.Stage) Loaf {
	l := emptyLoaf(c)
	for i, planned := range plan.Layers {
		if i >= len(c.Recipe.Layers) || loaf >= len(planned.Loaves) {
			break
		}
		drawn, pour := c.Recipe.Layers[i], planned.Loaves[loaf]
		layer := layerOf(c, i, pour.Face)
		layer.Poured, layer.Next = pour.Poured, planned.Name == at.Layer && !pour.Poured
		layer.Lined = layer.Line != nil && lineOn(plan, drawn.Name)
		layer.Embeds = withOnly(layer.Embeds, pour.Face, EmbedsIn(plan, drawn, loaf))
		for _, e := range layer.Embeds {
			layer.Settled = layer.Settled && e.In
		}
		l.Layers = append(l.Layers, layer)
	}
	l.Dusted = l.Topping != nil && done(plan, work.Texture)
	return l
}

// withOnly gives the embeds that a loaf does not go without, and says which of
// them are in.
func withOnly(embeds []Embed, at form.FaceLayer, in []bool) []Embed {
	var list []Embed
	for n, e := range embeds {
		if !at.Embeds[n].Out {
			e.In = in[n]
			list = append(list, e)
		}
	}
	return list
}

// emptyLoaf gives the mould before anything is in it.
func emptyLoaf(c recipe.Control) Loaf {
	l := Loaf{
		Title: recipe.Clean(c.Recipe.Name), Mould: recipe.Clean(c.Mould.Name),
		Walls: pointsOf(c.Mould.Section().Boundary()), Rim: c.Mould.Section().Height, Length: c.Mould.Length.Millimetres(),
		Upright: c.Mould.HasHeights() && !c.Mould.Lies(),
	}
	if topping, ok := toppingOf(c); ok {
		l.Topping = &topping
	}
	return l
}

// layerOf gives a layer that is still to come, with its embeds where they will
// lie.
func layerOf(c recipe.Control, i int, at form.FaceLayer) Layer {
	drawn := c.Recipe.Layers[i]
	l := Layer{
		Name: recipe.Clean(drawn.Name), Colour: colourOf(c, drawn), Of: colourantsOf(drawn),
		PourLine: Level(at.PourLine), Finished: Level(at.Surface), Settled: true,
	}
	if m, _ := c.Material(drawn.MicaLine.Material); drawn.MicaLine.Material != "" {
		colour, ok := scene.ParseColour(m.Looks)
		if !ok {
			colour = lines
		}
		l.Line = &colour
	}
	for n, e := range drawn.Embeds {
		l.Embeds = append(l.Embeds, Embed{
			Name: recipe.Clean(e.Name), Outline: pointsOf(at.Embeds[n].Boundary()), Colour: doughOf(c, e),
		})
	}
	return l
}

// EmbedsIn says of each embed of a layer whether it is in this loaf.
func EmbedsIn(plan steps.Plan, layer recipe.Layer, loaf int) []bool {
	in := make([]bool, len(layer.Embeds))
	for n, e := range layer.Embeds {
		task, _, _ := plan.Task(steps.EmbedTask(layer.Name, loaf, e.Name))
		in[n] = task.Done && task.Skipped == ""
	}
	return in
}

// lineOn says that the mica line on a layer was dusted, on all loaves.
func lineOn(plan steps.Plan, layer string) bool {
	return slices.ContainsFunc(plan.Stages, func(s work.Stage) bool {
		return s.Kind == work.MicaLine && s.Layer == layer && s.Done
	})
}

// done says that every stage of that kind is done, and that there is one.
func done(plan steps.Plan, kind work.Kind) bool {
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
