package steps_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/say"
	"bench/internal/steps"
)

// TestLeftOutEmbedTakesNoRoom: by plain arithmetic. A circle of 24 mm along a
// loaf of 250 mm is 113.1 ml, and the floor of 80 × 250 mm takes 20 ml to the
// mm: the loaf without it gets 113.1 ml more of the next layer, and all of them
// end at the same height.
func TestLeftOutEmbedTakesNoRoom(t *testing.T) {
	b := begin(harbour())
	moon := steps.EmbedTask("sea", 1, "moon")
	b.workTo(t, moon)
	before := b.plan()
	b.allows(t, batch.Skipped{Task: moon, Reason: "it broke"})
	p := b.plan()
	if face := p.Layers[0].Loaves; !face[1].Face.Embeds[0].Out || face[1].Face.Embeds[1].Out || face[0].Face.Embeds[0].Out {
		t.Error("another embed is out, or none")
	}
	sea := p.Layers[0].Loaves
	if sea[1].PourLine != before.Layers[0].Loaves[1].PourLine || sea[1].Surface >= sea[0].Surface {
		t.Errorf("poured to %s and ends at %s; the others at %s", sea[1].PourLine, sea[1].Surface, sea[0].Surface)
	}
	const moonML = math.Pi * 12 * 12 * 250 / 1000
	dusk := p.Layers[1].Loaves
	if off := (dusk[1].Surface - dusk[0].Surface).Millimetres(); math.Abs(off) > 0.1 {
		t.Errorf("loaf 2 ends at %s, loaf 1 at %s", dusk[1].Surface, dusk[0].Surface)
	}
	all := 0.0
	for i := range dusk {
		all += dusk[i].Mass.Grams() + p.Layers[0].Loaves[i].Mass.Grams()
	}
	whole := 0.0
	for i := range dusk {
		whole += before.Layers[1].Loaves[i].Mass.Grams() + before.Layers[0].Loaves[i].Mass.Grams()
	}
	if math.Abs(all-whole) > 0.5 {
		t.Errorf("%.1f g in the moulds, %.1f g before", all, whole)
	}
	extra := (dusk[1].Mass - dusk[0].Mass).Grams() / p.Batters[1].Density
	if math.Abs(extra-moonML) > 0.02*moonML { // Its batter has colour and scent in it, too.
		t.Errorf("loaf 2 gets %.1f ml more, and the moon is %.1f ml", extra, moonML)
	}
	loaves, others := p.Poured().Loaves, before.Poured().Loaves
	lost := (others[0] + others[1] + others[2] - loaves[0] - loaves[1] - loaves[2]).Grams()
	if want := moonML * recipe.DefaultDoughDensity; math.Abs(lost-want) > 1 {
		t.Errorf("the moulds hold %.1f g less, and the moon is %.1f g", lost, want)
	}
}

// TestPourLineFollowsTheEmbed: what a loaf gets that goes without an embed comes
// to lie lower by the embed's volume over the floor.
func TestPourLineFollowsTheEmbed(t *testing.T) {
	c := harbour()
	c.Recipe.LoafShares = []int64{1, 1, 1} // As the recipe states, whatever lies below.
	b := begin(c)
	moon := steps.EmbedTask("sea", 1, "moon")
	b.workTo(t, moon)
	b.allows(t, batch.Skipped{Task: moon, Reason: "it broke"})
	dusk := b.plan().Layers[1].Loaves
	if dusk[0].Mass != dusk[1].Mass {
		t.Fatalf("%s and %s", dusk[0].Mass, dusk[1].Mass)
	}
	want := math.Pi * 12 * 12 * 250 / (80 * 250.0)
	if got := (dusk[0].PourLine - dusk[1].PourLine).Millimetres(); math.Abs(got-want) > 0.01 {
		t.Errorf("lower by %.2f mm, and the moon lifts by %.2f mm", got, want)
	}
}

// TestSharesEvenOutLoaves: a loaf that got 40 g less of the layer below gets as
// much more by volume of the next, and a gram or two changes nothing.
func TestSharesEvenOutLoaves(t *testing.T) {
	for off, even := range map[quantity.Mass]bool{40 * g: false, g: true} {
		b := begin(harbour())
		b.workTo(t, "sea/sea/loaf 1")
		portion := b.task(t, "sea/sea/loaf 1")
		b.typed(t, portion.ID, (portion.SoFar - portion.Target + off).At(portion.Reads))
		b.workTo(t, steps.EmbedTask("sea", 0, "moon"))
		p := b.plan()
		sea, dusk := p.Layers[0].Loaves, p.Layers[1].Loaves
		less, more := sea[1].Mass-sea[0].Mass, dusk[0].Mass-dusk[1].Mass
		if moved := say.Portions(p); even != (len(moved) == 0) || !even && !strings.Contains(moved[0].Words, "40.0 g under (asked") {
			t.Errorf("%s under: %+v", off, moved)
		}
		if even {
			if more.Abs() > g {
				t.Errorf("%s less and %s more", less, more)
			}
			continue
		}
		if less < 40*g || (dusk[0].Surface-dusk[1].Surface).Millimetres() > 0.2 {
			t.Errorf("%s less; they end at %s and %s", less, dusk[0].Surface, dusk[1].Surface)
		}
		want := less.Grams() / p.Batters[0].Density * p.Batters[1].Density
		if math.Abs(more.Grams()-want) > 0.02*want {
			t.Errorf("%.1f g more, not %.1f g", more.Grams(), want)
		}
	}
}

// TestEveryPortionThatWasOffIsNamed: how to go on names the loaf that was poured over and
// the one that got too little, whichever was the last, and none that was within its
// tolerance of 2 g.
func TestEveryPortionThatWasOffIsNamed(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/sea/loaf 1")
	for loaf, off := range []quantity.Mass{19_200, -1_000, -9_600} {
		portion := b.task(t, fmt.Sprintf("sea/sea/loaf %d", loaf+1))
		b.typed(t, portion.ID, (portion.SoFar - portion.Target - off).At(portion.Reads))
		settled := say.Settled(b.plan())
		for words, want := range map[string]bool{
			"Portion for loaf 1 19.2 g over (asked": true, "Portion for loaf 2 1.0 g": false, "Portion for loaf 3 9.6 g under (asked": loaf == 2,
		} {
			if strings.Contains(settled, words) != want {
				t.Errorf("loaf %d: %q is said %t: %s", loaf+1, words, !want, settled)
			}
		}
	}
}
