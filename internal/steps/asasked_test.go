package steps_test

import (
	"fmt"
	"maps"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/sample"
	"bench/internal/steps"
	"bench/internal/work"
)

// designs are the recipes that the tests of whole batches run on.
func designs(t testing.TB) map[string]func(loaves int) recipe.Control {
	t.Helper()
	return map[string]func(int) recipe.Control{
		"harbour": func(loaves int) recipe.Control {
			c := harbour()
			c.Loaves = loaves
			return c
		},
		"one big scale": func(loaves int) recipe.Control {
			c := harbour()
			c.Loaves, c.Scales = loaves, []recipe.Scale{{Name: "kitchen scale", Reads: g, Max: 1_500 * g}, {Name: "fine scale", Reads: g / 100, Max: 200 * g}}
			return c
		},
		"lighthouse": func(loaves int) recipe.Control { return sample.Control(t, "lighthouse-at-dusk.yaml", loaves) },
		"tide lines": func(loaves int) recipe.Control { return sample.Control(t, "tide-lines.yaml", loaves) },
	}
}

// figures are all the amounts, portions and lines of a plan, without what says
// how far the work has come.
type figures struct {
	Oils    quantity.Mass
	Batters []steps.Batter
	Layers  []steps.Layer
	Tasks   map[string][3]quantity.Mass // Tasks are target, reading to stop at and what the scale reads to.
}

func figuresOf(p steps.Plan) figures {
	f := figures{Oils: p.Oils, Tasks: map[string][3]quantity.Mass{}}
	for _, b := range p.Batters {
		b.Oils, b.Alkali, b.Additives = strip(b.Oils), strip(b.Alkali), strip(b.Additives)
		b.Water = strip([]steps.Amount{b.Water})[0]
		b.MetAt = 0 // It was read, and is no target.
		f.Batters = append(f.Batters, b)
	}
	for _, l := range p.Layers {
		l.Colours, l.Scents, l.Loaves = strip(l.Colours), slices.Clone(l.Scents), slices.Clone(l.Loaves)
		for i := range l.Scents {
			l.Scents[i].Known = false
		}
		for i := range l.Loaves {
			l.Loaves[i].Poured = false
		}
		f.Layers = append(f.Layers, l)
	}
	for _, s := range p.Stages {
		for _, t := range s.Tasks {
			f.Tasks[t.ID] = [3]quantity.Mass{t.Target, t.StopAt, t.Reads}
		}
	}
	return f
}

func strip(amounts []steps.Amount) []steps.Amount {
	amounts = slices.Clone(amounts)
	for i := range amounts {
		amounts[i].Known = false
	}
	return amounts
}

// TestAsAskedChangesNothing: whatever is weighed exactly as asked leaves every
// amount, portion and line of the plan as it was, fact by fact.
func TestAsAskedChangesNothing(t *testing.T) {
	for name, design := range designs(t) {
		for _, loaves := range []int{1, 2, 3} {
			t.Run(fmt.Sprintf("%s/%d", name, loaves), func(t *testing.T) {
				b := begin(design(loaves))
				first := figuresOf(b.plan())
				err := b.work(func(task work.Task) bool {
					same(t, first, figuresOf(b.plan()), task.ID)
					return t.Failed()
				})
				if err != nil {
					t.Fatal(err)
				}
				p := b.plan()
				same(t, first, figuresOf(p), "the end")
				for _, s := range p.Stages {
					if !later(s) && !s.Done {
						t.Errorf("%s is not done: %s", s.ID, s.Blocked)
					}
				}
			})
		}
	}
}

// tester is what testing and rapid have in common.
type tester interface {
	Helper()
	Errorf(format string, args ...any)
	Failed() bool
}

// same reports the first difference in words that can be read.
func same(t tester, want, got figures, before string) {
	t.Helper()
	if reflect.DeepEqual(want, got) {
		return
	}
	for id, w := range want.Tasks {
		if got.Tasks[id] != w {
			t.Errorf("before %s: %s is %v, was %v", before, id, got.Tasks[id], w)
		}
	}
	for i := range want.Layers {
		if !reflect.DeepEqual(want.Layers[i], got.Layers[i]) {
			t.Errorf("before %s:\n%+v was\n%+v", before, got.Layers[i], want.Layers[i])
		}
	}
	for i := range want.Batters {
		if !reflect.DeepEqual(want.Batters[i], got.Batters[i]) {
			t.Errorf("before %s:\n%+v was\n%+v", before, got.Batters[i], want.Batters[i])
		}
	}
	if !t.Failed() {
		t.Errorf("before %s: %v was %v", before, got.Oils, want.Oils)
	}
}

