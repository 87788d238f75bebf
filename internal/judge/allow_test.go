package judge_test

import (
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/quantity"
	"bench/internal/rest"
	"bench/internal/sample"
)

const g = quantity.Gram

// lighthouse is one loaf of the built-in recipe, as it is begun.
func lighthouse(t *testing.T) *sample.Batch {
	t.Helper()
	return sample.Begin(sample.Control(t, "lighthouse-at-dusk.yaml", 1))
}

// said is a fact, and the words that refuse it; "" lets it be.
type said struct {
	what string
	f    batch.Fact
	want string
}

func (c said) on(t *testing.T, b *sample.Batch) {
	t.Helper()
	switch err := judge.Allows(b.Plan(), c.f, b.Now); {
	case c.want == "" && err != nil:
		t.Errorf("%s: refused: %v", c.what, err)
	case c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)):
		t.Errorf("%s: %v; want %q", c.what, err, c.want)
	}
}

// TestAllows works a batch from task to task and says at each what is not to be. That
// alkali is never left out or ticked unseen, and water comes first, is the practice of
// every safety data sheet of sodium hydroxide (in general terms, from memory); that an
// unsure jug is weighed, that readings grow old and how long a loaf stays in its mould
// is common practice, no source.
func TestAllows(t *testing.T) {
	b := lighthouse(t)
	for _, place := range []struct {
		at    string
		cases []said
	}{
		{"set out/protection", []said{
			{"a second beginning", batch.Started{}, "has begun already"},
			{"a task that is not there", batch.Ticked{Task: "fog"}, `no task "fog"`},
			{"a tick is no temperature", batch.TemperatureTaken{Task: "set out/protection", Temperature: 20 * quantity.Degree}, "another kind of answer"},
			{"alkali before anything is set out", batch.Weighed{Task: "sea/sodium hydroxide", Mass: 34 * g, How: batch.Typed}, "waits for set out"},
			{"left out without a reason", batch.Skipped{Task: "set out/protection", Reason: " "}, "say why"},
			{"left out with one", batch.Skipped{Task: "set out/protection", Reason: "on already"}, ""},
			{"a note of nothing", batch.Noted{Text: " "}, "the note is empty"},
			{"a note", batch.Noted{Text: "fog over the mole"}, ""},
			{"an end without a reason", batch.Closed{}, "say why"},
			{"an end", batch.Closed{Reason: "the power is out"}, ""},
			{"a timer that does not run", batch.TimerSeen{Timer: "unmould"}, "no timer"},
			{"a timer put off for no time", batch.TimerPutOff{Timer: "unmould"}, "for how long"},
			{"bars that are not there", batch.Held{Task: rest.DecideID, Reason: "fog"}, "there are no bars yet"},
		}},
		{"sea/water", []said{
			{"alkali before its water", batch.Weighed{Task: "sea/sodium hydroxide", Mass: 34 * g, How: batch.Typed}, "waits for: "},
			{"a second tick", batch.Ticked{Task: "set out/protection"}, "done already"},
			{"less than nothing", batch.Weighed{Task: "sea/water", Mass: -g, How: batch.Typed}, "not below zero"},
			{"a container of nothing", batch.Weighed{Task: "sea/water", More: true, How: batch.Typed}, "brings nothing"},
			{"more than the scale carries with the jug", batch.Weighed{Task: "sea/water", Mass: 2851600, How: batch.Typed}, "2851.6 g with lye jug A (148.5 g) is more than the bench scale carries"},
			{"all that it carries", batch.Weighed{Task: "sea/water", Mass: 2851500, How: batch.Typed}, ""},
			{"water is not left out", batch.Skipped{Task: "sea/water", Reason: "no time"}, "cannot be left out"},
		}},
		{"sea/sodium hydroxide", []said{
			{"alkali by a tick", batch.Weighed{Task: "sea/sodium hydroxide", Mass: 34850, How: batch.AtTarget}, "never ticked unseen"},
			{"alkali by its figure", batch.Weighed{Task: "sea/sodium hydroxide", Mass: 34850, How: batch.Typed}, ""},
			{"alkali is not left out", batch.Skipped{Task: "sea/sodium hydroxide", Reason: "no time"}, "cannot be left out"},
		}},
		{"sea/dissolve", []said{
			{"dissolving is not left out", batch.Skipped{Task: "sea/dissolve", Reason: "no time"}, "end the batch instead"},
			{"it is ticked", batch.Ticked{Task: "sea/dissolve"}, ""},
		}},
		{"sea/meet", []said{
			{"what cools is read again", batch.TemperatureTaken{Task: "sea/lye temperature", Temperature: 30 * quantity.Degree}, ""},
			{"the gate", batch.Ticked{Task: "sea/meet"}, ""},
		}},
		{"sea/lye jug", []said{
			{"an empty jug", batch.Grossed{Task: "sea/lye jug", Vessel: "lye jug A", Gross: 148500, Tare: 148500}, "no more than the empty vessel"},
			{"the right jug is told by its weight", batch.Skipped{Task: "sea/lye jug", Reason: "no time"}, "right jug"},
			{"the jug", batch.Grossed{Task: "sea/lye jug", Vessel: "lye jug A", Gross: 256700, Tare: 148500}, ""},
		}},
		{"gel/1 h", []said{
			{"too early out of the mould", batch.Ticked{Task: "unmould/loaf 1"}, "to unmould early"},
			{"put off for no time", batch.UnmouldPutOff{Task: "unmould/loaf 1"}, "for how long"},
			{"put off", batch.UnmouldPutOff{Task: "unmould/loaf 1", For: time.Hour}, ""},
			{"a look on a day to come", batch.GelLooked{Task: "gel/1 h", Look: batch.FullGel, Said: batch.Said{When: b.Now.Wall.AddDate(0, 1, 0)}}, "has not come yet"},
			{"a look", batch.GelLooked{Task: "gel/1 h", Look: batch.FullGel}, ""},
		}},
		{"cut/loaf 1", []said{
			{"bars below zero", batch.BarsCut{Task: "cut/loaf 1", Loaf: 1, Bars: -1, Planned: -1}, "not below zero"},
			{"fewer bars, and nothing said", batch.BarsCut{Task: "cut/loaf 1", Loaf: 1, Bars: 7, Planned: 8}, "what became of the rest?"},
			{"fewer bars, and why", batch.BarsCut{Task: "cut/loaf 1", Loaf: 1, Bars: 7, Planned: 8, Why: "one crumbled", Said: batch.Said{Answer: "one crumbled"}}, ""},
		}},
		{"bars/loaf 1", []said{
			{"none is all", batch.Ticked{Task: "bars/loaf 1"}, "weigh one at least"},
			{"none weighs nothing", batch.BarsWeighed{Task: "bars/loaf 1", Loaf: 1, Mass: g}, "counted from 1"},
			{"less than nothing set aside", batch.SetAside{Task: "clean up/sample", Mass: -g}, "not below zero"},
		}},
		{"cure/bar 1", []said{
			{"a bar of nothing", batch.WeighedIn{Task: "cure/bar 1", Bar: "1", Said: batch.Said{Answer: "fog"}}, "weighs something"},
			{"the cure is not over", batch.Ticked{Task: rest.WholeCure}, "the shortest cure is"},
			{"a limit above the whole", batch.LimitStated{Limit: quantity.Whole + 1, Reference: "a certificate"}, "up to 100 %"},
			{"a limit from nowhere", batch.LimitStated{Limit: quantity.Percent}, "the certificate"},
		}},
		{rest.DecideID, []said{
			{"over warnings that were not read", batch.Released{Task: rest.DecideID, Open: []string{"fog"}, Reason: "as ever"}, "read them again"},
			{"released", batch.Released{Task: rest.DecideID}, ""},
			{"held for nothing", batch.Held{Task: rest.DecideID}, "say why"},
			{"neither", batch.Skipped{Task: rest.DecideID, Reason: "no time"}, "one or the other"},
			{"tested again", batch.Tested{Task: "test/alkali", Test: batch.PHTest, Value: 9.4, Passed: true}, ""},
			{"passed by no pH of soap", batch.Tested{Task: "test/alkali", Test: batch.PHTest, Value: 0.2, Passed: true, Said: batch.Said{Answer: "fog"}}, "that does not pass"},
			{"no pH, said to have failed", batch.Tested{Task: "test/alkali", Test: batch.PHTest, Value: 15}, "is no pH"},
			{"a reaction without words", batch.Complained{About: batch.SkinReaction}, "say what"},
			{"bars that went nowhere", batch.BarsWent{Count: 3}, "say where"},
		}},
	} {
		b.WorkTo(t, place.at)
		for _, c := range place.cases {
			c.on(t, b)
		}
	}
	b.Put(batch.Closed{Reason: "sold"})
	for _, c := range []said{
		{"work after the end", batch.Released{Task: rest.DecideID}, "the batch is closed"},
		{"a code after the end", batch.Marked{On: "a bar", Code: "K1"}, "the batch is closed"},
		{"a complaint after the end", batch.Complained{About: batch.Complaint, Words: "soft"}, ""},
		{"a note after the end", batch.Noted{Text: "fog"}, ""},
	} {
		c.on(t, b)
	}
}

