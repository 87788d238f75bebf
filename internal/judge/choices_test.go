package judge_test

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/quantity"
	"bench/internal/rest"
	"bench/internal/sample"
	"bench/internal/say"
	"bench/internal/steps"
)

// TestLikelyLook: the look that is offered first goes with the temperature that was
// typed (common practice, no source); without one it is the first.
func TestLikelyLook(t *testing.T) {
	list := judge.Choices(steps.Of(batch.State{Control: sample.Control(t, "lighthouse-at-dusk.yaml", 0)}), "gel/1 h", "")
	for typed, want := range map[string]batch.GelLook{
		"": batch.NoGel, "38": batch.NoGel, "54.9": batch.NoGel, "61": batch.Gelling, "142 F": batch.Gelling, "70": batch.FullGel, "90": batch.Rising, "warm": batch.NoGel,
	} {
		if got := list[judge.Likely(list, typed)].Fact.(batch.GelLooked).Look; got != want {
			t.Errorf("%q: %s is offered first, want %s", typed, got, want)
		}
	}
	if got := judge.Likely(nil, "61"); got != 0 {
		t.Errorf("of no answers %d", got)
	}
}

// TestChoicesTakeWhatIsSaid: what must be said with an answer is asked for, and read.
func TestChoicesTakeWhatIsSaid(t *testing.T) {
	b := lighthouse(t)
	b.WorkTo(t, rest.DecideID)
	afterwards := func(title string) judge.Choice {
		for _, c := range judge.Afterwards(b.Plan()) {
			if strings.HasPrefix(c.Title, title) {
				return c
			}
		}
		t.Fatalf("nobody may say %q", title)
		return judge.Choice{}
	}
	verdicts := judge.Choices(b.Plan(), rest.DecideID, "the keeper")
	for _, c := range []struct {
		choice judge.Choice
		text   string
		want   batch.Fact // want is nil for what is not understood.
	}{
		{afterwards("Complaint"), "too soft / the market stall", batch.Complained{About: batch.Complaint, Words: "too soft", Who: "the market stall"}},
		{afterwards("Complaint"), "too soft", batch.Complained{About: batch.Complaint, Words: "too soft"}},
		{afterwards("Skin reaction"), " ", nil},
		{afterwards("Where bars went"), "12 to the market stall", batch.BarsWent{Count: 12, Where: "the market stall"}},
		{afterwards("Where bars went"), "the market stall", batch.BarsWent{Where: "the market stall"}},
		{afterwards("Where bars went"), "", nil},
		{afterwards("This batch is made of"), "26K25A 900 g too much alkali", batch.Reworks{Batch: "26K25A", Mass: 900 * g, Reason: "too much alkali"}},
		{afterwards("This batch is made of"), "26K25A too soft", batch.Reworks{Batch: "26K25A", Reason: "too soft"}},
		{afterwards("This batch is made of"), "26K25A", nil},
		{verdicts[0], "", batch.Released{Task: rest.DecideID, By: "the keeper", Bars: b.Plan().Bars()}},
		{verdicts[1], "to be tested again", batch.Held{Task: rest.DecideID, By: "the keeper", Reason: "to be tested again"}},
		{verdicts[1], "", nil},
		{verdicts[2], "pockets", batch.Closed{Reason: "the bars were thrown away: pockets"}},
		{judge.Choice{Ask: "the limit", Fact: batch.LimitStated{Material: "evening rose"}}, "6 % certificate of 3 March", batch.LimitStated{Material: "evening rose", Limit: 6 * quantity.Percent, Reference: "certificate of 3 March"}},
		{judge.Choice{Ask: "the limit", Fact: batch.LimitStated{}}, "6 certificate of 3 March", nil},
		{judge.Choice{Ask: "the limit", Fact: batch.LimitStated{}}, "6 %", nil},
	} {
		got, err := c.choice.With(c.text)
		if (err != nil) != (c.want == nil) || err == nil && !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s, %q: %+v, %v; want %+v", c.choice.Title, c.text, got, err, c.want)
		}
	}
}

