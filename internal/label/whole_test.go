package label_test

import (
	"math"
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/label"
	"bench/internal/sample"
	"bench/internal/steps"
)

// What is dusted on a layer is in the soap like a topping: two loaves of 0.40 g of gold
// mica, which alone brings CI 77491 here.
func TestMicaLineIsOnTheLabel(t *testing.T) {
	s := batch.State{Control: sample.Control(t, "wind-over-the-mole.yaml", 2)}
	l := label.Of("", steps.Of(s), s, label.Options{Market: label.EU, As: label.AsMade, Workshop: sample.Workshop(t)})
	for _, g := range l.Ingredients {
		if g.Name == "CI 77491" {
			if math.Abs(g.Most-0.8) > 1e-6 || g.From != "gold mica" {
				t.Errorf("%+v", g)
			}
			return
		}
	}
	t.Errorf("gold mica is missing in %s", names(l))
}

// The bar that is forecast is the bar that the screen expects, embeds in it, less what
// the cure takes (15 %: common practice, no source).
func TestForecastIsOfTheWholeBar(t *testing.T) {
	s := batch.State{Control: sample.Control(t, "wind-over-the-mole.yaml", 2)}
	plan := steps.Of(s)
	l := label.Of("", plan, s, label.Options{Market: label.EU, As: label.AsMade, Workshop: sample.Workshop(t)})
	if got, want := l.Net.Mean.Grams(), 0.85*plan.Poured().Bar.Grams(); math.Abs(got-want) > 0.1 || got < 105 {
		t.Errorf("a bar of %.1f g is forecast, %.1f g expected", got, want)
	}
	if !strings.Contains(strings.Join(l.Net.Doubts, " "), "one bar says nothing of the spread") {
		t.Errorf("%v", l.Net.Doubts)
	}
}