// TestTemperaturesGrowOld: after half an hour (common practice, no source) the gate
// asks for it again.
func TestTemperaturesGrowOld(t *testing.T) {
	b := lighthouse(t)
	b.WorkTo(t, "sea/meet")
	read, _, _ := b.Plan().Task("sea/lye temperature")
	b.Now = read.At
	b.Wait(30 * time.Minute)
	said{"half an hour later", batch.Ticked{Task: "sea/meet"}, ""}.on(t, b)
	b.Wait(time.Second)
	said{"a second later", batch.Ticked{Task: "sea/meet"}, "read that again"}.on(t, b)
}

// TestLyeHeavyGoesNoFurther: the recipe leaves 5 % of the fat, so a tenth more alkali is
// about 5 % more than all of it takes (by hand: 0.95 x 1.1 = 1.045).
func TestLyeHeavyGoesNoFurther(t *testing.T) {
	b := lighthouse(t)
	b.WorkTo(t, "sea/sodium hydroxide")
	alkali, _, _ := b.Plan().Task("sea/sodium hydroxide")
	b.Put(batch.Weighed{Task: alkali.ID, Material: alkali.Material, Target: alkali.Target, Mass: alkali.Target * 11 / 10, How: batch.Typed, Reads: alkali.Reads})
	said{"dissolved all the same", batch.Ticked{Task: "sea/dissolve"}, "more alkali than the oils can take"}.on(t, b)
}

