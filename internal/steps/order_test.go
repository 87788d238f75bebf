package steps_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/recipe"
	"bench/internal/sample"
	"bench/internal/steps"
)

// TestOrderOfTwoBatters: the stages of a two-batter, three-loaf recipe, with
// the base scented in the pot and the sky portion by portion.
func TestOrderOfTwoBatters(t *testing.T) {
	order(t, sample.Control(t, "lighthouse-at-dusk.yaml", 3), `
		set out                     set out
		lye/sea                     lye solution
		lye/dusk                    lye solution
		oils/sea                    oils
		colour/base                 colour the oils
		cups/base                   weigh out the scent
		gate/sea                    temperature gate
		combine/sea                 lye solution into the oils
		trace/sea                   trace
		scent/base                  scent the pot
		split/base                  split
		pour/base                   pour
		hold/base                   wait until embeds stay put
		embeds/base                 embeds
		firm/base                   wait until firm
		oils/dusk                   oils, meanwhile
		colour/sky                  colour the oils, meanwhile
		cups/sky                    weigh out the scent, meanwhile
		gate/dusk                   temperature gate
		combine/dusk                lye solution into the oils
		trace/dusk                  trace
		split/sky                   split
		pour 1/sky                  scent and pour
		pour 2/sky                  scent and pour
		pour 3/sky                  scent and pour
		texture                     texture
		cover                       cover
		clean up                    clean up
		gel                         gel
		unmould                     unmould
		cut                         cut
		bars                        weigh the bars
		cure                        cure
		release test                release test
		release                     release`)
}

// TestOrderOfOnePot: three layers from one pot, without embeds.
func TestOrderOfOnePot(t *testing.T) {
	order(t, sample.Control(t, "tide-lines.yaml", 3), `
		set out                     set out
		lye/tide                    lye solution
		oils/tide                   oils
		wet/low water               wet the colours
		wet/half tide               wet the colours
		wet/high water              wet the colours
		gate/tide                   temperature gate
		combine/tide                lye solution into the oils
		trace/tide                  trace
		layers/tide                 split by layer
		colour/low water            colour the batter
		scent/low water             scent the pot
		split/low water             split
		pour/low water              pour
		firm/low water              wait until firm
		colour/half tide            colour the batter, meanwhile
		scent/half tide             scent the pot
		split/half tide             split
		pour/half tide              pour
		firm/half tide              wait until firm
		colour/high water           colour the batter, meanwhile
		scent/high water            scent the pot
		split/high water            split
		pour/high water             pour
		texture                     texture
		cover                       cover
		clean up                    clean up
		gel                         gel
		unmould                     unmould
		cut                         cut
		bars                        weigh the bars
		cure                        cure
		release test                release test
		release                     release`)
}

