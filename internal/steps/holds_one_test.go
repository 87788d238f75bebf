package steps_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"bench/internal/judge"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/work"
)

// shelf is what somebody sees who works a plan with their hands: what stands in which
// vessel, and what clings to it. It shares no code with the planner.
type shelf struct {
	loaves int
	in     map[string]string // in is what a vessel holds.
	clings map[string]string // clings is what was in it before.
	open   map[string]string // open maps the task that empties a vessel last to the vessels.
	left   map[string]int    // left counts the portions that are still to come out of a vessel.
}

// fill puts something into a vessel, which must be empty, or hold the same.
func (s *shelf) fill(vessel, what, hint string, straight bool) error {
	if was := s.in[vessel]; was != "" && was != what {
		return fmt.Errorf("%s holds %s, and gets %s", vessel, was, what)
	}
	material, _, _ := strings.Cut(what, " @")
	if was := s.clings[vessel]; straight && was != "" && was != material && !strings.Contains(hint, "Wipe "+vessel+" out") {
		return fmt.Errorf("%s goes into %s after %s: %q", what, vessel, was, hint)
	}
	s.in[vessel], s.clings[vessel] = what, material
	return nil
}

// empty takes all that a task empties out of its vessels.
func (s *shelf) empty(task string) {
	for vessel, by := range s.open {
		if by == task {
			delete(s.in, vessel)
			delete(s.open, vessel)
		}
	}
}

// do works a task, and says what went wrong.
func (s *shelf) do(t work.Task, st work.Stage, straight bool) error {
	if t.FromCup && s.open[t.Vessel] != t.ID {
		return fmt.Errorf("%s is taken out of %s, which holds %q", t.ID, t.Vessel, s.in[t.Vessel])
	}
	s.empty(t.ID)
	switch {
	case t.FromCup:
	case t.Do == work.Weigh && isPot(t.Vessel):
		return s.fill(t.Vessel, "the pot or jug of "+st.Batter, "", false)
	case t.Do == work.Weigh:
		what, until := t.Material+" @ "+t.ID, ""
		switch {
		case st.Kind == work.LyeSolution && strings.HasSuffix(t.Material, "hydroxide"):
			what, until = t.Material+" @ "+st.Batter, st.Batter+"/dissolve"
		case strings.HasSuffix(t.ID, "/cup"):
			until = strings.TrimSuffix(t.ID, "/cup")
		case st.Kind == work.ScentOut, st.Kind == work.ScentPot:
			until = st.Batter + "/" + st.Layer + "/scent in"
		}
		if err := s.fill(t.Vessel, what, t.Hint, straight); err != nil {
			return err
		}
		if s.open[t.Vessel] = until; until == "" { // Tipped in at once.
			delete(s.in, t.Vessel)
			delete(s.open, t.Vessel)
		}
	case t.Do == work.Portion:
		what, until := "batter of "+st.Layer+" @ "+t.ID, t.ID+"/pour"
		if st.Kind == work.SplitLayers {
			layer := strings.TrimSuffix(t.ID, "/part")
			what, until = "batter of "+layer, layer+"/loaf 1/pour"
			s.left[t.Into] = s.loaves
		} else if s.left[t.Vessel]--; s.left[t.Vessel] == 0 {
			delete(s.in, t.Vessel)
		}
		if err := s.fill(t.Into, what, t.Hint, straight); err != nil {
			return err
		}
		if st.Kind != work.SplitLayers || s.loaves == 1 {
			s.open[t.Into] = until
		}
	}
	return nil
}

func isPot(vessel string) bool {
	return strings.Contains(vessel, "pot") || strings.Contains(vessel, "lye jug")
}

