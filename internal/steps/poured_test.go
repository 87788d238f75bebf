package steps_test

import (
	"math"
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/quantity"
	"bench/internal/readback"
	"bench/internal/recipe"
)

// TestPouredWeightIsKept: 30 g less than asked in the first mould. By plain arithmetic the
// layer lies lower there by 30 g over its density over 80 × 250 mm, 30 g more stay in its
// jug, and of the next layer that loaf gets as much more by volume, so that all end at
// one height. Who weighs nothing says so with the same one key.
func TestPouredWeightIsKept(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/sea/loaf 1/pour")
	before := b.plan().Layers[0].Loaves
	asked := b.task(t, "sea/sea/loaf 1/pour").Target
	less := asked - 30*g
	b.typed(t, "sea/sea/loaf 1/pour", less.At(quantity.Gram/10))
	b.asked(t, "sea/sea/loaf 2/pour") // Ticked.
	b.asked(t, "sea/sea/loaf 3/pour")
	sea := b.plan().Layers[0].Loaves
	if sea[0].Mass != less || sea[1].Mass != before[1].Mass {
		t.Errorf("%s and %s in the moulds, asked %s", sea[0].Mass, sea[1].Mass, asked)
	}
	want := 30 / b.plan().Batters[0].Density * 1000 / (80 * 250)
	if got := (before[0].Surface - sea[0].Surface).Millimetres(); math.Abs(got-want) > 0.05*want {
		t.Errorf("lower by %.2f mm, by hand %.2f mm", got, want)
	}
	task := b.task(t, "sea/sea/loaf 1/pour")
	stays := 20*g + 30*g
	if !strings.HasPrefix(task.Title, "Loaf 1: poured to ") || task.Mass != less || task.Target != asked || !strings.Contains(task.Hint, stays.At(g)+" g stay in jug 1") {
		t.Errorf("%+v", task)
	}
	lines := readback.Of(b.plan(), "pour/sea/read back")
	if len(lines) != 3 || lines[0].Was != less.At(g)+" g" || !strings.HasPrefix(lines[0].By, stays.At(g)+" g stay") || lines[1].Was != "poured" {
		t.Errorf("%+v", lines)
	}
	b.workTo(t, "dusk/dusk/loaf 1")
	dusk := b.plan().Layers[1].Loaves
	more := (dusk[0].Mass - dusk[1].Mass).Grams()
	if want := 30 / b.plan().Batters[0].Density * b.plan().Batters[1].Density; math.Abs(more-want) > 0.05*want+0.5 {
		t.Errorf("%.1f g more of the next layer, by hand %.1f g", more, want)
	}
	if off := (dusk[0].Surface - dusk[1].Surface).Millimetres(); math.Abs(off) > 0.2 {
		t.Errorf("they end %.2f mm apart", off)
	}
	if err := b.work(never); err != nil {
		t.Fatal(err)
	}
	if p := b.plan(); p.Balance.Rest < 50*g || p.Poured().Loaves[0] == 0 {
		t.Errorf("%+v", p.Balance)
	}
}

// TestPouredWeightOfASingleLoaf: what stays in its pot follows.
func TestPouredWeightOfASingleLoaf(t *testing.T) {
	c := harbour()
	c.Loaves = 1
	b := begin(c)
	b.workTo(t, "sea/sea/loaf 1/pour")
	layer := b.plan().Layers[0]
	b.typed(t, "sea/sea/loaf 1/pour", (layer.Mass - 45*g).At(quantity.Gram/10))
	if got := b.plan().Layers[0]; (got.Left-45*g).Abs() > g/10 || got.LeftReads != 640*g+got.Left {
		t.Errorf("%s stay, with the pot %s", got.Left, got.LeftReads)
	}
}

// TestPouredWeightRefused: nothing, more than was there, and what is no pour; far less is
// asked about.
func TestPouredWeightRefused(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/sea/loaf 1/pour")
	jug := b.task(t, "sea/sea/loaf 1/pour").SoFar
	for text, want := range map[string]string{"0": "leave it out (x)", (jug + 20*g).At(g): "more than there was to pour", "x": ""} {
		if err := b.say("sea/sea/loaf 1/pour", judge.Answer{How: batch.Typed, Text: text}); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v", text, err)
		}
	}
	if err := judge.Allows(b.plan(), batch.Ticked{Task: "sea/sea/loaf 1/pour", Mass: -g}, b.moment()); err == nil {
		t.Error("less than nothing was poured")
	}
	for off, asks := range map[quantity.Mass]bool{-20 * g: false, -100 * g: true} {
		f, err := judge.Fact(b.plan(), "sea/sea/loaf 1/pour", judge.Answer{How: batch.Typed, Text: (jug - 20*g + off).At(g)})
		if err != nil {
			t.Fatal(err)
		}
		if doubt := judge.Doubt(b.plan(), f); (doubt != "") != asks {
			t.Errorf("%s off: %q", off, doubt)
		}
	}
}

// TestPouredWeightIsCorrected: by grams, and its time by a time of day; each keeps the
// other, and one that was only ticked gets its weight so.
func TestPouredWeightIsCorrected(t *testing.T) {
	for name, first := range map[string]string{"weighed": "560", "ticked": ""} {
		b := begin(harbour())
		id := "sea/sea/loaf 1/pour"
		b.workTo(t, id)
		if first != "" {
			b.typed(t, id, first)
		} else {
			b.asked(t, id)
		}
		seq := len(b.state.Entries)
		for _, text := range []string{"570", b.state.Entries[seq-1].At.Wall.Format("15:04")} {
			f, err := judge.Correct(b.plan(), b.state, seq, text, "misread")
			if err != nil {
				t.Fatal(name, err)
			}
			b.allows(t, f)
			if text == "570" && b.plan().Layers[0].Loaves[0].Mass != 570*g {
				t.Errorf("%s: corrected, and %s are in the mould", name, b.plan().Layers[0].Loaves[0].Mass)
			}
		}
		for _, text := range []string{"0", "9000", "99:99"} {
			f, err := judge.Correct(b.plan(), b.state, seq, text, "misread")
			if err == nil {
				err = judge.Allows(b.plan(), f, b.moment())
			}
			if err == nil {
				t.Errorf("%s: corrected to %s", name, text)
			}
		}
	}
}

// TestPouredIntoCavities: moulds without heights are poured by weight, keep what was, and
// read it back, which they do of no pour that was not weighed.
func TestPouredIntoCavities(t *testing.T) {
	c := harbour()
	c.Mould = recipe.Mould{Name: "scallops", Kind: recipe.CavityMould, Cavities: 6, Volume: 85 * quantity.Millilitre, Count: 3}.Inside()
	for i := range c.Recipe.Layers {
		c.Recipe.Layers[i].Embeds, c.Recipe.Layers[i].Surface = nil, quantity.Length(i+1)*50*mm
	}
	b := begin(c)
	id := "sea/sea/loaf 1/pour"
	b.workTo(t, id)
	asked := b.task(t, id).Target
	b.typed(t, id, (asked - 12*g).At(g))
	b.workTo(t, "pour/sea/read back")
	if got, lines := b.task(t, id), readback.Of(b.plan(), "pour/sea/read back"); got.Mass != (asked-12*g).RoundTo(g) || len(lines) != 1 || lines[0].Asked != asked.At(g) {
		t.Errorf("%+v, %+v", got, lines)
	}
}
