package loaf

import (
	"testing"

	"bench/internal/face"
	"bench/internal/scene"
	"bench/internal/ui/ink"
)

// base gives a loaf of one layer that stands at a height.
func base(height float64) face.Loaf {
	return face.Loaf{
		Walls: []scene.Point{{X: 0, Y: 0}, {X: 70, Y: 0}, {X: 70, Y: 65}, {X: 0, Y: 65}}, Rim: 65,
		Layers: []face.Layer{{Name: "base", Poured: true, Settled: true, Finished: face.Level{At: height}}},
	}
}

// A picture is drawn once for each size and state: a fact that changes nothing
// in the loaf asks for the loaf, and draws nothing; a look without a fact does
// not even ask.
func TestDrawnOncePerSizeAndState(t *testing.T) {
	var p Picture
	asked := 0
	draw := func(w, stand int, height float64) *string {
		lines, swatches := p.Draw(ink.Theme{}, w, 20, face.Frame{Rule: true}, At{Stand: stand}, func() face.Loaf {
			asked++
			return base(height)
		})
		if len(lines) == 0 || len(swatches) != 1 {
			t.Fatalf("%d lines and %d swatches", len(lines), len(swatches))
		}
		return &lines[0]
	}
	first := draw(40, 1, 30)
	if again := draw(40, 1, 30); again != first || asked != 1 {
		t.Errorf("a look draws it again: asked %d times", asked)
	}
	if again := draw(40, 2, 30.01); again != first || asked != 2 {
		t.Errorf("a fact that changes nothing to see draws it again: asked %d times", asked)
	}
	if again := draw(40, 3, 35); again == first || asked != 3 {
		t.Errorf("a pour does not draw it anew: asked %d times", asked)
	}
	taller := draw(40, 3, 35)
	if again := draw(30, 3, 35); again == taller || asked != 3 {
		t.Errorf("another size does not draw it anew: asked %d times", asked)
	}
}
