package steps_test

import (
	"fmt"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/calc"
	"bench/internal/judge"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/sample"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/work"
)

const (
	g  = quantity.Gram
	mm = quantity.Millimetre
)

// harbour is a control recipe of the harbour workshop (invented): two batters
// in two layers with two embeds, for three loaves.
func harbour() recipe.Control {
	oil := func(key, name string, low, high, density, melts float64) recipe.OilUse {
		return recipe.OilUse{Key: key, Name: name, SV: calc.Published(low, high), Density: density, Hard: melts > 0, Melts: melts}
	}
	shares := []recipe.OilShare{
		{Oil: "olive", Share: 45 * quantity.Percent},
		{Oil: "coconut", Share: 30 * quantity.Percent},
		{Oil: "shea", Share: 15 * quantity.Percent},
		{Oil: "castor", Share: 10 * quantity.Percent},
	}
	batter := func(name string) recipe.Batter {
		return recipe.Batter{
			Name: name, Oils: shares, Superfat: 5 * quantity.Percent, MixAt: 35 * quantity.Degree,
			Alkali: []recipe.AlkaliShare{{Material: recipe.SodiumHydroxide, Share: quantity.Whole}},
			Water:  calc.WaterRule{Kind: calc.ByLyeConcentration, Value: 0.33},
		}
	}
	return recipe.Control{
		PlanVersion: recipe.PlanVersion, Loaves: 3,
		Recipe: recipe.Recipe{
			Name: "Harbour light", Loaves: 3, Mould: "loaf mould", Unmould: 24 * time.Hour, Gel: recipe.GelLeft,
			Batters: []recipe.Batter{batter("sea"), batter("dusk")},
			Layers: []recipe.Layer{
				{
					Name: "sea", Batter: "sea", Surface: 34 * mm, Trace: recipe.MediumTr,
					Colours: []recipe.Colour{{Material: "deep blue mica", Rate: 4 * quantity.GramPerKilo, In: recipe.InOils}},
					Scents:  []recipe.Scent{{Material: "harbour rope", Rate: 3 * quantity.Percent, Of: recipe.OfOils}},
					Embeds: []recipe.Embed{
						{Name: "moon", Shape: recipe.Circle, Width: 24 * mm, Height: 24 * mm, Across: 24 * mm, Sink: 8 * mm},
						{Name: "boat", Shape: recipe.Rectangle, Width: 20 * mm, Height: 12 * mm, Across: 58 * mm, Sink: 14 * mm},
					},
				},
				{
					Name: "dusk", Batter: "dusk", Surface: 66 * mm, Trace: recipe.Light,
					Colours: []recipe.Colour{{Material: "dusk violet mica", Rate: 4 * quantity.GramPerKilo, In: recipe.InOils}},
					Scents:  []recipe.Scent{{Material: "evening smoke", Rate: 25 * quantity.GramPerKilo, Of: recipe.OfOils}},
				},
			},
			Top: recipe.Top{Texture: "soft waves", Toppings: []recipe.Topping{{Material: "gold mica", PerLoaf: g / 2}}},
		},
		Mould: recipe.Mould{Name: "loaf mould", Length: 250 * mm, Width: 80 * mm, Height: 75 * mm, Count: 3},
		Scales: []recipe.Scale{
			{Name: "big scale", Reads: g, Max: 10_000 * g},
			{Name: "bench scale", Reads: g / 10, Max: 3_000 * g},
			{Name: "fine scale", Reads: g / 100, Max: 200 * g},
		},
		Vessels: []recipe.Vessel{
			{Name: "pot 1", Kind: recipe.Pot, Tare: 640 * g},
			{Name: "pot 2", Kind: recipe.Pot, Tare: 655 * g},
			{Name: "lye jug 1", Kind: recipe.LyeJug, Tare: 212 * g},
			{Name: "lye jug 2", Kind: recipe.LyeJug, Tare: 209 * g},
			{Name: "jug 1", Kind: recipe.Jug, Tare: 120 * g},
			{Name: "jug 2", Kind: recipe.Jug, Tare: 121 * g},
			{Name: "jug 3", Kind: recipe.Jug, Tare: 119 * g},
			{Name: "alkali cup", Kind: recipe.Cup, Tare: 21 * g},
			{Name: "cup 1", Kind: recipe.Cup, Tare: 9 * g},
			{Name: "cup 2", Kind: recipe.Cup, Tare: 9 * g},
			{Name: "cup 3", Kind: recipe.Cup, Tare: 9 * g},
		},
		Materials: []recipe.Material{
			{Name: recipe.SodiumHydroxide, Kind: recipe.AlkaliMaterial, Lot: "NH-7"},
			{Name: "harbour rope", Kind: recipe.FragranceMaterial, Does: []recipe.Behaviour{recipe.Accelerates}, Limit: 5 * quantity.Percent},
			{Name: "evening smoke", Kind: recipe.FragranceMaterial, Does: []recipe.Behaviour{recipe.Accelerates}, Limit: 4 * quantity.Percent},
			{Name: "deep blue mica", Kind: recipe.ColourMaterial},
			{Name: "dusk violet mica", Kind: recipe.ColourMaterial},
			{Name: "gold mica", Kind: recipe.ToppingMaterial},
		},
		Oils: []recipe.OilUse{
			oil("olive", "Olive oil", 184, 196, 0.91305, 0), oil("coconut", "Coconut oil", 248, 265, 0.92605, 26),
			oil("shea", "Shea butter", 160, 195, 0.92705, 45), oil("castor", "Castor oil", 176, 187, 0.96105, 0),
		},
		LeftInVessel: 20 * g,
	}
}

