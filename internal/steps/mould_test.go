package steps_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/steps"
	"bench/internal/work"
)

// planIn is the harbour's plan in another mould, its layers by share.
func planIn(m recipe.Mould, surfaces ...quantity.Length) steps.Plan {
	c := harbour()
	c.Mould = m.Inside()
	for i := range c.Recipe.Layers {
		c.Recipe.Layers[i].Embeds, c.Recipe.Layers[i].Surface = nil, surfaces[i]
	}
	return steps.Of(batch.State{Control: c})
}

// pours gives the tasks that pour a layer into the moulds.
func pours(p steps.Plan, layer string) []work.Task {
	var tasks []work.Task
	for _, s := range p.Stages {
		for _, t := range s.Tasks {
			if s.Layer == layer && strings.HasSuffix(t.ID, "/pour") {
				tasks = append(tasks, t)
			}
		}
	}
	return tasks
}

// Where heights mean nothing the pour is in grams alone, cavity by cavity.
func TestCavitiesArePouredByWeight(t *testing.T) {
	p := planIn(recipe.Mould{Name: "scallops", Kind: recipe.CavityMould, Cavities: 6, Volume: 85 * quantity.Millilitre}, 50*mm, 100*mm)
	task := pours(p, "sea")[0]
	l := p.Layers[0]
	each := l.Loaves[0].Mass / 6
	if want := "Mould 1: pour " + each.At(g) + " g into each of 6 cavities"; task.Title != want || task.PourLine != 0 || task.Target != l.Loaves[0].Mass {
		t.Errorf("%+v, want %q", task, want)
	}
	ml := l.Loaves[0].Mass.Grams() / p.Batters[0].Density
	if math.Abs(ml-255) > 2 {
		t.Errorf("half of 6 × 85 ml is %.1f ml", ml)
	}
	if strings.Contains(task.Hint, "mm") || strings.Contains(task.Title, "mm") {
		t.Errorf("heights in %q, %q", task.Title, task.Hint)
	}
}

// A leaning mould: half way up lies less than half of the soap, and the line
// that a pour reaches is what the recipe drew.
func TestLinesInALeaningMould(t *testing.T) {
	m := recipe.Mould{Name: "dinghy", Length: 240 * mm, Width: 90 * mm, Height: 66 * mm, FloorWidth: 50 * mm}
	p := planIn(m, 33*mm, 66*mm)
	for i, want := range []quantity.Length{33 * mm, 66 * mm} {
		if got := p.Layers[i].Loaves[0].PourLine; got < want-mm/4 || got > want+mm/4 {
			t.Errorf("layer %d is poured to %s, drawn at %s", i, got, want)
		}
	}
	// Trapezia of 50 and 70, and of 70 and 90 mm: as 120 to 160.
	ratio := p.Layers[0].Loaves[0].Mass.Grams() / p.Layers[1].Loaves[0].Mass.Grams()
	if math.Abs(ratio-120./160) > 0.01 {
		t.Errorf("the lower half is %.4f of the upper", ratio)
	}
}

// sloped is the harbour with the sea on a slope, a mast that stands in it, and a
// line of mica on it.
func sloped() recipe.Control {
	c := harbour()
	sea := &c.Recipe.Layers[0]
	sea.Propped = recipe.Propping{By: 8 * mm, Side: recipe.LeftSide}
	sea.MicaLine = recipe.Topping{Material: "gold mica", PerLoaf: g / 2}
	sea.Embeds[1].Stood, sea.Embeds[1].Sink = true, 0
	sea.Embeds[1].Sink = quantity.FromMillimetres(sea.Line(c.Mould).Height(58)) // On the floor.
	for i := range c.Materials {
		if c.Materials[i].Name == "gold mica" {
			c.Materials[i].Lot = "GM-1"
		}
	}
	return c
}

func TestSlopedLayerIsSaidAtBothWalls(t *testing.T) {
	c := sloped()
	p := steps.Of(batch.State{Control: c})
	width := c.Mould.Width.Millimetres()
	line := p.Layers[0].Loaves[0].Face.PourLine
	// The slope of a mould propped by 8 mm over its width.
	sin := 8 / width
	if want := sin / math.Sqrt(1-sin*sin); math.Abs(line.Slope-want) > 1e-12 {
		t.Errorf("slope %g, want %g", line.Slope, want)
	}
	left := quantity.FromMillimetres(line.Height(0)).RoundTo(mm / 2)
	right := quantity.FromMillimetres(line.Height(width)).RoundTo(mm / 2)
	task := pours(p, "sea")[0]
	if want := "Loaf 1: pour to " + left.String() + " at the left wall, " + right.String() + " at the right"; task.Title != want {
		t.Errorf("%q, want %q", task.Title, want)
	}
	rim := c.Mould.Height - quantity.FromMillimetres(line.Height(0))
	if want := rim.RoundTo(mm/2).String() + " down from the rim at the left"; !strings.Contains(task.Hint, want) {
		t.Errorf("%q does not say %q", task.Hint, want)
	}
	sea, _, _ := p.Task("sea/sea/prop")
	dusk, _, _ := p.Task("dusk/dusk/prop")
	if sea.Title != "Prop the left side of each mould up by 8 mm" || !strings.HasPrefix(dusk.Title, "Take the props away") {
		t.Errorf("%q, then %q", sea.Title, dusk.Title)
	}
}

