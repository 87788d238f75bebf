package bench

import (
	"fmt"

	"bench/internal/face"
	"bench/internal/quantity"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/ui/ink"
	"bench/internal/ui/loaf"
	"bench/internal/work"
)

// inMould is how the loaf at hand is shown: in its mould, with its heights.
func inMould() face.Frame { return face.Frame{Rule: true, Names: true, Heights: true, Mould: true} }

// The height from which there is a picture, and from which it spares some for its legend.
const (
	legendFrom = 22
	faceLeast  = 10
)

// loaf draws the loaf at hand: what is poured is solid, the line that the next
// pour goes up to and all that is still to come are outlines.
func (b Screen) loaf(t ink.Theme, w, h int, at work.Stage, task work.Task) []string {
	if !b.hasFace() || h < faceLeast {
		return nil
	}
	key := b.areaKey(t, w, h)
	key.stage, key.task = at.ID, task.ID
	return b.kept.lines(theLoaf, key, func() []string { return ink.Block(b.face(t, w, h, at, task), w, h) })
}

func (b Screen) face(t ink.Theme, w, h int, at work.Stage, task work.Task) []string {
	n := loafOf(at, task, b.Plan.Loaves)
	rest := 5 + len(b.Plan.Layers)
	if h < legendFrom {
		rest = 2 // The picture has the names and the heights, too.
	}
	picture, swatches := b.draw(t, w-2, h-rest, n, at)
	lines := []string{"", " " + t.Quiet.Render(ink.Cut(b.loafTitle(n), w-2))}
	for _, l := range picture {
		lines = append(lines, " "+l)
	}
	if h < legendFrom {
		return lines
	}
	lines = append(lines, "")
	return append(lines, b.legend(t, w, n, at, swatches)...)
}

// draw gives the picture of a loaf, counted from 0, and samples of its fills.
func (b Screen) draw(t ink.Theme, w, h, n int, at work.Stage) (lines, swatches []string) {
	which := loaf.At{Stand: len(b.State.Entries), Loaf: n, Layer: at.Layer}
	return b.picture.Draw(t, w, h, inMould(), which, func() face.Loaf {
		return face.Of(b.Plan, b.State.Control, n, at)
	})
}

// FaceLines show the loaf at hand as large as the window allows.
func (b Screen) FaceLines(t ink.Theme, w, h int, now timer.Moment) []string {
	task, stage, _ := b.Current(now)
	var lines []string
	if w >= ink.WideAt && b.hasFace() {
		lines = b.wideFace(t, w, h-1, stage, task)
	} else {
		lines = b.loaf(t, w, h-1, stage, task)
	}
	return append(ink.Block(lines, w, h-1), ink.Cut(" "+t.Key.Render("any key")+" back", w))
}

// wideFace has its legend at the side, so that the picture gets the height.
func (b Screen) wideFace(t ink.Theme, w, h int, at work.Stage, task work.Task) []string {
	n := loafOf(at, task, b.Plan.Loaves)
	picture, swatches := b.draw(t, w-loafWidth-3, h-2, n, at)
	legend := ink.Block(b.legend(t, loafWidth, n, at, swatches), loafWidth, len(picture))
	lines := []string{"", " " + t.Quiet.Render(b.loafTitle(n))}
	for i := range picture {
		lines = append(lines, " "+picture[i]+"  "+legend[i])
	}
	return lines
}

// hasFace says that there is a loaf to draw: cavities have none.
func (b Screen) hasFace() bool { return b.Plan.Mould.HasHeights() && len(b.Plan.Layers) > 0 }

// loafOf says which loaf the task is about, or the first.
func loafOf(at work.Stage, task work.Task, loaves int) int {
	n := at.Loaf
	if of := work.LoafOf(task.ID); of > 0 {
		n = of
	}
	return min(max(1, n), max(1, loaves)) - 1
}

func (b Screen) loafTitle(n int) string {
	which := "the loaf"
	if b.Plan.Loaves > 1 {
		which = fmt.Sprintf("loaf %d of %d", n+1, b.Plan.Loaves)
	}
	return which + ", " + b.Plan.Mould.Height.String() + " to the rim"
}

// legend names the layers from the top down, as they lie.
func (b Screen) legend(t ink.Theme, w, n int, at work.Stage, swatches []string) []string {
	var lines []string
	toCome := false
	for i := len(b.Plan.Layers) - 1; i >= 0; i-- {
		l := b.Plan.Layers[i]
		state := "to come"
		switch {
		case n >= len(l.Loaves):
		case l.Loaves[n].Poured:
			height, settled := b.stands(i, n)
			state, toCome = "poured to "+steps.ToAnEye(height).String(), toCome || !settled
		case l.Name == at.Layer:
			state, toCome = "pour to "+steps.ToAnEye(l.Loaves[n].PourLine).String(), true
		default:
			toCome = true
		}
		sample := ink.Spaces(3)
		if i < len(swatches) {
			sample = swatches[i]
		}
		lines = append(lines, " "+sample+" "+ink.Cut(ink.Clean(l.Name)+": "+state, w-6))
	}
	if toCome {
		lines = append(lines, " "+t.Quiet.Render(ink.Cut("outlines are still to come", w-2)))
	}
	return lines
}

// stands gives how high a layer that was poured stands: at its pour line until
// its embeds are in or left out, and it has settled.
func (b Screen) stands(i, n int) (height quantity.Length, settled bool) {
	layer, pour := b.State.Control.Recipe.Layers[i], b.Plan.Layers[i].Loaves[n]
	for k, in := range face.EmbedsIn(b.Plan, layer, n) {
		if !in && !pour.Face.Embeds[k].Out {
			return pour.PourLine, false
		}
	}
	return pour.Surface, true
}