// order compares the stages with lines of id and kind.
func order(t *testing.T, c recipe.Control, lines string) {
	t.Helper()
	var want, got []string
	for line := range strings.Lines(lines) {
		if line = strings.TrimSpace(line); line != "" {
			id, kind, _ := strings.Cut(line, "  ")
			want = append(want, id+": "+strings.TrimSpace(kind))
		}
	}
	p := steps.Of(batch.State{Control: c})
	for i, s := range p.Stages {
		kind := string(s.Kind)
		if s.Meanwhile {
			kind += ", meanwhile"
		}
		got = append(got, s.ID+": "+kind)
		if s.N != i+1 || s.Title == "" || s.Why == "" || len(s.Tasks) == 0 {
			t.Errorf("%s: number %d, title %q, because %q, %d tasks", s.ID, s.N, s.Title, s.Why, len(s.Tasks))
		}
	}
	if !slices.Equal(got, want) {
		t.Errorf("the stages are\n%s\nand should be\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

// TestEveryWaitIsForAnEarlierStage: nothing waits for itself or for what comes
// later, so that the work can always go on.
func TestEveryWaitIsForAnEarlierStage(t *testing.T) {
	for name, design := range designs(t) {
		seen := map[string]bool{"": true}
		for _, s := range steps.Of(batch.State{Control: design(3)}).Stages {
			for _, after := range s.After {
				if !seen[after] {
					t.Errorf("%s: %s waits for %q, which does not come before it", name, s.ID, after)
				}
			}
			seen[s.ID] = true
		}
	}
}

// TestHardOilsFirst: hard oils by falling melting point, then the melting, then
// the liquid ones.
func TestHardOilsFirst(t *testing.T) {
	p := steps.Of(batch.State{Control: harbour()})
	s, _ := p.Stage("oils/sea")
	var ids []string
	for _, task := range s.Tasks {
		ids = append(ids, task.ID)
	}
	if want := []string{"sea/shea", "sea/coconut", "sea/melt", "sea/olive", "sea/castor"}; !slices.Equal(ids, want) {
		t.Errorf("%v, want %v", ids, want)
	}
	c := harbour()
	for i := range c.Oils {
		c.Oils[i].Hard = false
	}
	if _, _, ok := steps.Of(batch.State{Control: c}).Task("sea/melt"); ok {
		t.Error("nothing is to be melted where all oils are liquid")
	}
	for i := range c.Oils {
		c.Oils[i].Hard = true
	}
	s, _ = steps.Of(batch.State{Control: c}).Stage("oils/sea")
	if last := s.Tasks[len(s.Tasks)-1]; last.ID != "sea/melt" {
		t.Errorf("all oils are hard and the last task is %s", last.ID)
	}
}

// TestPourLineThreeWays: from the floor, down from the rim and in grams.
func TestPourLineThreeWays(t *testing.T) {
	p := steps.Of(batch.State{Control: harbour()})
	task, _, _ := p.Task("sea/sea/loaf 2/pour")
	l := p.Layers[0].Loaves[1]
	for _, want := range []string{"29.5 mm", "45.5 mm", fmt.Sprintf("%s g", l.Mass.At(g))} {
		if !strings.Contains(task.Title+" "+task.Hint, want) {
			t.Errorf("no %s in %q, %q", want, task.Title, task.Hint)
		}
	}
	if l.PourLine+l.Rim != harbour().Mould.Height {
		t.Errorf("%v and %v are not the mould's height", l.PourLine, l.Rim)
	}
}

// TestCautions: lye burns, and what there is to say is said where it matters.
func TestCautions(t *testing.T) {
	p := steps.Of(batch.State{Control: harbour()})
	for id, want := range map[string]string{
		"set out/protection":   "First aid is water, at once and long; never vinegar",
		"sea/water":            "alkali goes into water, never water into alkali",
		"sea/sodium hydroxide": "Gloves, goggles, sleeves",
		"sea/dissolve":         "do not breathe it in",
		"sea/combine":          "goggles on",
		"unmould/loaf 1":       "Gloves on",
		"clean up/gloves":      "Wash hands",
	} {
		if task, _, ok := p.Task(id); !ok || !strings.Contains(task.Hint, want) {
			t.Errorf("%s says %q, not %q", id, task.Hint, want)
		}
	}
	if s, _ := p.Stage("clean up"); s.Tasks[0].ID != "clean up/hydroxide" || s.Tasks[len(s.Tasks)-1].ID != "clean up/gloves" || !s.Ordered {
		t.Error("the hydroxide is put away first, and the gloves come off last")
	}
}

// TestVessels: the pot stays on its scale, dry alkali has its own cup, each loaf
// keeps its jug, and the two look-alike lye jugs are never the same.
func TestVessels(t *testing.T) {
	p := steps.Of(batch.State{Control: harbour()})
	for id, want := range map[string][2]string{
		"sea/olive":             {"pot 1", "bench scale"},
		"dusk/olive":            {"pot 2", "bench scale"},
		"sea/water":             {"lye jug 1", "bench scale"},
		"dusk/water":            {"lye jug 2", "bench scale"},
		"sea/sodium hydroxide":  {"alkali cup", "bench scale"},
		"dusk/sodium hydroxide": {"alkali cup", "fine scale"},
		"sea/sea/gross":         {"pot 1", "bench scale"},
		"sea/sea/harbour rope":  {"cup 1", "fine scale"},
	} {
		task, _, ok := p.Task(id)
		if !ok || task.Vessel != want[0] || task.Scale != want[1] {
			t.Errorf("%s: %s on the %s, want %s on the %s", id, task.Vessel, task.Scale, want[0], want[1])
		}
	}
	for loaf := 1; loaf <= 3; loaf++ {
		for _, layer := range []string{"sea/sea", "dusk/dusk"} {
			task, _, _ := p.Task(fmt.Sprintf("%s/loaf %d", layer, loaf))
			if want := fmt.Sprintf("jug %d", loaf); task.Into != want {
				t.Errorf("%s goes into %s, want %s", task.ID, task.Into, want)
			}
		}
	}
}

// TestCoarseScaleIsSaidOnce: a scale that cannot hold a tolerance is named at
// the setting out.
func TestCoarseScaleIsSaidOnce(t *testing.T) {
	c := harbour()
	c.Scales = []recipe.Scale{{Name: "kitchen scale", Reads: 5 * g, Max: 10_000 * g}}
	p := steps.Of(batch.State{Control: c})
	said := 0
	for _, w := range p.Warnings {
		if strings.Contains(w, "sodium hydroxide for sea") && strings.Contains(w, "finer than 5 g") {
			said++
		}
	}
	if said != 1 {
		t.Errorf("%q", p.Warnings)
	}
	if w := steps.Of(batch.State{Control: harbour()}).Warnings; len(w) > 0 {
		t.Errorf("%q", w)
	}
}
