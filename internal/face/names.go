package face

import (
	"cmp"
	"math"
	"slices"
	"unicode/utf8"

	"bench/internal/scene"
)

// names writes each layer's name on it, where nothing else lies.
func (l Loaf) names(s *scene.Scene, f Frame) {
	for i, layer := range l.Layers {
		at, ok := l.room(s.Box, f, i)
		if !ok {
			continue
		}
		label := scene.Label{At: at, Text: layer.Name, Size: f.letterH, Anchor: scene.Start}
		if layer.Poured {
			label.On = &layer.Colour
		}
		s.Write(label)
	}
}

// room finds a place for a layer's name on the rows and columns of letters: the
// nearest to the middle of its height, from the left.
func (l Loaf) room(box scene.Box, f Frame, i int) (scene.Point, bool) {
	layer := l.Layers[i]
	low := 0.0
	if i > 0 {
		low = max(l.Layers[i-1].Finished.over(box.Left), l.Layers[i-1].Finished.over(box.Right))
	}
	top := layer.Finished
	if layer.Poured {
		top = layer.stands()
	}
	high := min(top.over(box.Left), top.over(box.Right))
	width := float64(len([]rune(layer.Name))) * f.letterW
	best, found := scene.Point{}, false
	embeds := l.embedBoxes()
	for k := 0; box.Top-float64(k)*f.letterH > 0; k++ {
		y := box.Top - (float64(k)+0.5)*f.letterH
		if y-f.letterH/2 < low-1e-6 || y+f.letterH/2 > high+1e-6 || found && distance(best.Y, low, high) <= distance(y, low, high) {
			continue
		}
		for x := box.Left; x+width < box.Right; x += f.letterW {
			if l.clear(textAt(f, x, y, width), embeds) {
				best, found = scene.Point{X: x, Y: y}, true
				break
			}
		}
	}
	return best, found
}

// textAt gives the room that writing takes, with a letter clear at both ends.
func textAt(f Frame, x, y, width float64) scene.Box {
	return scene.Box{Left: x - f.letterW, Bottom: y - f.letterH/2, Right: x + width + f.letterW, Top: y + f.letterH/2}
}

// heights writes how high surfaces lie: under those that were poured, and over
// the lines that are still to be reached. The next has a sign.
func (l Loaf) heights(s *scene.Scene, f Frame) {
	for _, layer := range l.Layers {
		settles := layer.Finished.over(l.middle())-layer.PourLine.over(l.middle()) > 0.25
		switch {
		case layer.Poured:
			l.height(s, f, layer.stands(), "", &layer.Colour)
		case layer.Next:
			l.height(s, f, layer.PourLine, "▼ ", nil)
		}
		if !layer.Poured && (settles || !layer.Next) {
			l.height(s, f, layer.Finished, "", nil)
		}
	}
}

// height writes a height as far right as nothing else lies, in the row under a
// surface or over a line. That of a slope is its middle's, and stands there.
func (l Loaf) height(s *scene.Scene, f Frame, level Level, sign string, on *scene.Colour) {
	text := sign + short(eye(level.over(l.middle())))
	width := float64(utf8.RuneCountInString(text)) * f.letterW
	embeds := l.embedBoxes()
	for _, x := range l.places(f, width, level.Slope == 0) {
		left, right := level.over(x), level.over(x+width)
		row := math.Floor((s.Box.Top-max(left, right))/f.letterH+1e-6) - 1
		if on != nil {
			row = math.Ceil((s.Box.Top-min(left, right))/f.letterH - 1e-6)
		}
		at := s.Box.Top - (row+0.5)*f.letterH
		box := textAt(f, x, at, width)
		if l.clear(box, embeds) && !written(s, box) {
			s.Write(scene.Label{At: scene.Point{X: x, Y: at}, Text: text, Size: f.letterH, Bold: sign != "", On: on})
			return
		}
	}
}

// places gives where a height may begin: from the right to the left, or from
// the middle outwards.
func (l Loaf) places(f Frame, width float64, fromRight bool) []float64 {
	mould, middle := l.mould(), l.middle()-width/2
	var at []float64
	for x := mould.Right - f.letterW - width; x > mould.Left+f.letterW; x -= f.letterW {
		at = append(at, x)
	}
	if !fromRight {
		slices.SortFunc(at, func(a, b float64) int { return cmp.Compare(math.Abs(a-middle), math.Abs(b-middle)) })
	}
	return at
}

// written says that a label lies in a box already.
func written(s *scene.Scene, box scene.Box) bool {
	for _, l := range s.Labels {
		width := float64(utf8.RuneCountInString(l.Text)) * box.Height() / 2
		if l.Anchor == scene.Start && l.At.Y > box.Bottom && l.At.Y < box.Top && l.At.X < box.Right && l.At.X+width > box.Left {
			return true
		}
	}
	return false
}

// distance gives how far a height is from the middle of two others.
func distance(y, low, high float64) float64 { return max(y-(low+high)/2, (low+high)/2-y) }

// embedBoxes gives the boxes round all embeds.
func (l Loaf) embedBoxes() []scene.Box {
	var boxes []scene.Box
	for _, layer := range l.Layers {
		for _, e := range layer.Embeds {
			boxes = append(boxes, scene.BoxOf(e.Outline))
		}
	}
	return boxes
}

// clear says that a box lies within the walls and touches no embed.
func (l Loaf) clear(box scene.Box, embeds []scene.Box) bool {
	for _, o := range embeds {
		if o.Left < box.Right && box.Left < o.Right && o.Bottom < box.Top && box.Bottom < o.Top {
			return false
		}
	}
	for _, y := range []float64{box.Bottom, box.Top} {
		ends := l.across(Level{At: min(max(y, 1e-3), l.Rim-1e-3)})
		if len(ends) != 2 || box.Left < ends[0].X || box.Right > ends[1].X {
			return false
		}
	}
	return true
}
