package rest_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	cutting "bench/internal/cut"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/rest"
	"bench/internal/sample"
	"bench/internal/timer"
	"bench/internal/work"
)

// poured is when the last loaf was.
var poured = timer.Moment{Wall: time.Date(2026, 3, 2, 10, 0, 0, 0, time.UTC)}

// on is a fact with the time since the pour.
type on struct {
	after time.Duration
	f     batch.Fact
}

// resting gives two loaves from their last pour on, with what happened since.
func resting(t *testing.T, gel recipe.Gel, facts ...on) rest.Rest {
	t.Helper()
	c := sample.Control(t, "lighthouse-at-dusk.yaml", 2)
	c.Recipe.Gel = gel
	s := batch.State{Control: c}
	for i, f := range facts {
		s = s.Apply(batch.Entry{Seq: i + 1, At: timer.Moment{Wall: poured.Wall.Add(f.after)}, Fact: f.f})
	}
	return rest.Rest{Control: c, State: s, Loaves: []quantity.Mass{1000 * g, 1000 * g}, Poured: poured}
}

// unpoured is a batch before its last pour.
func unpoured(t *testing.T) rest.Rest {
	t.Helper()
	r := resting(t, recipe.GelLeft)
	r.Poured = timer.Moment{}
	return r
}

// last is the moment of the last fact.
func last(r rest.Rest) timer.Moment {
	if n := len(r.State.Entries); n > 0 {
		return r.State.Entries[n-1].At
	}
	return poured
}

// out and cut are both loaves' unmoulding and cut.
func out(at time.Duration) []on {
	return []on{{at - time.Hour, batch.Ticked{Task: "unmould/loaf 1"}}, {at, batch.Ticked{Task: "unmould/loaf 2"}}}
}

func cut(at time.Duration) []on {
	return []on{
		{at, batch.Ticked{Task: "cut/side"}},
		{at, batch.BarsCut{Task: "cut/loaf 1", Loaf: 1, Bars: 8, Planned: 8}},
		{at, batch.BarsCut{Task: "cut/loaf 2", Loaf: 2, Bars: 8, Planned: 8}},
		{at, batch.SetAside{Task: "cut/ends"}},
		{at, batch.SetAside{Task: "cut/retained"}},
	}
}

const day = 24 * time.Hour

// tested is both loaves cut, the cure over, and tests on the 50th day and after.
func tested(facts ...on) []on {
	return slices.Concat(out(25*time.Hour), cut(2*day), []on{{45 * day, batch.Ticked{Task: rest.WholeCure}}}, facts)
}

