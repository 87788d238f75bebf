package steps_test

import (
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/sample"
	"bench/internal/work"
)

const (
	potash = "puck/potassium hydroxide"
	soda   = "puck/sodium hydroxide"
)

// off is how far one of two alkalis is off: far beyond its tolerance.
const off = 3 * g

// TestWaysWithTwoAlkalis: one of both is off, before the other is weighed, after
// it, and after the lye solution met the oils; each way leads to the superfat that
// the recipe states, or above it where alkali stays missing.
func TestWaysWithTwoAlkalis(t *testing.T) {
	for name, c := range map[string]struct {
		task string
		off  quantity.Mass
		then string // then is the task up to which all goes as asked.
		want string
	}{
		"potassium over":             {potash, off, "", "make up*, take out, pour part"},
		"potassium under":            {potash, -off, "", "carry on, make up*, dissolve the missing"},
		"potassium over, both in":    {potash, off, "puck/dissolve", "pour part*, add oil"},
		"potassium under, both in":   {potash, -off, "puck/dissolve", "carry on, dissolve the missing*"},
		"sodium over":                {soda, off, "", "pour part*, add oil"},
		"sodium under":               {soda, -off, "", "carry on, dissolve the missing*"},
		"sodium over, met":           {soda, off, "puck/trace/emulsion", "add oil*"},
		"sodium under, met":          {soda, -off, "puck/trace/emulsion", "carry on*, dissolve the missing"},
		"potassium over, met":        {potash, off, "puck/trace/emulsion", "add oil*"},
		"potassium under, emulsion":  {potash, -off, "puck/trace/light", "carry on*"},
		"potassium a drop over":      {potash, g / 100, "", ""},
		"more than sodium can carry": {potash, 60 * g, "", "take out*, pour part"},
	} {
		t.Run(name, func(t *testing.T) {
			b := begin(sample.Control(t, "wharf-puck.yaml", 1))
			b.workTo(t, c.task)
			task := b.task(t, c.task)
			b.typed(t, c.task, (task.Target + c.off).At(task.Reads))
			b.seeingTo(t, c.then)
			d, ok := deviationOf(b.plan(), c.task)
			if ok != (c.want != "") {
				t.Fatalf("deviation %+v", d)
			}
			ways := b.plan().Ways(d)
			if got := offered(ways); got != c.want {
				t.Fatalf("offered: %s, want %s", got, c.want)
			}
			for _, w := range ways {
				after := *b
				after.decide(t, c.task, w.Fact.Way)
				if err := after.work(func(task work.Task) bool { return strings.HasPrefix(task.ID, "clean up") }); err != nil {
					t.Fatal(err)
				}
				got := after.plan().Batters[0].Superfat.Percent
				closeTo(t, string(w.Fact.Way)+": as it was foretold", got, w.Outcome.Superfat.Percent, 0.1)
				if w.Fact.Way != batch.CarryOn && (got < 4.75 || got > 5.3) {
					t.Errorf("%s: superfat %.2f %%, asked 5", w.Fact.Way, got)
				}
			}
		})
	}
}

// seeingTo works on as asked up to a task, and reads warnings on the way.
func (b *bencher) seeingTo(t *testing.T, id string) {
	t.Helper()
	for id != "" && b.task(t, id).Waits != "" {
		next, _ := b.plan().Next(b.moment())
		b.reads()
		b.asked(t, next)
	}
}

// By hand: 3 g of potassium hydroxide at 90 % are 2.7 g pure, as much alkali as
// 2.7 × 39.997/56.105 = 1.92 g of sodium hydroxide (CIAAW).
func TestTheOtherAlkaliMakesUpForIt(t *testing.T) {
	b := begin(sample.Control(t, "wharf-puck.yaml", 1))
	b.workTo(t, potash)
	task, before := b.task(t, potash), b.task(t, soda).Target
	b.typed(t, potash, (task.Target + off).At(task.Reads))
	way := b.decide(t, potash, batch.MakeUp)
	if !strings.Contains(way.Title, "Weigh 1.9") || !strings.Contains(way.Title, "less of sodium hydroxide") {
		t.Error(way.Title)
	}
	closeTo(t, "less sodium hydroxide", (before - b.task(t, soda).Target).Grams(), 1.92, 0.011)
	b.asked(t, soda)
	closeTo(t, "superfat", b.plan().Batters[0].Superfat.Percent, 5, 0.02)
	if m := b.plan().Undecided(); m != 0 {
		t.Errorf("%d things are still undecided", m)
	}
}

// TestEverythingUpAfterMakingUp: one alkali was over and the other made up for it;
// then an oil is over and all else is brought up. The alkali is still what the oils
// take, whether or not the second one was weighed by then, and no way adds an oil
// that would not be noticed.
func TestEverythingUpAfterMakingUp(t *testing.T) {
	for _, sodaFirst := range []bool{true, false} {
		b := begin(sample.Control(t, "wharf-puck.yaml", 1))
		b.workTo(t, potash)
		task := b.task(t, potash)
		b.typed(t, potash, (task.Target + off).At(task.Reads))
		b.decide(t, potash, batch.MakeUp)
		if sodaFirst {
			b.asked(t, soda)
		}
		shea := b.task(t, "puck/shea")
		b.typed(t, "puck/shea", (shea.Target + 11*g).At(shea.Reads))
		d, _ := deviationOf(b.plan(), "puck/shea")
		for _, w := range b.plan().Ways(d) {
			if w.Fact.Way == batch.AddOil {
				t.Errorf("soda first %t: %s", sodaFirst, w.Title)
			}
		}
		b.decide(t, "puck/shea", batch.InProportion)
		if err := b.work(func(task work.Task) bool { return strings.HasPrefix(task.ID, "clean up") }); err != nil {
			t.Fatal(err)
		}
		closeTo(t, "superfat", b.plan().Batters[0].Superfat.Percent, 5, 0.03)
	}
}
