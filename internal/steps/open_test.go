package steps_test

import (
	"math"
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/quantity"
	"bench/internal/sample"
)

// TestWaysWithOthersOpen: while several weights are off, each has the ways that it would
// have by itself, and once all were mended the superfat is as asked. That each shortfall
// is added is the plain way (common practice, no source).
func TestWaysWithOthersOpen(t *testing.T) {
	lighthouse, tide := sample.Control(t, "lighthouse-at-dusk.yaml", 3), sample.Control(t, "tide-lines.yaml", 3)
	type off struct {
		task string
		by   quantity.Mass
		way  batch.Way
	}
	for name, c := range map[string]struct {
		file string
		offs []off
	}{
		"two oils under":       {"lighthouse", []off{{"sea/shea", -900, batch.AddOil}, {"sea/coconut", -9200, batch.AddOil}}},
		"three oils under":     {"lighthouse", []off{{"sea/shea", -6000, batch.AddOil}, {"sea/coconut", -9200, batch.AddOil}, {"sea/olive", -12_000, batch.AddOil}}},
		"one left out":         {"lighthouse", []off{{"sea/coconut", -9200, batch.AddOil}, {"sea/castor", 0, batch.AddOil}}},
		"alkali over, and oil": {"tide", []off{{"tide/sodium hydroxide", 1710, batch.TakeOut}, {"tide/coconut", -20_000, batch.AddOil}}},
	} {
		control, first := lighthouse, "sea/sodium hydroxide"
		if c.file == "tide" {
			control, first = tide, "tide/sodium hydroxide"
		}
		b := begin(control)
		if b.workTo(t, first); c.file == "lighthouse" {
			b.finish(t, "lye/sea") // Before the oils, or it would follow them.
		}
		for _, o := range c.offs {
			task := b.task(t, o.task)
			if o.by == 0 {
				f := batch.Skipped{Task: o.task, Reason: "none left"}
				if err := judge.Allows(b.plan(), f, b.moment()); err != nil {
					t.Fatal(err)
				}
				b.put(f)
				continue
			}
			b.typed(t, o.task, (task.Target + o.by).At(task.Reads))
		}
		if n := len(b.plan().Deviations); n != len(c.offs) {
			t.Fatalf("%s: %d weights are off", name, n)
		}
		for _, o := range c.offs {
			d, _ := deviationOf(b.plan(), o.task)
			ways := b.plan().Ways(d)
			if !strings.Contains(offered(ways), string(o.way)) {
				t.Errorf("%s: %s: offered %q, not %q", name, o.task, offered(ways), o.way)
			}
			for _, w := range ways {
				if w.Fact.Way == o.way && (w.Outcome.Mended == nil || math.Abs(*w.Outcome.Mended-100*control.Recipe.Batters[0].Superfat.Fraction()) > 0.25) {
					t.Errorf("%s: %s: %s", name, o.task, w.Outcome)
				}
			}
		}
		for i, o := range c.offs {
			w := b.decide(t, o.task, o.way)
			if alone := i == len(c.offs)-1; alone != (w.Outcome.Mended == nil) {
				t.Errorf("%s: %s: %s", name, o.task, w.Outcome)
			}
		}
		if got, want := b.plan().Batters[0].Superfat.Percent, 100*control.Recipe.Batters[0].Superfat.Fraction(); math.Abs(got-want) > 0.25 {
			t.Errorf("%s: in the end the superfat is %.2f %%, and %.2f %% was asked", name, got, want)
		}
	}
}
