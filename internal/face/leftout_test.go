package face_test

import (
	"testing"

	"bench/internal/batch"
	"bench/internal/face"
	"bench/internal/label"
	"bench/internal/sample"
	"bench/internal/scene"
	"bench/internal/steps"
	"bench/internal/work"
)

// TestLeftOutEmbedIsNotDrawn: not on the face of the loaf that goes without it,
// nor from the side; and the label counts one moon less, of its dough.
func TestLeftOutEmbedIsNotDrawn(t *testing.T) {
	c := sample.Control(t, "lighthouse-at-dusk.yaml", 2)
	s := batch.State{Control: c}
	drawn := func(s scene.Scene) bool {
		for _, shape := range s.Shapes {
			if shape.Name == "moon" {
				return true
			}
		}
		return false
	}
	dough := func(s batch.State) float64 {
		grams := 0.0
		for _, i := range label.Of("", steps.Of(s), s, label.Options{Market: label.EU, As: label.AsMade, Workshop: sample.Workshop(t)}).Ingredients {
			grams += i.Grams
		}
		return grams
	}
	whole := dough(s)
	s = s.Apply(batch.Entry{Seq: 1, Fact: batch.Skipped{Task: steps.EmbedTask("base", 1, "moon"), Reason: "it broke"}})
	for loaf, want := range []bool{true, false} {
		l := face.Of(steps.Of(s), c, loaf, work.Stage{})
		for _, picture := range []scene.Scene{l.CutFace(face.Print()), l.Finished().CutFace(face.Print()), l.Side(face.CutOf(c, loaf))} {
			if drawn(picture) != want {
				t.Errorf("loaf %d, %s: a moon %t", loaf+1, picture.Title, !want)
			}
		}
	}
	if lost := whole - dough(s); lost < 40 || lost > 60 { // An ellipse of 24 × 12 mm, 220 mm long: 49.8 ml.
		t.Errorf("the label counts %.1f g less", lost)
	}
}
