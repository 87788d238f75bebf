package steps_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/recipe"
	"bench/internal/rest"
	"bench/internal/timer"
)

// next gives the stage and the id of the task that is next.
func (b *bencher) next(t *testing.T) (stage, id string) {
	t.Helper()
	p := b.plan()
	id, ok := p.Next(b.moment())
	if !ok {
		return "", ""
	}
	_, s, _ := p.Task(id)
	return s.ID, id
}

// timers gives those that ask for something or run, as "id state".
func (b *bencher) timers() map[string]timer.Timer {
	list := map[string]timer.Timer{}
	for _, t := range b.plan().Timers {
		list[t.ID] = t
	}
	return list
}

// TestMeanwhile: while the base sets, the next layer's oils are weighed, until
// a look is due; then the look; and when it was seen, the work goes on.
func TestMeanwhile(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/sea/loaf 3/pour")
	b.allows(t, batch.Ticked{Task: "sea/sea/loaf 3/pour"})
	poured := b.now
	b.asked(t, "pour/sea/read back")
	if stage, _ := b.next(t); stage != "oils/dusk" {
		t.Errorf("right after the pour comes %s", stage)
	}
	b.now = poured.Add(5*time.Minute - time.Second)
	if stage, _ := b.next(t); stage != "oils/dusk" {
		t.Errorf("a second before the look comes %s", stage)
	}
	b.now = poured.Add(5 * time.Minute)
	if _, id := b.next(t); id != "sea/embeds stay" {
		t.Errorf("at five minutes comes %s", id)
	}
	b.allows(t, batch.TimerSeen{Timer: "look/sea/embeds/1"})
	if stage, _ := b.next(t); stage != "oils/dusk" {
		t.Errorf("after a look that said not yet comes %s", stage)
	}
	look := b.timers()["look/sea/embeds/2"]
	if look.After != 5*time.Minute || !look.Start.Wall.Equal(b.now) || look.State(b.moment()) != timer.Running {
		t.Errorf("the next look: %+v", look)
	}
	b.wait(5 * time.Minute)
	if _, id := b.next(t); id != "sea/embeds stay" {
		t.Errorf("five minutes later comes %s", id)
	}
}

// TestLookPutOff comes back by itself, and the work goes on until then.
func TestLookPutOff(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/sea/loaf 3/pour")
	b.allows(t, batch.Ticked{Task: "sea/sea/loaf 3/pour"})
	b.asked(t, "pour/sea/read back")
	b.wait(6 * time.Minute)
	b.allows(t, batch.TimerPutOff{Timer: "look/sea/embeds/1", For: 3 * time.Minute})
	if got := b.timers()["look/sea/embeds/1"].State(b.moment()); got != timer.PutOff {
		t.Errorf("%v", got)
	}
	if stage, _ := b.next(t); stage != "oils/dusk" {
		t.Errorf("next is %s", stage)
	}
	b.wait(3 * time.Minute)
	if _, id := b.next(t); id != "sea/embeds stay" {
		t.Errorf("next is %s", id)
	}
}

// TestTwoWaits: nobody is asked whether the layer is firm before the embeds are
// in, and the five minutes of the second wait begin then.
func TestTwoWaits(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/sea/loaf 3/pour")
	b.allows(t, batch.Ticked{Task: "sea/sea/loaf 3/pour"})
	b.asked(t, "pour/sea/read back")
	b.wait(7 * time.Minute)
	b.allows(t, batch.Ticked{Task: "sea/embeds stay"})
	for _, id := range []string{"look/sea/embeds/1", "look/sea/firm/1"} {
		if _, ok := b.timers()[id]; ok {
			t.Errorf("%s runs while the embeds go in", id)
		}
	}
	b.finish(t, "embeds/sea")
	firm, ok := b.timers()["look/sea/firm/1"]
	if !ok || !firm.Start.Wall.Equal(b.now) || !strings.Contains(firm.Label, "take a pour") {
		t.Errorf("%+v", firm)
	}
	if stage, _ := b.next(t); stage != "oils/dusk" {
		t.Errorf("next is %s", stage)
	}
}