// TestTimers: looks at the gel after an hour and three, and ten minutes after each that
// found it overheating; the recipe's time in the mould; twelve hours up to the cut; four
// weeks of cure at least and six as a rule, a weigh-in each week, a week from a failed test
// to the one that may answer it (common practice, no source, but for the time in the mould, which is the recipe's).
func TestTimers(t *testing.T) {
	high, fine := batch.Tested{Task: "test/alkali", Test: batch.PHTest, Value: 10.8}, batch.Tested{Task: "test/alkali", Test: batch.PHTest, Value: 9.8, Passed: true}
	tooHot := on{time.Hour, batch.GelLooked{Task: "gel/1 h", Look: batch.Rising}}
	for name, c := range map[string]struct {
		r    rest.Rest
		want string // want is each timer with when it asks, counted from the pour.
	}{
		"after the pour":          {resting(t, recipe.GelLeft), "gel look/1 1.0h, gel look/3 3.0h, unmould 24.0h"},
		"gel is prevented":        {resting(t, recipe.GelPrevented), "unmould 24.0h"},
		"nothing is poured":       {unpoured(t), ""},
		"overheated at one":       {resting(t, recipe.GelLeft, tooHot), "gel look/again 1 1.2h, gel look/3 3.0h, unmould 24.0h"},
		"full gel at one":         {resting(t, recipe.GelLeft, on{time.Hour, batch.GelLooked{Task: "gel/1 h", Look: batch.FullGel}}), "gel look/3 3.0h, unmould 24.0h"},
		"a look was left out":     {resting(t, recipe.GelLeft, on{time.Hour, batch.Skipped{Task: "gel/1 h", Reason: "asleep"}}), "gel look/3 3.0h, unmould 24.0h"},
		"one loaf is out":         {resting(t, recipe.GelLeft, out(25 * time.Hour)[0]), "unmould 24.0h, cut 36.0h"},
		"too soft":                {resting(t, recipe.GelLeft, tooHot, on{day, batch.UnmouldPutOff{Task: "unmould/loaf 1", For: 12 * time.Hour}}), "gel look/again 1 1.2h, gel look/3 3.0h, unmould 24.0h, unmould/loaf 1 36.0h"},
		"one is in the freezer":   {resting(t, recipe.GelLeft, on{day, batch.UnmouldPutOff{Task: "unmould/loaf 1", For: 3 * time.Hour}}, on{day, batch.UnmouldPutOff{Task: "unmould/loaf 2", For: 12 * time.Hour}}), "gel look/1 1.0h, gel look/3 3.0h, unmould/loaf 1 27.0h, unmould/loaf 2 36.0h"},
		"out of the moulds":       {resting(t, recipe.GelLeft, out(25*time.Hour)...), "cut 36.0h"},
		"too soft to cut":         {resting(t, recipe.GelLeft, append(out(25*time.Hour), on{26 * time.Hour, batch.UnmouldPutOff{Task: "cut/loaf 2", For: 12 * time.Hour}})...), "cut 36.0h, cut/loaf 2 38.0h"},
		"cut, no bar is marked":   {resting(t, recipe.GelLeft, append(out(25*time.Hour), cut(2*day)...)...), "ready 1056.0h"},
		"a bar was weighed":       {resting(t, recipe.GelLeft, append(append(out(25*time.Hour), cut(2*day)...), on{3 * day, batch.WeighedIn{Task: "cure/bar 1", Bar: "1", Mass: 100 * g}})...), "weigh-in/1 240.0h, ready 1056.0h"},
		"the cure was called off": {resting(t, recipe.GelLeft, append(append(out(25*time.Hour), cut(2*day)...), on{30 * day, batch.Ticked{Task: rest.WholeCure}})...), ""},
		"a test failed":           {resting(t, recipe.GelLeft, tested(on{50 * day, high})...), "retest/9 1368.0h"},
		"its day was another":     {resting(t, recipe.GelLeft, tested(on{50 * day, batch.Tested{Task: "test/alkali", Test: batch.PHTest, Value: 10.8, Said: batch.Said{When: poured.Wall.Add(48 * day)}}})...), "retest/9 1320.0h"},
		"passed too soon":         {resting(t, recipe.GelLeft, tested(on{50 * day, high}, on{53 * day, fine})...), "retest/9 1368.0h"},
		"failed again":            {resting(t, recipe.GelLeft, tested(on{50 * day, high}, on{57 * day, high})...), "retest/10 1536.0h"},
		"passed after a week":     {resting(t, recipe.GelLeft, tested(on{50 * day, high}, on{57 * day, fine})...), ""},
		"the look failed, too":    {resting(t, recipe.GelLeft, tested(on{50 * day, high}, on{51 * day, batch.Tested{Task: rest.LookTest, Test: batch.LookTest, Words: "a bead"}})...), "retest/9 1368.0h, retest/10 1392.0h"},
		"held":                    {resting(t, recipe.GelLeft, tested(on{50 * day, high}, on{50 * day, batch.Held{Task: rest.DecideID, Reason: "pH"}})...), "retest/9 1368.0h"},
		"released all the same":   {resting(t, recipe.GelLeft, tested(on{50 * day, high}, on{50 * day, batch.Released{Task: rest.DecideID, Reason: "practice"}})...), ""},
	} {
		var got []string
		for _, each := range c.r.Timers(c.r.Stages()) {
			got = append(got, fmt.Sprintf("%s %.1fh", each.ID, each.AsksAt(last(c.r)).Sub(poured.Wall).Hours()))
		}
		if have := strings.Join(got, ", "); have != c.want {
			t.Errorf("%s:\n got %s\nwant %s", name, have, c.want)
		}
	}
}

