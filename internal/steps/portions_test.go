package steps_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/sample"
)

// TestSplitFollowsTheGross: the portions come from what the pot really weighs.
func TestSplitFollowsTheGross(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/sea/gross")
	b.typed(t, "sea/sea/gross", "2463.7") // pot of 640 g: net 1823.7, and 20 stays
	want := []quantity.Mass{601_300, 601_200, 601_200}
	stop := []string{"1862.4", "1261.2", "660.0"}
	for loaf := range 3 {
		id := fmt.Sprintf("sea/sea/loaf %d", loaf+1)
		task := b.task(t, id)
		if task.Target != want[loaf] || task.StopAt.At(task.Reads) != stop[loaf] {
			t.Errorf("loaf %d: %v down to %v; want %v down to %s", loaf+1, task.Target, task.StopAt, want[loaf], stop[loaf])
		}
	}
}

// TestPortionThatCameOutDifferent moves the others, and all add up.
func TestPortionThatCameOutDifferent(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/sea/gross")
	b.typed(t, "sea/sea/gross", "2463.7")
	b.typed(t, "sea/sea/loaf 1", "1842.4") // poured 621.3 instead of 601.3
	if m := b.task(t, "sea/sea/loaf 1").Mass; m != 621_300 {
		t.Fatalf("poured %v", m)
	}
	second, third := b.task(t, "sea/sea/loaf 2"), b.task(t, "sea/sea/loaf 3")
	if second.Target != 591_200 || third.Target != 591_200 || third.StopAt != 660_000 {
		t.Errorf("%v and %v down to %v", second.Target, third.Target, third.StopAt)
	}
	b.asked(t, "sea/sea/loaf 2")
	b.asked(t, "sea/sea/loaf 3")
	loaves := b.plan().Layers[0].Loaves
	if loaves[0].Mass != 601_300 || loaves[1].Mass != 571_200 || loaves[0].Surface <= loaves[1].Surface {
		t.Errorf("%+v", loaves)
	}
}

// TestScentOfAPortion follows its real weight: less or more than its cup holds, beyond
// what the portion's tolerance of 2 g and the cup's scale leave open.
func TestScentOfAPortion(t *testing.T) {
	for _, c := range []struct {
		name, reading, hint string
		grams               float64
	}{
		{"as asked", "1828", "All that is in the cup.", 30.6 * 576.5 / 1749.5},
		{"within its tolerance", "1830", "All that is in the cup.", 30.6 * 576.5 / 1749.5},
		{"a little less", "1838", "Of cup 1: ", 30.6 * 566.5 / 1749.5},
		{"much less", "1948", "Of cup 1: ", 30.6 * 456.5 / 1749.5},
		{"much more", "1698", "All of cup 1 (10.08 g) and ", 30.6 * 706.5 / 1749.5},
	} {
		b := begin(harbour())
		b.workTo(t, "dusk/dusk/loaf 1")
		b.typed(t, "dusk/dusk/loaf 1", c.reading) // of 2404.5
		task := b.task(t, "dusk/dusk/loaf 1/evening smoke")
		if !strings.HasPrefix(task.Hint, c.hint) || math.Abs(task.Target.Grams()-c.grams) > 0.006 {
			t.Errorf("%s: %v, %q; want %.2f g, %q", c.name, task.Target, task.Hint, c.grams, c.hint)
		}
		if off := task.Target - 10_080; off != 0 && !strings.Contains(task.Hint, abs(off).At(task.Reads)+" g") || !strings.HasSuffix(task.Hint, "pour at once.") {
			t.Errorf("%s: off by %v, and %q", c.name, off, task.Hint)
		}
	}
}

// TestPartOfASharedPot: a layer that got more of the pot gets more colour and
// scent, and its sister less.
func TestPartOfASharedPot(t *testing.T) {
	// What stays in the jug takes no scent when each portion is scented.
	for place, within := range map[recipe.Place]float64{recipe.InPot: 0.006, recipe.InPortions: 0.025} {
		c := sample.Control(t, "tide-lines.yaml", 3)
		for i := range c.Recipe.Layers {
			c.Recipe.Layers[i].Scents[0].Where = place
		}
		b := begin(c)
		b.workTo(t, "tide/low water/part")
		planned := figuresOf(b.plan())
		part := b.task(t, "tide/low water/part")
		b.typed(t, part.ID, (part.StopAt - 120*g).At(part.Reads)) // 13 % more
		b.asked(t, "tide/half tide/part")
		b.asked(t, "tide/high water/part")
		got := b.plan()
		for i, ratio := range []float64{1020.0 / 900, 839.0 / 899, 840.0 / 900} {
			was, is := planned.Layers[i], got.Layers[i]
			for _, f := range [][2]quantity.Mass{
				{was.Colours[0].Target, is.Colours[0].Target}, {was.Scents[0].Target, is.Scents[0].Target}, {was.Oils, is.Oils},
			} {
				if math.Abs(f[1].Grams()/f[0].Grams()-ratio) > within {
					t.Errorf("%s, %s: %v became %v, want ×%.3f", place, is.Name, f[0], f[1], ratio)
				}
			}
		}
	}
}

// TestPortionInTwoGoes: the second reading counts from the first, not from the
// full pot.
func TestPortionInTwoGoes(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "dusk/dusk/loaf 1")
	if err := b.say("dusk/dusk/loaf 1", judge.Answer{How: batch.Typed, Text: "2104.5", More: true}); err != nil {
		t.Fatal(err)
	}
	b.typed(t, "dusk/dusk/loaf 1", "1828")
	if task := b.task(t, "dusk/dusk/loaf 1"); !task.Done || task.Mass != 576_500 {
		t.Errorf("%v poured, done %v", task.Mass, task.Done)
	}
}