// TestLookWhenNothingElseIsLeft: with the next layer's oils done the look is what
// is left, before it is due.
func TestLookWhenNothingElseIsLeft(t *testing.T) {
	c := harbour()
	for _, more := range []string{"cup 4", "cup 5"} { // Enough that no cup is filled twice.
		c.Vessels = append(c.Vessels, recipe.Vessel{Name: more, Kind: recipe.Cup, Tare: 9 * g})
	}
	b := begin(c)
	b.finish(t, "set out")
	for _, early := range []string{"oils/dusk", "colour/dusk", "cups/dusk"} {
		b.finish(t, early)
	}
	b.workTo(t, "sea/sea/loaf 3/pour")
	b.allows(t, batch.Ticked{Task: "sea/sea/loaf 3/pour"})
	b.asked(t, "pour/sea/read back")
	if _, id := b.next(t); id != "sea/embeds stay" || b.timers()["look/sea/embeds/1"].State(b.moment()) != timer.Running {
		t.Errorf("next is %s", id)
	}
}

// TestNothingNextWhileItRests: a day from the pour to the unmould (common
// practice, no source) there is nothing to do; then the loaves.
func TestNothingNextWhileItRests(t *testing.T) {
	for name, design := range designs(t) {
		b := begin(design(2))
		if err := b.work(never); err != nil {
			t.Fatal(err)
		}
		unmould := b.timers()[rest.UnmouldDue]
		if unmould.After != 24*time.Hour {
			t.Errorf("%s: %v from pour to unmould", name, unmould.After)
		}
		left := unmould.Remaining(b.moment())
		b.wait(left - time.Second)
		if _, id := b.next(t); id != "" {
			t.Errorf("%s: a second early comes %s", name, id)
		}
		b.wait(time.Second)
		if stage, _ := b.next(t); stage != "unmould" {
			t.Errorf("%s: on the dot comes %q", name, stage)
		}
	}
}

// TestRestTimersStartByThemselves: by the last pour of the last loaf, whichever
// loaf that is, and not before.
func TestRestTimersStartByThemselves(t *testing.T) {
	c := harbour()
	c.Recipe.Layers[1].Scents[0].Where = recipe.InPot // so that the loaves may be poured in any order
	b := begin(c)
	b.workTo(t, "dusk/dusk/loaf 1/pour")
	for _, loaf := range []int{3, 1} {
		b.allows(t, batch.Ticked{Task: fmt.Sprintf("dusk/dusk/loaf %d/pour", loaf)})
		if _, ok := b.timers()[rest.UnmouldDue]; ok {
			t.Errorf("the timer runs before the last loaf is poured")
		}
	}
	b.wait(time.Minute)
	b.allows(t, batch.Ticked{Task: "dusk/dusk/loaf 2/pour"})
	last := b.now
	for id, after := range map[string]time.Duration{"gel look/1": time.Hour, "gel look/3": 3 * time.Hour, rest.UnmouldDue: 24 * time.Hour} {
		tm, ok := b.timers()[id]
		if !ok || tm.After != after || !tm.Start.Wall.Equal(last) || tm.Label == "" {
			t.Errorf("%s: %+v", id, tm)
		}
		if due := tm.DueAt(b.moment()); !due.Equal(last.Add(after)) {
			t.Errorf("%s is due at %v, want %v", id, due, last.Add(after))
		}
	}
	b.wait(61 * time.Minute)
	b.allows(t, batch.TimerSeen{Timer: "gel look/1"})
	if got := b.timers()["gel look/1"].State(b.moment()); got != timer.Acknowledged {
		t.Errorf("%v", got)
	}
	if got := b.timers()["gel look/3"].State(b.moment()); got != timer.Running {
		t.Errorf("%v", got)
	}
}

// TestNoGelLooksWhenPrevented: there is no gel to look at.
func TestNoGelLooksWhenPrevented(t *testing.T) {
	c := harbour()
	c.Recipe.Gel, c.Recipe.Unmould = recipe.GelPrevented, 48*time.Hour
	b := begin(c)
	if err := b.work(never); err != nil {
		t.Fatal(err)
	}
	list := b.timers()
	if len(list) != 1 || list[rest.UnmouldDue].After != 48*time.Hour {
		t.Errorf("%+v", list)
	}
}