// TestChoicesByTask: where one of several answers is asked for, and how many there are.
func TestChoicesByTask(t *testing.T) {
	p := steps.Of(batch.State{Control: sample.Control(t, "lighthouse-at-dusk.yaml", 0)})
	for task, want := range map[string]int{
		"gel/1 h": 6, "unmould/loaf 1": 3, "cut/loaf 1": 1, "cut/side": 0, rest.LookTest: 2, rest.DecideID: 3, "test/alkali": 0, "sea/water": 0, "fog": 0,
	} {
		if got := len(judge.Choices(p, task, "")); got != want {
			t.Errorf("%s: %d answers, want %d", task, got, want)
		}
	}
	if list := judge.Afterwards(p); len(list) != 1 {
		t.Errorf("before there are bars: %d things to say", len(list))
	}
}

// TestUnmouldedBeforeItsTime: the timer says when, and a maker who knows better says why;
// that is kept, for the one loaf.
func TestUnmouldedBeforeItsTime(t *testing.T) {
	b := sample.Begin(sample.Control(t, "lighthouse-at-dusk.yaml", 2))
	b.WorkTo(t, "gel/1 h")
	said{"a mere tick", batch.Ticked{Task: "unmould/loaf 1"}, "to unmould early take that answer (s) and say why"}.on(t, b)
	said{"without words", batch.Ticked{Task: "unmould/loaf 1", Why: " "}, "to unmould early"}.on(t, b)
	list := judge.Choices(b.Plan(), "unmould/loaf 1", "")
	early := list[len(list)-1]
	if _, err := early.With(" "); err == nil {
		t.Error("it is taken without a reason")
	}
	f, err := early.With("it is firm, and the mould is wanted")
	if err != nil {
		t.Fatal(err)
	}
	if err := b.Say(f); err != nil {
		t.Fatal(err)
	}
	p := b.Plan()
	if words := say.Fact(b.State.Entries[len(b.State.Entries)-1], p, b.State); !strings.Contains(words, "before its time: it is firm, and the mould is wanted") {
		t.Error(words)
	}
	if other, _, _ := p.Task("unmould/loaf 2"); other.Done {
		t.Error("the other loaf is out, too")
	}
	said{"the other by a tick", batch.Ticked{Task: "unmould/loaf 2"}, "to unmould early"}.on(t, b)
}

// TestALoafThatDoesNotComeOut: it is put off with what it gets meanwhile, which the facts
// tell, before its time as well as after; a cut is put off only for softness.
func TestALoafThatDoesNotComeOut(t *testing.T) {
	b := lighthouse(t)
	b.WorkTo(t, "unmould/loaf 1")
	for stuck, want := range map[string]string{
		"freezer":  "unmould, loaf 1: does not come out, into the freezer, look again in 3 h 00 min",
		"leave it": "unmould, loaf 1: does not come out, left to stand, look again in 24 h 00 min",
	} {
		i := slices.IndexFunc(judge.Choices(b.Plan(), "unmould/loaf 1", ""), func(c judge.Choice) bool { return strings.Contains(c.Title, stuck) })
		if i < 0 {
			t.Fatalf("%s is not offered", stuck)
		}
		if err := b.Say(judge.Choices(b.Plan(), "unmould/loaf 1", "")[i].Fact); err != nil {
			t.Fatal(err)
		}
		if got := say.Fact(b.State.Entries[len(b.State.Entries)-1], b.Plan(), b.State); got != want {
			t.Errorf("%q, want %q", got, want)
		}
		if next, ok := b.Plan().Next(b.Now); ok && next == "unmould/loaf 1" {
			t.Error("it is asked for although it was put off")
		}
	}
	b.WorkTo(t, "cut/loaf 1")
	if list := judge.Choices(b.Plan(), "cut/loaf 1", ""); len(list) != 1 {
		t.Errorf("%+v", list)
	}
}

// TestOpenWarningsEndWithOneStop: warnings set one after the other have one full stop each.
func TestOpenWarningsEndWithOneStop(t *testing.T) {
	b := lighthouse(t)
	b.WorkTo(t, rest.DecideID)
	b.Put(batch.Complained{About: batch.SkinReaction, Words: "it burns"})
	b.Put(batch.Complained{About: batch.SkinReaction, Words: "itches."})
	b.Put(batch.Complained{About: batch.SkinReaction, Words: "red"})
	why := judge.Choices(b.Plan(), rest.DecideID, "")[0].Why
	if !strings.Contains(why, "itches. ") || strings.Contains(why, "..") || !strings.HasSuffix(why, ".") {
		t.Errorf("%q", why)
	}
}
