package face

import (
	"fmt"

	"bench/internal/cells"
	"bench/internal/scene"
)

// swatchCells is how wide a sample of a fill is, in cells.
const swatchCells = 3

// Swatches gives a sample of each layer's fill, floor first, as the picture
// shows it. What is not poured has a blank one.
func (l Loaf) Swatches(look cells.Look) []string {
	s := scene.Scene{Box: scene.Box{Right: swatchCells, Top: float64(len(l.Layers))}}
	for i, layer := range l.Layers {
		if layer.Poured {
			s.Add(scene.Shape{
				Points: rectangle(0, float64(i), swatchCells, float64(i+1)),
				Fill:   scene.Fill{On: true, Colour: layer.Colour, Pattern: 1 + i},
			})
		}
	}
	rows := cells.Lines(s, swatchCells, len(l.Layers), look)
	swatches := make([]string, len(rows))
	for i := range rows {
		swatches[i] = rows[len(rows)-1-i]
	}
	return swatches
}

// Legend says of each layer, from the top down as they lie, how high it lies and
// what colours it, and where its embeds are.
func (l Loaf) Legend(look cells.Look) []string {
	middle := l.middle()
	swatches := l.Swatches(look)
	var lines []string
	for i := len(l.Layers) - 1; i >= 0; i-- {
		layer, from := l.Layers[i], 0.0
		if i > 0 {
			from = l.Layers[i-1].Finished.over(middle)
		}
		line := fmt.Sprintf("%s  %s, %s to %s mm", swatches[i], layer.Name, short(eye(from)), short(eye(layer.Finished.over(middle))))
		if layer.Of != "" {
			line += ", " + layer.Of
		}
		lines = append(lines, line)
		for _, e := range layer.Embeds {
			box, at := scene.BoxOf(e.Outline), centre(e.Outline)
			lines = append(lines, fmt.Sprintf("     %s, an embed of %s by %s mm: %s to %s mm up, its middle %s mm from the left wall",
				e.Name, short(box.Width()), short(box.Height()), short(box.Bottom), short(box.Top), short(at.X)))
		}
	}
	return lines
}
