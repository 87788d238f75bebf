package face

import (
	"math"
	"strings"
	"testing"

	"bench/internal/scene"
)

// The end of the mould is drawn at its real size: a check rule of 100 mm, the
// inside of the mould, and each line at the height that its words give.
func TestEndIsOneToOne(t *testing.T) {
	s := designed(t, "lighthouse-at-dusk.yaml").End()
	found := map[string]scene.Box{}
	for _, shape := range s.Shapes {
		found[shape.Name] = scene.BoxOf(shape.Points)
	}
	for name, want := range map[string]scene.Box{
		"inside of the mould harbour loaf": {Right: 70, Top: 65},
		"sky, pour line":                   {Right: 70, Bottom: 60, Top: 60},
		"base, finished surface":           {Right: 70, Bottom: 30, Top: 30},
		"slot for lighthouse":              {Left: 17, Bottom: 8, Right: 31, Top: 44},
		"slot for moon":                    {Left: 36, Bottom: 12, Right: 60, Top: 24},
	} {
		got, ok := found[name]
		if d := got.Left - want.Left + got.Bottom - want.Bottom + got.Right - want.Right + got.Top - want.Top; !ok || math.Abs(d) > 1e-6 {
			t.Errorf("%s: %+v, not %+v", name, got, want)
		}
	}
	if rule := found["check rule, 100 mm"]; rule.Width() != 100 {
		t.Errorf("the check rule is %g mm long", rule.Width())
	}
	words := ""
	for _, l := range s.Labels {
		words += l.Text + "\n"
	}
	for _, want := range []string{"base: pour to 22.5 mm, 42.5 down from the rim", "rim, 65 mm above the floor", "100 mm long"} {
		if !strings.Contains(words, want) {
			t.Errorf("the sheet does not say %q:\n%s", want, words)
		}
	}
}

// A sheet says what a slope is at both walls.
func TestEndOfASlope(t *testing.T) {
	words := ""
	for _, l := range designed(t, "wind-over-the-mole.yaml").End().Labels {
		words += l.Text + "\n"
	}
	if !strings.Contains(words, "24 mm in the middle") || !strings.Contains(words, "at the left, ") {
		t.Errorf("the sheet says\n%s", words)
	}
}

// One height has one figure: a layer of 60.3 mm is poured to 60.5 mm on the sheet for the
// mould, and lies that high under the picture and beside it.
func TestAHeightIsSaidAlikeEverywhere(t *testing.T) {
	l := designed(t, "tide-lines.yaml")
	for i, at := range []float64{20.2, 40.4, 60.3} {
		l.Layers[i].PourLine, l.Layers[i].Finished = Level{At: at}, Level{At: at}
	}
	said := func(s scene.Scene) (words string) {
		for _, label := range s.Labels {
			words += label.Text + "\n"
		}
		return words
	}
	name := l.Layers[2].Name
	for words, want := range map[string]string{
		said(l.End()):      name + ": pour to 60.5 mm",
		said(l.Notebook()): name + ", 40.5 to 60.5 mm",
		strings.Join(l.Legend(looks["plain"]), "\n"): name + ", 40.5 to 60.5 mm",
	} {
		if !strings.Contains(words, want) {
			t.Errorf("%q is not said in\n%s", want, words)
		}
	}
}