// TestPortionsAddUp: what is poured out of a vessel is what it holds, less what
// stays in it, as far as its scale can tell.
func TestPortionsAddUp(t *testing.T) {
	for name, design := range designs(t) {
		controls := []recipe.Control{design(2), design(3)}
		rapid.Check(t, func(t *rapid.T) {
			c := controls[rapid.IntRange(0, 1).Draw(t, "loaves")]
			c.LeftInVessel = quantity.Mass(rapid.IntRange(0, 60_000).Draw(t, "left"))
			p := steps.Of(batch.State{Control: c})
			for _, s := range p.Stages {
				if s.Kind != work.Split && s.Kind != work.SplitLayers {
					continue
				}
				gross, sum := s.Tasks[0], quantity.Mass(0)
				for _, portion := range s.Tasks[1:] {
					sum += portion.Target
				}
				net := gross.Target - gross.Tare
				if want := (net - c.LeftInVessel).FloorTo(gross.Reads); sum != want {
					t.Fatalf("%s %s: portions of %v, want %v", name, s.ID, sum, want)
				}
				if last := s.Tasks[len(s.Tasks)-2]; last.StopAt != gross.Target-sum {
					t.Fatalf("%s %s: the last reading is %v, want %v", name, s.ID, last.StopAt, gross.Target-sum)
				}
			}
		})
	}
}

// TestOrderDoesNotMatter: whatever is open may be done next, and the plan in
// the end is the same but for when things were done.
func TestOrderDoesNotMatter(t *testing.T) {
	t.Parallel()

	var controls []recipe.Control
	var ends []figures
	designs := designs(t)
	for _, name := range slices.Sorted(maps.Keys(designs)) {
		straight := begin(designs[name](2))
		if err := straight.work(never); err != nil {
			t.Fatal(err)
		}
		controls, ends = append(controls, straight.state.Control), append(ends, figuresOf(straight.plan()))
	}
	rapid.Check(t, func(t *rapid.T) {
		design := rapid.IntRange(0, len(controls)-1).Draw(t, "design")
		b := begin(controls[design])
		p := b.plan()
		for open := openTasks(p); len(open) > 0; open = openTasks(p) {
			task := rapid.SampledFrom(open).Draw(t, "task")
			f, err := answered(p, task.ID, asAsked(task))
			if err != nil {
				t.Fatal(err)
			}
			if err := judge.Allows(p, f, b.moment()); err != nil {
				t.Fatal(err)
			}
			b.put(f)
			p = b.plan()
		}
		same(t, ends[design], figuresOf(p), "the end")
		for _, s := range p.Stages {
			if !later(s) && !s.Done {
				t.Fatalf("%s is not done", s.ID)
			}
		}
	})
}

// later says that a stage waits for hours or weeks.
func later(s work.Stage) bool {
	switch s.Kind {
	case work.GelStage, work.Unmould, work.CutStage, work.BarsStage, work.CureStage, work.ReleaseTest, work.Release:
		return true
	default:
		return false
	}
}

// openTasks are those that can be done now, but for the unmoulding.
func openTasks(p steps.Plan) []work.Task {
	var open []work.Task
	for _, s := range p.Stages {
		for _, t := range s.Tasks {
			if t.Open && !later(s) {
				open = append(open, t)
			}
		}
	}
	return open
}

// TestTaskIDsAreUnique: a fact names its task, so no two tasks share a name.
func TestTaskIDsAreUnique(t *testing.T) {
	for name, design := range designs(t) {
		c := design(3)
		top := len(c.Recipe.Layers) - 1
		for i := range c.Recipe.Layers {
			// The same stick in two layers is a usual design.
			surface := c.Recipe.Layers[i].Surface
			if i == 0 || i == top {
				c.Recipe.Layers[i].Embeds = []recipe.Embed{{Name: "moon", Shape: recipe.Circle, Width: 6 * mm, Height: 6 * mm, Across: 20 * mm, Sink: surface / 10}}
			}
		}
		seen := map[string]bool{}
		for _, s := range steps.Of(batch.State{Control: c}).Stages {
			for _, task := range s.Tasks {
				if seen[task.ID] {
					t.Errorf("%s: two tasks are called %q", name, task.ID)
				}
				seen[task.ID] = true
			}
		}
	}
}