// bencher works a batch the way a person does, one fact after the other.
type bencher struct {
	state batch.State
	now   time.Time
	boot  string

	planned *steps.Plan // planned is that of the state, once it was asked for.
}

func begin(c recipe.Control) *bencher {
	b := &bencher{now: time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)}
	b.put(batch.Started{Control: c})
	return b
}

func (b *bencher) moment() timer.Moment {
	m := timer.Moment{Wall: b.now, Boot: b.boot}
	if b.boot != "" {
		m.SinceBoot = b.now.Sub(time.Date(2026, 3, 2, 0, 0, 0, 0, time.UTC))
	}
	return m
}

func (b *bencher) put(f batch.Fact) {
	b.now = b.now.Add(30 * time.Second)
	b.state, b.planned = b.state.With(f, b.moment()), nil
}

// reads answers the warnings that nobody has read, each with the figure it asks for.
func (b *bencher) reads() {
	for _, u := range b.plan().Unread {
		f, err := judge.Respond(u, u.Figure)
		if err == nil {
			err = judge.Allows(b.plan(), f, b.moment())
		}
		if err != nil {
			panic(err)
		}
		b.put(f)
	}
}

func (b *bencher) plan() steps.Plan {
	if b.planned == nil {
		p := steps.Of(b.state)
		b.planned = &p
	}
	return *b.planned
}

// asAsked is the answer of a task done exactly as asked.
func asAsked(t work.Task) judge.Answer { return sample.Answer(t) }

// answered gives the fact of an answer; of several, the first.
func answered(p steps.Plan, id string, a judge.Answer) (batch.Fact, error) {
	if t, _, _ := p.Task(id); t.Do == work.Choose {
		return judge.Choices(p, id, "")[0].With("so it is")
	}
	return judge.Fact(p, id, a)
}

// say answers a task, refusing what the plan refuses.
func (b *bencher) say(id string, a judge.Answer) error {
	p := b.plan()
	f, err := answered(p, id, a)
	if err != nil {
		return err
	}
	if err := judge.Allows(p, f, b.moment()); err != nil {
		return err
	}
	b.put(f)
	return nil
}

// work answers whatever is next as asked, until nothing is or until says so.
func (b *bencher) work(until func(work.Task) bool) error {
	for range 1000 {
		p := b.plan()
		id, ok := p.Next(b.moment())
		if !ok {
			return nil
		}
		t, _, _ := p.Task(id)
		if until(t) {
			return nil
		}
		if err := b.say(id, asAsked(t)); err != nil {
			return fmt.Errorf("%s: %w", id, err)
		}
	}
	return fmt.Errorf("no end in sight")
}

func never(work.Task) bool { return false }

// upTo stops the work before a task.
func upTo(id string) func(work.Task) bool {
	return func(t work.Task) bool { return t.ID == id }
}

// workTo works a batch as asked up to a task, which must come.
func (b *bencher) workTo(t *testing.T, id string) {
	t.Helper()
	if err := b.work(upTo(id)); err != nil {
		t.Fatal(err)
	}
	if task := b.task(t, id); task.Done || !task.Open {
		t.Fatalf("the work never came to %s: %s", id, task.Waits)
	}
}

// task finds a task of the plan as it stands.
func (b *bencher) task(t *testing.T, id string) work.Task {
	t.Helper()
	task, _, ok := b.plan().Task(id)
	if !ok {
		t.Fatalf("there is no task %s", id)
	}
	return task
}

// typed answers a task with what was typed.
func (b *bencher) typed(t *testing.T, id, text string) {
	t.Helper()
	if err := b.say(id, judge.Answer{How: batch.Typed, Text: text}); err != nil {
		t.Fatalf("%s: %v", id, err)
	}
}

// asked answers a task as asked.
func (b *bencher) asked(t *testing.T, id string) {
	t.Helper()
	if err := b.say(id, asAsked(b.task(t, id))); err != nil {
		t.Fatalf("%s: %v", id, err)
	}
}

// wait lets time pass.
func (b *bencher) wait(d time.Duration) { b.now = b.now.Add(d) }
