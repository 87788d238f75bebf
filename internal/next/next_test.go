package next_test

import (
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/next"
	"bench/internal/recipe"
	"bench/internal/rest"
	"bench/internal/timer"
	"bench/internal/work"
)

var noon = timer.Moment{Wall: time.Date(2026, 3, 9, 12, 0, 0, 0, time.UTC)}

func after(d time.Duration) timer.Moment { return timer.Moment{Wall: noon.Wall.Add(d)} }

// bench is oils, then a layer that sets while tools can be washed, then what comes after.
func bench() []work.Stage {
	return []work.Stage{
		{ID: "oils", Kind: work.Oils, Title: "oils", Ordered: true, Tasks: []work.Task{{ID: "olive", Title: "Olive oil"}, {ID: "coconut", Title: "Coconut oil"}}},
		{ID: "hold", Kind: work.HoldLayer, Title: "sea sets", After: []string{"oils"}, Tasks: []work.Task{{ID: "firm"}}},
		{ID: "tools", Title: "tools", After: []string{"oils"}, Meanwhile: true, Tasks: []work.Task{{ID: "wash"}}},
		{ID: "pour", Title: "pour", After: []string{"hold", "tools"}, Tasks: []work.Task{{ID: "early", Open: true}, {ID: "moon"}, {ID: "read back", Do: work.Confirm}}},
	}
}

func state(ticked ...string) batch.State {
	var s batch.State
	for i, id := range ticked {
		s = s.Apply(batch.Entry{Seq: i + 1, At: noon, Fact: batch.Ticked{Task: id}})
	}
	return s
}

func settled(ticked ...string) next.Among {
	a := next.Among{Stages: bench(), State: state(ticked...)}
	next.Settle(a.Stages, a.State)
	return a
}

// TestSettle: what waits says for what; a task that came open waits for no stage.
func TestSettle(t *testing.T) {
	a := settled("olive")
	oils, pour := a.Stages[0], a.Stages[3]
	if !oils.Tasks[0].Done || oils.Tasks[0].Open || !oils.Tasks[1].Open || oils.Done {
		t.Errorf("%+v", oils)
	}
	if pour.Blocked != "waits for sea sets, tools" || pour.Tasks[1].Open || pour.Tasks[1].Waits != pour.Blocked || !pour.Tasks[0].Open {
		t.Errorf("%+v", pour)
	}
	if first := settled().Stages[0]; first.Tasks[1].Open || first.Tasks[1].Waits != "waits for: Olive oil" {
		t.Errorf("%+v", first)
	}
	last := settled("olive", "coconut", "firm", "wash", "early").Stages[3]
	if last.Blocked != "" || !last.Tasks[1].Open || last.Tasks[2].Open || last.Tasks[2].Waits != "waits for the rest of this stage" {
		t.Errorf("%+v", last)
	}
	over := next.Among{Stages: bench(), State: state().Apply(batch.Entry{Seq: 1, At: noon, Fact: batch.Closed{}})}
	next.Settle(over.Stages, over.State)
	for _, st := range over.Stages {
		for _, task := range st.Tasks {
			if task.Open || task.Waits != "the batch is closed" {
				t.Errorf("%+v", task)
			}
		}
	}
}

// TestTask: while a layer sets the tools come first, until it is time to look.
func TestTask(t *testing.T) {
	look := timer.Timer{ID: work.LookTimer + "sea/firm/1", Start: noon, After: 5 * time.Minute}
	for _, c := range []struct {
		done []string
		now  timer.Moment
		want string
	}{
		{nil, noon, "olive"},
		{[]string{"olive"}, noon, "coconut"},
		{[]string{"olive", "coconut"}, noon, "wash"},
		{[]string{"olive", "coconut"}, after(6 * time.Minute), "firm"},
		{[]string{"olive", "coconut", "wash"}, noon, "firm"},
		{[]string{"olive", "coconut", "wash", "firm"}, noon, "early"},
	} {
		a := settled(c.done...)
		a.Timers = []timer.Timer{look}
		if got, _ := a.Task(c.now); got != c.want {
			t.Errorf("after %v at %v: %q, want %q", c.done, c.now.Wall, got, c.want)
		}
	}
}

// TestUnmould: nothing is next before the timer, unless a loaf is out; it says when it is.
func TestUnmould(t *testing.T) {
	due := []timer.Timer{{ID: rest.UnmouldDue, Start: noon, After: 24 * time.Hour}}
	first, second := rest.UnmouldID(0), rest.UnmouldID(1)
	two := batch.State{Control: recipe.Control{Loaves: 2}}
	for _, c := range []struct {
		out  bool
		now  timer.Moment
		want string
	}{
		{false, after(time.Hour), ""}, {true, after(time.Hour), "cut 1"}, {false, after(25 * time.Hour), first}, {true, after(25 * time.Hour), second},
	} {
		a := next.Among{Timers: due, State: two, Stages: []work.Stage{
			{Kind: work.Unmould, Tasks: []work.Task{{ID: first}, {ID: second}}},
			{Kind: work.CutStage, Tasks: []work.Task{{ID: "cut 1"}}},
		}}
		if c.out {
			a.State = two.Apply(batch.Entry{Seq: 1, At: noon, Fact: batch.Ticked{Task: first}})
		}
		next.Settle(a.Stages, a.State)
		if got, ok := a.Task(c.now); got != c.want || ok != (c.want != "") {
			t.Errorf("%+v: %q", c, got)
		}
	}
	if next.TooEarly(due, two, first, after(time.Hour)) == nil || next.TooEarly(due, two, first, after(25*time.Hour)) != nil || next.TooEarly(nil, two, first, noon) != nil {
		t.Error("it is too early until it is due, and no longer")
	}
	if !next.UnmouldWaits(due, two, first) || next.UnmouldWaits(nil, two, first) {
		t.Error("a timer tells when to unmould")
	}
}
