package steps_test

import (
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"reflect"
	"slices"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/calc"
	"bench/internal/judge"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/rest"
	"bench/internal/sample"
	"bench/internal/say"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/work"

	"pgregory.net/rapid"
)

// TestRestartIsTheSame: facts that went through the store fold into the very
// same plan, at every point of a batch with a deviation and a correction.
func TestRestartIsTheSame(t *testing.T) {
	t.Parallel()

	for name, design := range designs(t) {
		b := begin(design(3))
		n := 0
		err := b.work(func(task work.Task) bool {
			if n++; n == 30 && task.Do == work.Weigh {
				b.put(batch.Noted{Stage: "oils", Text: "warm today"})
			}
			return false
		})
		if err != nil {
			t.Fatal(err)
		}
		b.put(batch.TimerPutOff{Timer: rest.UnmouldDue, For: time.Hour})
		for _, e := range b.state.Entries {
			if w, ok := e.Fact.(batch.Weighed); ok && w.How == batch.Typed {
				w.Mass += 3 * g
				b.put(batch.Corrected{Seq: e.Seq, Reason: "read wrong", With: w})
				break
			}
		}
		var kept []batch.Entry
		live := batch.State{}
		for _, e := range b.state.Entries {
			live = live.Apply(e)
			kept = append(kept, stored(t, e))
			if got, want := steps.Of(batch.Fold(kept)), steps.Of(live); !reflect.DeepEqual(got, want) {
				t.Fatalf("%s: after fact %d, %T, the plan read back differs", name, e.Seq, e.Fact)
			}
		}
	}
}

// stored sends an entry through the forms in which the journal keeps it.
func stored(t *testing.T, e batch.Entry) batch.Entry {
	t.Helper()
	kind, body, err := batch.Encode(e.Fact)
	if err != nil {
		t.Fatal(err)
	}
	if e.Fact, err = batch.Decode(kind, body); err != nil {
		t.Fatal(err)
	}
	stamp, err := json.Marshal(e.At)
	if err != nil {
		t.Fatal(err)
	}
	e.At = timer.Moment{}
	if err := json.Unmarshal(stamp, &e.At); err != nil {
		t.Fatal(err)
	}
	return e
}

// drawNonsense draws a fact that no plan need have asked for, about a task that
// there is or is not.
func drawNonsense(t *rapid.T, ids []string, seq int) batch.Fact {
	// Within a thousand tonnes either way, so that no sum leaves int64.
	mass := rapid.Custom(func(t *rapid.T) quantity.Mass {
		return rapid.OneOf(
			rapid.Just(quantity.Mass(0)),
			rapid.Custom(func(t *rapid.T) quantity.Mass { return quantity.Mass(rapid.Int64Range(-1e12, 1e12).Draw(t, "huge")) }),
			rapid.Custom(func(t *rapid.T) quantity.Mass { return quantity.Mass(rapid.Int64Range(0, 2e6).Draw(t, "usual")) }),
		).Draw(t, "mass")
	})
	id := rapid.SampledFrom(ids).Draw(t, "task")
	w := batch.Weighed{
		Task: id, Target: mass.Draw(t, "target"), Mass: mass.Draw(t, "mass"), How: batch.Typed, More: rapid.Bool().Draw(t, "more"),
		Reads: rapid.SampledFrom([]quantity.Mass{0, 10, 100, g}).Draw(t, "reads"), Tare: mass.Draw(t, "tare"),
	}
	gross := batch.Grossed{Task: id, Gross: mass.Draw(t, "gross"), Tare: w.Tare, Reads: w.Reads}
	switch rapid.IntRange(0, 15).Draw(t, "kind") {
	case 10:
		return batch.WeighedIn{Task: id, Bar: "1", Mass: w.Mass, Reads: w.Reads}
	case 11:
		return batch.BarsCut{Task: id, Loaf: int(w.Target % 5), Bars: int(w.Mass % 99), Planned: 8}
	case 12:
		return batch.BarsWeighed{Task: id, Loaf: int(w.Target % 5), Count: int(w.Tare % 9), Mass: w.Mass}
	case 13:
		return batch.SetAside{Task: id, Mass: w.Mass}
	case 14:
		return batch.UnmouldPutOff{Task: id, For: time.Duration(w.Mass)}
	case 15:
		return batch.Released{Task: id}
	case 0:
		return batch.Ticked{Task: id}
	case 1:
		return batch.Skipped{Task: id, Reason: "because"}
	case 2:
		return gross
	case 3:
		return batch.TemperatureTaken{Task: id, Temperature: quantity.Temperature(w.Mass)}
	case 4:
		return batch.TimerSeen{Timer: rapid.SampledFrom([]string{rest.UnmouldDue, "look/sea/firm/1", "look/sea/embeds/1"}).Draw(t, "timer")}
	case 5:
		return batch.TimerPutOff{Timer: rest.UnmouldDue, For: time.Duration(w.Mass)}
	case 6:
		return batch.Corrected{Seq: rapid.IntRange(-1, seq+1).Draw(t, "seq"), Reason: "because", With: w}
	case 7:
		return batch.Corrected{Seq: rapid.IntRange(-1, seq+1).Draw(t, "seq"), Reason: "because", With: gross}
	default:
		return w
	}
}