// What stands is there before the pour, what is pressed in comes after, and the
// mica after the layer is firm and before the next pour.
func TestOrderRoundThePour(t *testing.T) {
	p := steps.Of(batch.State{Control: sloped()})
	at := map[string]int{}
	after := map[string][]string{}
	for i, s := range p.Stages {
		at[s.ID], after[s.ID] = i+1, s.After
	}
	order := []string{"stand/sea", "pour/sea", "embeds/sea", "firm/sea", "mica line/sea", "combine/dusk"}
	for i, id := range order {
		if at[id] == 0 {
			t.Fatalf("there is no stage %q in %v", id, slices.Sorted(keys(at)))
		}
		if i > 0 && at[id] <= at[order[i-1]] {
			t.Errorf("%q comes before %q", id, order[i-1])
		}
	}
	if !leads(after, "stand/sea", "pour/sea") || !leads(after, "mica line/sea", "combine/dusk") {
		t.Errorf("nothing waits: %v", after)
	}
	if s, _ := p.Stage("oils/sea"); s.Meanwhile {
		t.Error("the first oils are to be weighed while a layer sets that there is not")
	}
	mica, _, ok := p.Task("sea/loaf 2/line/gold mica")
	if !ok || mica.Target != g/2 || mica.Lot != "GM-1" {
		t.Errorf("mica line %+v", mica)
	}
	if out, _, _ := p.Task("set out/gold mica"); out.Target != 3*g {
		t.Errorf("%s of gold mica is set out for the lines and tops of three loaves", out.Target)
	}
	stood, _, _ := p.Task(steps.EmbedTask("sea", 0, "boat"))
	if want := "Loaf 1, boat: stand it in place, lowest point 0 mm above the floor"; stood.Title != want {
		t.Errorf("%q, want %q", stood.Title, want)
	}
}

func keys(m map[string]int) func(func(string) bool) {
	return func(yield func(string) bool) {
		for k := range m {
			if !yield(k) {
				return
			}
		}
	}
}

// leads tells whether a stage waits for another, through others too.
func leads(after map[string][]string, from, to string) bool {
	for _, before := range after[to] {
		if before == from || leads(after, from, before) {
			return true
		}
	}
	return false
}

// The embeds' volumes are theirs: what each layer gives up to them adds up to
// the sticks, and the lifts to the rise from pour line to surface.
func TestDisplacedAddsUp(t *testing.T) {
	c := sloped()
	p := steps.Of(batch.State{Control: c})
	volume := map[string]float64{}
	for i, l := range p.Layers {
		var lift quantity.Length
		for _, d := range p.Displaced(i, 0) {
			volume[d.Embed] += d.Volume.Millilitres()
			lift += d.Lift
			if d.Layer != "sea" {
				t.Errorf("%q is held by %q", d.Embed, d.Layer)
			}
			if (d.Embed == "boat" || i > 0) && d.Lift != 0 {
				t.Errorf("%q stands already and lifts %q by %s", d.Embed, l.Name, d.Lift)
			}
		}
		if rise := l.Loaves[0].Surface - l.Loaves[0].PourLine; lift < rise-2 || lift > rise+2 {
			t.Errorf("%q rises by %s, its embeds lift it by %s", l.Name, rise, lift)
		}
	}
	length := c.Mould.Length.Millimetres() / 1000
	for name, area := range map[string]float64{"moon": math.Pi * 12 * 12, "boat": 20 * 12} {
		if math.Abs(volume[name]-area*length) > 0.01 {
			t.Errorf("%s takes %.3f ml, it has %.3f", name, volume[name], area*length)
		}
	}
}

// What stays in the pot is its net weight less the portions, and the face of
// each loaf is the recipe's own as long as nothing is off.
func TestLeftAndFace(t *testing.T) {
	c := sloped()
	p := steps.Of(batch.State{Control: c})
	drawn := c.Face()
	for i, l := range p.Layers {
		gross, _, _ := p.Task(l.Batter + "/" + l.Name + "/gross")
		sum := quantity.Mass(0)
		for loaf := range l.Loaves {
			portion, _, _ := p.Task(l.Batter + "/" + l.Name + "/loaf " + string(rune('1'+loaf)))
			sum += portion.Target
		}
		if l.Left != gross.Target-gross.Tare-sum || l.Left < c.LeftInVessel || l.LeftReads != gross.Tare+l.Left || l.LeftIn != gross.Vessel {
			t.Errorf("%s: %s left in %s, reading %s; net %s in portions of %s", l.Name, l.Left, l.LeftIn, l.LeftReads, gross.Target-gross.Tare, sum)
		}
		for loaf := range l.Loaves {
			face := p.Face(loaf)
			if off := face.Layers[i].Surface.At - drawn.Layers[i].Surface.At; math.Abs(off) > 0.2 {
				t.Errorf("%s, loaf %d: finished %.2f mm off what is drawn", l.Name, loaf+1, off)
			}
			if len(face.Layers[i].Embeds) != len(drawn.Layers[i].Embeds) {
				t.Errorf("%s: %d embeds on the face", l.Name, len(face.Layers[i].Embeds))
			}
		}
	}
	if none := p.Face(7); len(none.Layers) != 0 {
		t.Errorf("an eighth loaf has layers: %v", none.Layers)
	}
}
