package steps_test

import (
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/cut"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/steps"
)

// withSticks gives the harbour with its moons cut from sticks of 150 mm.
func withSticks(t *testing.T, sticks int) recipe.Control {
	t.Helper()
	c := harbour()
	order := c.Cutting.Order(c.Mould.Along(), c.Loaves, 1)
	order.Sticks = []cut.Stick{{Lot: "M-12", Length: 150 * quantity.Millimetre, Count: sticks}}
	plan, err := cut.Solve(order)
	if err != nil {
		t.Fatal(err)
	}
	c.Sticks = []recipe.StickPlan{{Stick: "moon", Embeds: []recipe.StickEmbed{{Layer: "sea", Embed: "moon"}}, Plan: plan}}
	return c
}

func TestSticksAreSetOutCutAndLaid(t *testing.T) {
	c := withSticks(t, 12)
	p := steps.Of(batch.State{Control: c})
	if _, _, ok := p.Task("set out/sea/moon"); ok {
		t.Error("the moon is asked for by length as well")
	}
	if _, _, ok := p.Task("set out/sea/boat"); !ok {
		t.Error("the boat, of which no stick is planned, is not asked for")
	}
	first, _, ok := p.Task("set out/moon/stick 1")
	piece := c.Sticks[0].Plan.Sticks[0].Pieces[0]
	if !ok || !strings.Contains(first.Title, "lot M-12: cut 1a "+piece.Length.String()) {
		t.Errorf("%+v", first)
	}
	for loaf, placed := range c.Sticks[0].Plan.Loaves {
		task, _, ok := p.Task(steps.EmbedTask("sea", loaf, "moon"))
		if !ok || !strings.HasPrefix(task.Hint, "From the marked end: ") {
			t.Fatalf("%+v", task)
		}
		at := 0
		for _, piece := range placed.Rows[0].Pieces {
			next := strings.Index(task.Hint[at:], piece.Label()+" "+piece.Length.String())
			if next < 0 {
				t.Errorf("%q does not name %s in its order", task.Hint, piece.Label())
			}
			at += max(0, next)
		}
	}
}

func TestALoafWithoutSticksIsSaid(t *testing.T) {
	p := steps.Of(batch.State{Control: withSticks(t, 4)})
	task, _, _ := p.Task(steps.EmbedTask("sea", 2, "moon"))
	if !strings.HasPrefix(task.Hint, "No stick is planned for this loaf.") {
		t.Errorf("%q", task.Hint)
	}
}