// TestTotal: whatever facts there are, prefix by prefix, there is a plan with
// the same tasks, and no target in it is below zero or beyond all sense.
func TestTotal(t *testing.T) {
	var controls []recipe.Control
	for _, name := range slices.Sorted(maps.Keys(designs(t))) {
		for loaves := 1; loaves <= 3; loaves++ {
			controls = append(controls, designs(t)[name](loaves))
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		c := controls[rapid.IntRange(0, len(controls)-1).Draw(t, "design")]
		p := steps.Of(batch.State{Control: c})
		first := len(p.Stages)
		ids := []string{"no such task"}
		for _, s := range p.Stages {
			for _, task := range s.Tasks {
				ids = append(ids, task.ID)
			}
		}
		at := time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)
		s := batch.State{}.Apply(batch.Entry{Seq: 1, Fact: batch.Started{Control: c}})
		for n := range rapid.IntRange(1, 25).Draw(t, "facts") {
			f := drawNonsense(t, ids, n+2)
			at = at.Add(time.Minute)
			now := timer.Moment{Wall: at}
			_ = judge.Allows(p, f, now) // It must come back; what it says is tested elsewhere.
			e := batch.Entry{Seq: n + 2, At: now, Fact: f}
			s = s.Apply(e)
			p = steps.Of(s)
			p.Next(now)
			judge.Doubt(p, f)
			p.Open()
			p.Ahead(now)
			_, _ = p.Drying()
			judge.Choices(p, batch.Task(f), "")
			if say.Fact(e, p, s) == "" {
				t.Fatalf("nothing to say of %#v", f)
			}
			sane(t, p)
			if len(p.Stages) != first {
				t.Fatalf("%d stages became %d", first, len(p.Stages))
			}
		}
	})
}

// sane checks that a plan holds no figure that is none. Facts may say anything;
// what is still asked may not.
func sane(t *rapid.T, p steps.Plan) {
	for _, s := range p.Stages {
		for _, task := range s.Tasks {
			if !task.Done && (task.Target < 0 || task.Target > 1e15 || task.Tolerance < 0 || task.Remaining() < 0) {
				t.Fatalf("%s asks for %v ± %v", task.ID, task.Target, task.Tolerance)
			}
			if task.Done && task.Open || !task.Done && task.Open == (task.Waits != "") {
				t.Fatalf("%s: done %v, open %v, waits for %q", task.ID, task.Done, task.Open, task.Waits)
			}
		}
	}
	for _, b := range p.Batters {
		for _, v := range []float64{b.Density, b.Concentration, b.Superfat.Percent, b.Superfat.Low, b.Superfat.High} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Fatalf("%s: %+v", b.Name, b)
			}
		}
	}
	for _, l := range p.Layers {
		for _, f := range l.Loaves {
			if f.Mass < 0 || f.PourLine < 0 || f.Surface < f.PourLine {
				t.Fatalf("%s: %+v", l.Name, f)
			}
		}
	}
}

// TestNoControl: a state without a batch, or with half of one, has a plan too.
func TestNoControl(t *testing.T) {
	for name, change := range map[string]func(*recipe.Control){
		"nothing":     func(c *recipe.Control) { *c = recipe.Control{} },
		"no scales":   func(c *recipe.Control) { c.Scales = nil },
		"no layers":   func(c *recipe.Control) { c.Recipe.Layers = nil },
		"no loaves":   func(c *recipe.Control) { c.Loaves = 0 },
		"no vessels":  func(c *recipe.Control) { c.Vessels = nil },
		"no oil data": func(c *recipe.Control) { c.Oils = nil },
		"no oils": func(c *recipe.Control) {
			c.Recipe.Batters[0].Oils = nil
		},
		"no materials": func(c *recipe.Control) { c.Materials = nil },
		"no alkali":    func(c *recipe.Control) { c.Recipe.Batters[0].Alkali = nil },
		"no batter":    func(c *recipe.Control) { c.Recipe.Batters = c.Recipe.Batters[1:] },
		"no mould":     func(c *recipe.Control) { c.Mould = recipe.Mould{} },
		"no water":     func(c *recipe.Control) { c.Recipe.Batters[0].Water = calc.WaterRule{} },
	} {
		t.Run(name, func(t *testing.T) {
			c := harbour()
			change(&c)
			p := steps.Of(batch.State{Control: c})
			if _, ok := p.Next(timer.Moment{}); ok != (len(p.Stages) > 0) {
				t.Errorf("%d stages and a next task: %v", len(p.Stages), ok)
			}
		})
	}
}

// BenchmarkOf is one plan of the two-batter recipe in mid-batch: it is made anew
// at every key.
func BenchmarkOf(b *testing.B) {
	for name, c := range map[string]recipe.Control{"harbour": harbour(), "lighthouse": sample.Control(b, "lighthouse-at-dusk.yaml", 3)} {
		half := begin(c)
		if err := half.work(func(task work.Task) bool { return task.Do == work.Look }); err != nil {
			b.Fatal(err)
		}
		b.Run(fmt.Sprintf("%s after %d facts", name, len(half.state.Entries)), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				steps.Of(half.state)
			}
		})
	}
}
