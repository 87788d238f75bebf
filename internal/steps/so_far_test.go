package steps_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/steps"
	"bench/internal/work"
)

// table is what somebody sees who weighs: how heavy what stands in each vessel is. It
// shares no code with the planner.
type table struct {
	in    map[string]quantity.Mass
	waits map[string][]string // waits maps the task that empties vessels to them.
	into  map[string]string   // into is where that goes which waits in a vessel.
}

// stands says what a weighing finds in its vessel, or an error.
func (s *table) stands(t work.Task) error {
	if t.Do != work.Weigh || t.FromCup || t.OfBatter() {
		return nil
	}
	if want := s.in[t.Vessel]; t.SoFar != want {
		return fmt.Errorf("%s: %s holds %s g, and the plan says %s g so far", t.ID, t.Vessel, want, t.SoFar)
	}
	return nil
}

// do puts what was weighed where the task says.
func (s *table) do(t work.Task, st work.Stage, f batch.Fact) {
	for _, vessel := range s.waits[t.ID] {
		if s.in[s.into[vessel]] += s.in[vessel]; s.into[vessel] == "" {
			delete(s.in, "")
		}
		delete(s.in, vessel)
	}
	delete(s.waits, t.ID)
	w, ok := f.(batch.Weighed)
	if !ok || t.FromCup || t.Do != work.Weigh {
		return
	}
	s.in[t.Vessel] += w.Mass
	if w.More && t.Parts < 2 {
		return
	}
	until := ""
	switch {
	case t.Parts < 2 && st.Kind == work.LyeSolution && strings.HasSuffix(t.Material, "hydroxide") && !isPot(t.Vessel):
		until = st.Batter + "/dissolve"
	case strings.HasSuffix(t.ID, "/cup"):
		until = strings.TrimSuffix(t.ID, "/cup")
	case st.Kind == work.ScentOut, st.Kind == work.ScentPot:
		until = st.Batter + "/" + st.Layer + "/scent in"
	case t.Into == "" && isPot(t.Vessel):
		return
	default: // Tipped in at once.
		if t.Into != "" {
			s.in[t.Into] += s.in[t.Vessel]
		}
		delete(s.in, t.Vessel)
		return
	}
	if s.into[t.Vessel] = t.Into; !slices.Contains(s.waits[until], t.Vessel) {
		s.waits[until] = append(s.waits[until], t.Vessel)
	}
}

// drawScales draws what is weighed on, and whether the alkali is one or two.
func drawScales(t *rapid.T, c *recipe.Control) {
	reads := rapid.SliceOfNDistinct(rapid.SampledFrom([]quantity.Mass{g / 100, g / 10, g}), 1, 3, rapid.ID).Draw(t, "scales")
	c.Scales = nil
	for _, r := range reads {
		most := rapid.SampledFrom([]quantity.Mass{200 * g, 3_000 * g, 9_000 * g}).Draw(t, "carries")
		c.Scales = append(c.Scales, recipe.Scale{Name: "scale to " + r.String(), Reads: r, Max: most})
	}
	if rapid.Bool().Draw(t, "two alkalis") {
		c.Materials = append(c.Materials, recipe.Material{Name: recipe.PotassiumHydroxide, Kind: recipe.AlkaliMaterial, Purity: 900_000})
		for i := range c.Recipe.Batters {
			c.Recipe.Batters[i].Alkali = []recipe.AlkaliShare{
				{Material: recipe.SodiumHydroxide, Share: 90 * quantity.Percent}, {Material: recipe.PotassiumHydroxide, Share: 10 * quantity.Percent},
			}
		}
	}
}

// TestSoFar: whatever the recipe, the vessels and the scales, and in whatever order and in
// how many containers, what a weighing says to be in its vessel is what was weighed into it
// since it was emptied last; and dry hydroxide is in the cup that takes nothing else.
func TestSoFar(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawBatch(t)
		drawScales(t, &c)
		b := begin(c)
		s := &table{in: map[string]quantity.Mass{}, waits: map[string][]string{}, into: map[string]string{}}
		dry := c.Vessels[slices.IndexFunc(c.Vessels, func(v recipe.Vessel) bool { return v.Kind == recipe.Cup })].Name
		carried := slices.ContainsFunc(c.Scales, func(s recipe.Scale) bool { return s.Max == 9_000*g })
		for n := 0; ; n++ {
			b.reads()
			p := b.plan()
			open := openTasks(p)
			if n > 600 || len(open) == 0 {
				t.Fatalf("no end in sight: %d tasks are open", len(open))
			}
			task := rapid.SampledFrom(open).Draw(t, "task")
			if id, ok := p.Next(b.moment()); ok && !carried { // What stands on a small scale by the plan's order may be too much in another.
				task, _, _ = p.Task(id)
			}
			_, st, _ := p.Task(task.ID)
			if st.Kind == work.Gate || st.Kind == work.CleanUp { // From here on all goes by the weight of the whole.
				task = open[0]
			}
			if _, st, _ = p.Task(task.ID); st.Kind == work.CleanUp {
				return
			}
			for _, o := range open {
				if err := s.stands(o); err != nil {
					t.Fatal(err)
				}
			}
			caustic := strings.HasSuffix(task.Material, "hydroxide")
			if st.Kind == work.LyeSolution && task.Do == work.Weigh && caustic != (task.Vessel == dry) && !tooMuchFor(c, p, st.Batter) {
				t.Fatalf("%s is weighed into %s", task.ID, task.Vessel)
			}
			f, err := weighedInParts(t, p, task)
			if err != nil {
				t.Fatalf("%s: %v", task.ID, err)
			}
			b.put(f)
			s.do(task, st, f)
		}
	})
}

// tooMuchFor says that no scale carries all dry alkali of a batter in its cup.
func tooMuchFor(c recipe.Control, p steps.Plan, batter string) bool {
	all := 30 * g // The cup, and what a scale may be off by.
	for _, a := range batterOf(p, batter).Alkali {
		all += a.Mass
	}
	return !slices.ContainsFunc(c.Scales, func(s recipe.Scale) bool { return s.Max >= all })
}

// weighedInParts answers as asked, or says now and then that a container brought a third.
func weighedInParts(t *rapid.T, p steps.Plan, task work.Task) (batch.Fact, error) {
	f, err := answered(p, task.ID, asAsked(task))
	w, weighed := f.(batch.Weighed)
	if third := (task.Remaining() / 3).RoundTo(max(1, task.Reads)); weighed && !task.FromCup && task.Do == work.Weigh && third > 0 && task.Mass == 0 && rapid.IntRange(0, 5).Draw(t, "in parts") == 0 {
		w.Mass, w.How, w.More = third, batch.Typed, true
		f = w
	}
	if err == nil && f != nil {
		err = judge.Allows(p, f, p.State().Entries[len(p.State().Entries)-1].At)
	}
	return f, err
}
