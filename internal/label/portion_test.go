package label_test

import (
	"math"
	"strings"
	"testing"

	"bench/internal/label"
	"bench/internal/sample"
	"bench/internal/work"
)

// TestScentOfPortions: scent that is stirred into the portions is in what stays in their
// cups, and in nothing that stayed in the jug. By the plan's weighings, by hand: of each
// portion with its scent so much stays as the workshop says.
func TestScentOfPortions(t *testing.T) {
	w := sample.Workshop(t)
	text := strings.Replace(strings.Replace(pier, "RATE of batter", "2 % of oils, where: portions", 1), "recipe: Pier", "recipe: Pier\nloaves: 2", 1)
	c := control(t, text, w)
	b := sample.Begin(c)
	var portions, scents []float64
	for _, st := range b.Plan().Stages {
		for _, task := range st.Tasks {
			switch {
			case task.Do == work.Portion:
				portions = append(portions, task.Target.Grams())
			case task.Do == work.Weigh && task.Material == "sea air" && strings.HasSuffix(task.ID, "/cup"):
				scents = append(scents, task.Target.Grams())
			}
		}
	}
	want, jug := 0.0, b.Plan().Layers[0].Mass.Grams()
	for i, scent := range scents {
		want += scent * (1 - c.LeftInVessel.Grams()/(portions[i]+scent))
		jug -= portions[i] + scent
	}
	if len(scents) != 2 || jug < 15 {
		t.Fatalf("portions %.1f, scents %.2f, %.1f g stay in the jug", portions, scents, jug)
	}
	l := label.Of("26C02A", b.Plan(), b.State, label.Options{Market: label.EU, As: label.AsMade, Workshop: w})
	for _, g := range l.Ingredients {
		if g.Name == "Parfum" && math.Abs(g.Grams-want) > 0.01 {
			t.Errorf("%.3f g of scent in the loaves, want %.3f of %.3f", g.Grams, want, scents)
		}
	}
}