// TestAhead: what has not begun is reckoned from when the step before it is due, and is
// not known yet (marked with ?).
func TestAhead(t *testing.T) {
	for name, c := range map[string]struct {
		r    rest.Rest
		want string
	}{
		"nothing is poured": {unpoured(t), ""},
		"after the pour":    {resting(t, recipe.GelLeft), "unmould 1, cut 1.5?, weigh-in/1 8.5?, weigh-in/2 15.5?, weigh-in/3 22.5?, weigh-in/4 29.5?, weigh-in/5 36.5?, weigh-in/6 43.5?, ready 43.5?"},
		"out of the moulds": {resting(t, recipe.GelLeft, on{2 * day, batch.Ticked{Task: "unmould/loaf 1"}}, on{2 * day, batch.Ticked{Task: "unmould/loaf 2"}}), "cut 2.5, weigh-in/1 9.5?, weigh-in/2 16.5?, weigh-in/3 23.5?, weigh-in/4 30.5?, weigh-in/5 37.5?, weigh-in/6 44.5?, ready 44.5?"},
		"weighed twice": {
			resting(t, recipe.GelLeft, append(append(out(day), cut(2*day)...),
				on{2 * day, batch.WeighedIn{Task: "cure/bar 1", Bar: "1", Mass: 100 * g}}, on{30 * day, batch.WeighedIn{Task: "cure/bar 1", Bar: "1", Mass: 90 * g}})...),
			"weigh-in/2 37, weigh-in/3 44?, ready 44",
		},
		"due after the bars are ready": {
			resting(t, recipe.GelLeft, append(append(out(day), cut(2*day)...), on{40 * day, batch.WeighedIn{Task: "cure/bar 1", Bar: "1", Mass: 100 * g}})...),
			"weigh-in/1 47, ready 44",
		},
		"the cure is over": {resting(t, recipe.GelLeft, append(append(out(day), cut(2*day)...), on{30 * day, batch.Ticked{Task: rest.WholeCure}})...), ""},
		"a test failed":    {resting(t, recipe.GelLeft, tested(on{50 * day, batch.Tested{Task: "test/alkali", Test: batch.PHTest, Value: 10.8}})...), "retest/9 57"},
	} {
		var got []string
		for _, d := range c.r.Ahead(c.r.Timers(c.r.Stages()), last(c.r)) {
			word := fmt.Sprintf("%s %g", d.ID, d.At.Sub(poured.Wall).Hours()/24)
			if !d.Known {
				word += "?"
			}
			got = append(got, word)
		}
		if have := strings.Join(got, ", "); have != c.want {
			t.Errorf("%s:\n got %s\nwant %s", name, have, c.want)
		}
	}
}