// TestStopwatches: lye solution cooling, then batter since the lye went in,
// until its last layer is poured.
func TestStopwatches(t *testing.T) {
	b := begin(harbour())
	for _, c := range []struct{ before, runs, not string }{
		{"sea/dissolve", "", "lye/sea"},
		{"dusk/water", "lye/sea", "batter/sea"},
		{"sea/combine", "lye/dusk", "batter/sea"},
		{"sea/trace/emulsion", "batter/sea", "lye/sea"},
		{"sea/sea/loaf 3/pour", "batter/sea", "batter/dusk"},
		{"sea/loaf 1/moon", "lye/dusk", "batter/sea"},
	} {
		b.workTo(t, c.before)
		if tm, ok := b.timers()[c.runs]; c.runs != "" && (!ok || !tm.CountsUp() || tm.State(b.moment()) != timer.Running) {
			t.Errorf("before %s: no %s: %+v", c.before, c.runs, b.timers())
		}
		if _, ok := b.timers()[c.not]; ok {
			t.Errorf("before %s: %s runs", c.before, c.not)
		}
	}
}

// TestDeadlineByBoots: the unmould timer goes by the boot clock while there is
// one boot, by the wall after a restart, and a clock set back never makes it
// later than a day from now.
func TestDeadlineByBoots(t *testing.T) {
	b := begin(harbour())
	b.boot = "one"
	if err := b.work(upTo("unmould/loaf 1")); err != nil {
		t.Fatal(err)
	}
	unmould := b.timers()[rest.UnmouldDue]
	poured := unmould.Start
	if poured.Boot != "one" {
		t.Fatalf("%+v", poured)
	}
	at := func(wall time.Duration, boot string, since time.Duration) timer.Moment {
		return timer.Moment{Wall: poured.Wall.Add(wall), Boot: boot, SinceBoot: since}
	}
	for _, c := range []struct {
		name string
		now  timer.Moment
		left time.Duration
	}{
		{"same boot, wall set forward", at(40*time.Hour, "one", poured.SinceBoot+time.Hour), 23 * time.Hour},
		{"same boot, wall set back", at(-40*time.Hour, "one", poured.SinceBoot+25*time.Hour), -time.Hour},
		{"another boot", at(23*time.Hour, "two", time.Minute), time.Hour},
		{"another boot, wall set back", at(-time.Hour, "two", time.Minute), 24 * time.Hour},
	} {
		if got := unmould.Remaining(c.now); got != c.left {
			t.Errorf("%s: %v left, want %v", c.name, got, c.left)
		}
		err := judge.Allows(b.plan(), batch.Ticked{Task: "unmould/loaf 1"}, c.now)
		if early := c.left > 0; early != (err != nil) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

// TestLooksEndWithWhatTheyAskAbout: nobody is asked whether embeds stay put, or a layer
// is firm, once they are in, another layer lies over it, or the moulds are covered.
func TestLooksEndWithWhatTheyAskAbout(t *testing.T) {
	looks := func(b *bencher) (n int) {
		for id := range b.timers() {
			if strings.HasPrefix(id, "look/") {
				n++
			}
		}
		return n
	}
	for name, over := range map[string]func(b *bencher){
		"the next layer is poured": func(b *bencher) { b.put(batch.Ticked{Task: "dusk/dusk/loaf 1/pour"}) },
		"the moulds are covered":   func(b *bencher) { b.put(batch.Ticked{Task: "cover/cover"}) },
		"the bench is clean":       func(b *bencher) { b.put(batch.Ticked{Task: "clean up/gloves"}) },
		"a loaf is out":            func(b *bencher) { b.put(batch.Ticked{Task: "unmould/loaf 1"}) },
	} {
		b := begin(harbour())
		b.workTo(t, "sea/embeds stay")
		if looks(b) != 1 {
			t.Fatalf("%d looks at a layer that sets", looks(b))
		}
		if over(b); looks(b) != 0 {
			t.Errorf("%s, and still: %v", name, b.timers())
		}
	}
	b := begin(harbour())
	b.workTo(t, "sea/embeds stay")
	for _, st := range b.plan().Stages {
		for _, task := range st.Tasks {
			if st.ID == "embeds/sea" {
				b.put(batch.Ticked{Task: task.ID})
			}
		}
	}
	if _, still := b.timers()["look/sea/embeds/1"]; still {
		t.Error("the embeds are in, and it asks whether they stay")
	}
}
