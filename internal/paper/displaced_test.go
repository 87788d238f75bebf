package paper_test

import (
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/paper"
	"bench/internal/sample"
	"bench/internal/steps"
)

// TestDisplacedLoafByLoaf: a plan says once what embeds take while the loaves are alike,
// and loaf by loaf when one goes without an embed. By hand: an ellipse of 24 × 12 mm along
// 220 mm is π · 12 · 6 · 220 mm³, or 49.8 ml.
func TestDisplacedLoafByLoaf(t *testing.T) {
	s := batch.State{}
	put := func(f batch.Fact) { s = s.Apply(batch.Entry{Seq: len(s.Entries) + 1, Fact: f}) }
	put(batch.Started{Control: sample.Control(t, "lighthouse-at-dusk.yaml", 3)})
	lines := func() (list []string) {
		for line := range strings.Lines(paper.PlanText(steps.Of(s))) {
			if strings.Contains(line, "moon takes") {
				list = append(list, strings.Join(strings.Fields(line), " "))
			}
		}
		return list
	}
	if got := lines(); len(got) != 1 || !strings.HasPrefix(got[0], "moon takes 49.8 ml, lifts") {
		t.Errorf("alike: %q", got)
	}
	put(batch.Skipped{Task: steps.EmbedTask("base", 0, "moon"), Reason: "it broke"})
	got := lines()
	if len(got) != 2 || !strings.HasPrefix(got[0], "loaf 2: moon takes 49.8 ml") || !strings.HasPrefix(got[1], "loaf 3: moon takes 49.8 ml") {
		t.Errorf("one without: %q", got)
	}
	if text := paper.PlanText(steps.Of(s)); !strings.Contains(text, "embeds     loaf 1: lighthouse takes") {
		t.Errorf("the first loaf is not named:\n%s", text)
	}
	p := steps.Of(s)
	if first, second := p.Displaced(0, 0), p.Displaced(0, 1); len(first) != 1 || len(second) != 2 {
		t.Errorf("%v, %v", first, second)
	}
	if p.Displaced(0, 3) != nil || p.Displaced(9, 0) != nil || p.Displaced(-1, -1) != nil {
		t.Error("a loaf that there is not takes room")
	}
}