// drawWorkshop draws a batch of any layers, pots, scents, colours and vessels.
func drawBatch(t *rapid.T) recipe.Control {
	c := harbour()
	c.Loaves = rapid.IntRange(1, 3).Draw(t, "loaves")
	batter := c.Recipe.Batters[0]
	c.Recipe.Batters, c.Recipe.Layers = nil, nil
	c.Materials = append(c.Materials, recipe.Material{Name: "tar", Kind: recipe.FragranceMaterial, Does: []recipe.Behaviour{recipe.Behaves}},
		recipe.Material{Name: "brine", Kind: recipe.AdditiveMaterial})
	uses := rapid.SliceOfN(rapid.IntRange(0, 2), 1, 4).Draw(t, "batters of the layers")
	for i, at := range uses {
		name := fmt.Sprintf("pot %c", 'a'+at)
		if _, n := c.Recipe.Batter(name); n < 0 {
			b := batter
			b.Name = name
			if rapid.Bool().Draw(t, "additive") {
				b.Additives = []recipe.Additive{{Material: "brine", Rate: quantity.Percent, In: rapid.SampledFrom([]recipe.Medium{recipe.InLyeWater, recipe.InOils, recipe.InBatter}).Draw(t, "in")}}
			}
			c.Recipe.Batters = append(c.Recipe.Batters, b)
		}
		l := recipe.Layer{Name: fmt.Sprintf("layer %d", i), Batter: name, Trace: recipe.MediumTr, Surface: quantity.Length(60*(i+1)/len(uses)) * mm}
		scents := rapid.SliceOfNDistinct(rapid.SampledFrom([]string{"harbour rope", "evening smoke", "tar"}), 0, 2, rapid.ID).Draw(t, "scents")
		where := rapid.SampledFrom([]recipe.Place{recipe.PlaceDerived, recipe.PlaceDerived, recipe.InPot, recipe.InPortions, recipe.InWarmOils}).Draw(t, "where")
		for _, s := range scents {
			l.Scents = append(l.Scents, recipe.Scent{Material: s, Rate: quantity.Percent, Of: recipe.OfOils, Where: where})
		}
		for _, m := range rapid.SliceOfNDistinct(rapid.SampledFrom([]string{"deep blue mica", "dusk violet mica"}), 0, 2, rapid.ID).Draw(t, "colours") {
			l.Colours = append(l.Colours, recipe.Colour{Material: m, Rate: 4 * quantity.GramPerKilo, In: recipe.InOils})
		}
		c.Recipe.Layers = append(c.Recipe.Layers, l)
	}
	for i := range c.Recipe.Layers {
		if l := &c.Recipe.Layers[i]; len(c.Recipe.LayersOf(l.Batter)) > 1 {
			for j := range l.Colours {
				l.Colours[j].In = recipe.InBatter
			}
			if len(l.Scents) > 0 && l.Scents[0].Where == recipe.InWarmOils {
				l.Scents = nil
			}
		}
	}
	c.Vessels = slices.Clone(c.Vessels[:4])
	for i := range rapid.IntRange(0, 6).Draw(t, "jugs") {
		c.Vessels = append(c.Vessels, recipe.Vessel{Name: fmt.Sprintf("can %d", i+1), Kind: recipe.Jug, Tare: 120 * g})
	}
	for i := range rapid.IntRange(1, 9).Draw(t, "cups") {
		c.Vessels = append(c.Vessels, recipe.Vessel{Name: fmt.Sprintf("cup %d", i), Kind: recipe.Cup, Tare: 9 * g})
	}
	return c
}

// TestHoldsOne: whatever the recipe and the workshop, and in whatever order that the plan
// lets through, no vessel gets anything while it holds something else; whoever follows the
// plan is told to wipe what held another thing; and the work comes to its end.
func TestHoldsOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawBatch(t)
		b := begin(c)
		s := &shelf{loaves: c.Loaves, in: map[string]string{}, clings: map[string]string{}, open: map[string]string{}, left: map[string]int{}}
		straight := rapid.Bool().Draw(t, "straight")
		for n := 0; ; n++ {
			p := b.plan()
			open := openTasks(p)
			if n > 400 {
				t.Fatalf("no end in sight: %s", open[0].ID)
			}
			if len(open) == 0 {
				break
			}
			task := open[0]
			if id, ok := p.Next(b.moment()); straight && ok {
				task, _, _ = p.Task(id)
			} else if !straight {
				task = rapid.SampledFrom(open).Draw(t, "task")
			}
			_, st, _ := p.Task(task.ID)
			if st.Kind == work.CleanUp {
				break
			}
			if err := s.do(task, st, straight); err != nil {
				t.Fatalf("%s: %v", task.ID, err)
			}
			f, err := answered(p, task.ID, asAsked(task))
			if err == nil {
				err = judge.Allows(p, f, b.moment())
			}
			if err != nil {
				t.Fatalf("%s: %v", task.ID, err)
			}
			b.put(f)
		}
		for _, st := range b.plan().Stages {
			if st.Kind == work.CleanUp {
				break
			}
			if !st.Done {
				t.Fatalf("%s is not done: %s", st.ID, st.Blocked)
			}
		}
	})
}