// TestTakenBackFromTheLast: what others were built on stays until they are gone.
func TestTakenBackFromTheLast(t *testing.T) {
	b := lighthouse(t)
	b.WorkTo(t, "sea/dissolve")
	water, alkali := seq(t, b, "sea/water"), seq(t, b, "sea/sodium hydroxide")
	for _, c := range []said{
		{"the beginning", batch.Withdrawn{Seq: 1, Reason: "fog"}, "end"},
		{"none of them", batch.Withdrawn{Seq: 1000, Reason: "fog"}, "no fact 1000"},
		{"without a reason", batch.Withdrawn{Seq: alkali}, "its reason"},
		{"the water below its alkali", batch.Withdrawn{Seq: water, Reason: "another jug"}, "take that back first"},
		{"the alkali", batch.Withdrawn{Seq: alkali, Reason: "another cup"}, ""},
	} {
		c.on(t, b)
	}
	b.Put(batch.Withdrawn{Seq: alkali, Reason: "another cup"})
	said{"twice", batch.Withdrawn{Seq: alkali, Reason: "another cup"}, "taken back already"}.on(t, b)
}

// seq gives the number of the fact that a task was done by.
func seq(t *testing.T, b *sample.Batch, id string) int {
	t.Helper()
	task, _, ok := b.Plan().Task(id)
	if !ok || task.Seq == 0 {
		t.Fatalf("%s is not done", id)
	}
	return task.Seq
}