// TestUntested: what keeps bars from being released without a reason.
func TestUntested(t *testing.T) {
	look := batch.Tested{Task: rest.LookTest, Test: batch.LookTest, Words: "a white bead"}
	high := batch.Tested{Task: "test/alkali", Test: batch.PHTest, Value: 10.8}
	fine := batch.Tested{Task: "test/alkali", Test: batch.FreeAlkaliTest, Value: 0.02, Passed: true}
	for name, c := range map[string]struct {
		facts []batch.Fact
		want  []string
	}{
		"nothing":                          {nil, nil},
		"passed":                           {[]batch.Fact{fine}, nil},
		"failed":                           {[]batch.Fact{high}, []string{"failed: pH 10.8"}},
		"free alkali, the same day":        {[]batch.Fact{high, fine}, []string{"failed: pH 10.8; since then free alkali 0.02 % as NaOH passed, too soon to answer it: test again from 2026-04-28"}},
		"the last one counts":              {[]batch.Fact{fine, high}, []string{"failed: pH 10.8"}},
		"the eye saw something":            {[]batch.Fact{fine, look}, []string{"failed: look: a white bead"}},
		"left out":                         {[]batch.Fact{batch.Skipped{Task: "test/alkali", Reason: "no strips"}, batch.Skipped{Task: rest.LookTest, Reason: "dark"}}, []string{"not tested for alkali: no strips", "not looked over: dark"}},
		"the cure was cut short":           {[]batch.Fact{batch.Skipped{Task: rest.WholeCure, Reason: "a gift"}}, []string{"the cure was cut short: a gift"}},
		"a reaction, and a mere complaint": {[]batch.Fact{batch.Complained{About: batch.SkinReaction, Words: "red hands"}, batch.Complained{About: batch.Complaint, Words: "soft"}}, []string{"skin reaction: red hands"}},
	} {
		var facts []on
		for _, f := range c.facts {
			facts = append(facts, on{50 * day, f})
		}
		if got := resting(t, recipe.GelLeft, facts...).Untested(); !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}

// TestStages: the order after the clean-up, and what is offered of a batch whose loaves
// are cut: bars up to their number, marked bars up to six.
func TestStages(t *testing.T) {
	waits := map[string]string{}
	for _, st := range resting(t, recipe.GelLeft).Stages() {
		waits[st.ID] = strings.Join(st.After, " and ")
	}
	for id, want := range map[string]string{
		"gel": "cover", "unmould": "clean up", "cut": "unmould", "bars": "cut", "cure": "cut", "release test": "cure", "release": "bars and release test",
	} {
		if got, ok := waits[id]; !ok || got != want {
			t.Errorf("%s follows %q, want %q", id, got, want)
		}
	}
	facts := append(out(day), cut(2*day)...)
	facts = append(facts, on{2 * day, batch.BarsWeighed{Task: "bars/loaf 1", Loaf: 1, Count: 7, Mass: 700 * g}}, on{2 * day, batch.BarsWeighed{Task: "bars/loaf 2", Loaf: 2, Count: 8, Mass: 800 * g}})
	for n := range 6 {
		bar := fmt.Sprint(n + 1)
		facts = append(facts, on{2 * day, batch.WeighedIn{Task: "cure/bar " + bar, Bar: bar, Mass: 100 * g}})
	}
	marked := 0
	for _, st := range resting(t, recipe.GelLeft, facts...).Stages() {
		for _, task := range st.Tasks {
			switch {
			case task.Do == work.WeighIn:
				marked++
			case task.ID == "bars/loaf 1" && (task.Done || task.Counted != 7 || task.Mass != 700*g):
				t.Errorf("with a bar to go: %+v", task)
			case task.ID == "bars/loaf 2" && !task.Done:
				t.Errorf("all bars weighed: %+v", task)
			case st.Kind == work.GelStage && task.Skipped == "":
				t.Errorf("after the unmoulding it asks for %s", task.ID)
			}
		}
	}
	if marked != 6 {
		t.Errorf("%d bars are weighed in, and a seventh may be no more than offered", marked)
	}
}

// TestRelease: who releases bars decides; bars that are held are not done with.
func TestRelease(t *testing.T) {
	for name, c := range map[string]struct {
		facts []on
		done  bool
		title string
	}{
		"neither":       {nil, false, "release"},
		"released":      {[]on{{50 * day, batch.Released{Task: rest.DecideID}}}, true, "release"},
		"held":          {[]on{{50 * day, batch.Held{Task: rest.DecideID, Reason: "fog"}}}, false, "release: held"},
		"held again":    {[]on{{50 * day, batch.Released{Task: rest.DecideID}}, {51 * day, batch.Held{Task: rest.DecideID, Reason: "fog"}}}, false, "release: held"},
		"held, and let": {[]on{{50 * day, batch.Held{Task: rest.DecideID, Reason: "fog"}}, {51 * day, batch.Released{Task: rest.DecideID}}}, true, "release"},
	} {
		stages := resting(t, recipe.GelLeft, c.facts...).Stages()
		release := stages[len(stages)-1]
		if release.Title != c.title || release.Tasks[0].Done != c.done {
			t.Errorf("%s: %q, done %v", name, release.Title, release.Tasks[0].Done)
		}
	}
}

// TestEachLoafByItself: a loaf that is out turns brittle twelve hours later, whatever the
// other does; what is out and what is cut is counted no more; and it is cut while the other
// is too soft to leave its mould (common practice, no source).
func TestEachLoafByItself(t *testing.T) {
	first := on{25 * time.Hour, batch.Ticked{Task: "unmould/loaf 1"}}
	soft := on{25 * time.Hour, batch.UnmouldPutOff{Task: "unmould/loaf 2", For: 24 * time.Hour}}
	second := on{50 * time.Hour, batch.Ticked{Task: "unmould/loaf 2"}}
	side := on{26 * time.Hour, batch.Ticked{Task: "cut/side"}}
	cutFirst := on{26 * time.Hour, batch.BarsCut{Task: "cut/loaf 1", Loaf: 1, Bars: 8, Planned: 8}}
	softToCut := on{26 * time.Hour, batch.UnmouldPutOff{Task: "cut/loaf 1", For: 48 * time.Hour}}
	seen := on{38 * time.Hour, batch.TimerSeen{Timer: "cut"}}
	for name, c := range map[string]struct {
		facts []on
		want  string
	}{
		"both in their moulds":         {nil, "unmould 2 loaves 24h"},
		"one is out":                   {[]on{first, soft}, "unmould loaf 2 49h, cut loaf 1 before it turns brittle 37h"},
		"one is cut":                   {[]on{first, soft, side, cutFirst}, "unmould loaf 2 49h"},
		"both are out":                 {[]on{first, second}, "cut 2 loaves before it turns brittle 37h"},
		"the second is out":            {[]on{first, side, cutFirst, second}, "cut loaf 2 before it turns brittle 62h"},
		"too soft for the other's cut": {[]on{first, side, softToCut, cutFirst, second}, "cut loaf 2 before it turns brittle 62h"},
		"seen before it was out":       {[]on{first, side, seen, cutFirst, second}, "cut loaf 2 before it turns brittle 62h"},
	} {
		r := resting(t, recipe.GelPrevented, c.facts...)
		var got []string
		for _, each := range r.Timers(r.Stages()) {
			if strings.HasPrefix(each.ID, "unmould") || strings.HasPrefix(each.ID, "cut") {
				got = append(got, fmt.Sprintf("%s %.0fh", each.Label, each.AsksAt(last(r)).Sub(poured.Wall).Hours()))
			}
			if w, said := r.State.Timer(each.ID); said && w.Seen {
				t.Errorf("%s: %s is seen", name, each.ID)
			}
		}
		if have := strings.Join(got, ", "); have != c.want {
			t.Errorf("%s:\n got %s\nwant %s", name, have, c.want)
		}
	}
}

// TestSeams: the side a loaf is laid on is said to matter for seams only where pieces meet
// in it, or may.
func TestSeams(t *testing.T) {
	hint := func(lengths ...quantity.Length) string {
		r := resting(t, recipe.GelLeft)
		if len(lengths) > 0 {
			layer := r.Control.Recipe.Layers[0]
			row := cutting.PlacedRow{N: 1}
			for _, l := range lengths {
				row.Pieces = append(row.Pieces, cutting.Piece{Length: l})
			}
			r.Control.Recipe.Layers = []recipe.Layer{layer}
			r.Control.Sticks = nil
			for _, e := range layer.Embeds {
				r.Control.Sticks = append(r.Control.Sticks, recipe.StickPlan{
					Embeds: []recipe.StickEmbed{{Layer: layer.Name, Embed: e.Name}}, Plan: cutting.Plan{Loaves: []cutting.PlacedLoaf{{Rows: []cutting.PlacedRow{row}}}},
				})
			}
		}
		for _, st := range r.Stages() {
			for _, task := range st.Tasks {
				if task.ID == "cut/side" {
					return task.Hint
				}
			}
		}
		return ""
	}
	const seam = "every seam between embeds"
	if got := hint(200 * quantity.Millimetre); strings.Contains(got, seam) || got == "" {
		t.Errorf("one whole stick: %q", got)
	}
	if got := hint(100*quantity.Millimetre, 100*quantity.Millimetre); !strings.Contains(got, seam) {
		t.Errorf("two pieces: %q", got)
	}
	if got := hint(); !strings.Contains(got, seam) {
		t.Errorf("as planned or not planned: %q", got)
	}
}

// TestCuredBarsSayHowOldTheirWeightIs: what cured bars should weigh comes from the last
// weigh-in, whose day is said.
func TestCuredBarsSayHowOldTheirWeightIs(t *testing.T) {
	hint := func(facts ...on) string {
		for _, st := range resting(t, recipe.GelLeft, append(append(out(day), cut(2*day)...), facts...)...).Stages() {
			for _, task := range st.Tasks {
				if task.ID == rest.WeightTest {
					return task.Hint
				}
			}
		}
		return ""
	}
	weighed := func(at time.Duration) on {
		return on{at, batch.WeighedIn{Task: "cure/bar 1", Bar: "1", Mass: 116 * g}}
	}
	if got := hint(weighed(2*day), weighed(9*day)); !strings.Contains(got, "on 11 March, day 7 of the cure") {
		t.Errorf("weighed on day 7: %q", got)
	}
	if got := hint(); strings.Contains(got, "day") || got == "" {
		t.Errorf("never weighed: %q", got)
	}
}
