package label_test

import (
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/label"
	"bench/internal/rest"
	"bench/internal/sample"
	"bench/internal/steps"
)

// TestHeldBarsAreOpen: a label of bars that may not leave says so, until they are released
// (common practice, no source); a recipe has no bars.
func TestHeldBarsAreOpen(t *testing.T) {
	control := sample.Control(t, "lighthouse-at-dusk.yaml", 1)
	held := batch.Held{Task: rest.DecideID, Reason: "pH 11.3"}
	free := batch.Released{Task: rest.DecideID, Reason: "tested again"}
	begun := batch.Started{Control: control}
	for name, c := range map[string]struct {
		facts []batch.Fact
		want  string
	}{
		"a recipe":      {nil, ""},
		"not yet":       {[]batch.Fact{begun}, "the bars are not released"},
		"held":          {[]batch.Fact{begun, held}, "the bars are held: pH 11.3"},
		"held after":    {[]batch.Fact{begun, free, held}, "the bars are held: pH 11.3"},
		"released":      {[]batch.Fact{begun, free}, ""},
		"held, and let": {[]batch.Fact{begun, held, free}, ""},
	} {
		s := batch.State{Control: control}
		for _, f := range c.facts {
			s = s.Apply(batch.Entry{Seq: len(s.Entries) + 1, Fact: f})
		}
		var got []string
		for _, open := range label.Of("26C02A", steps.Of(s), s, label.Options{Market: label.EU}).Open {
			if strings.HasPrefix(open, "the bars are ") {
				got = append(got, open)
			}
		}
		if have := strings.Join(got, ", "); have != c.want {
			t.Errorf("%s: %q, want %q", name, have, c.want)
		}
	}
}

// TestOpenedAfterTheRelease: a skin reaction that is said after the release makes the label a
// proof, also with names that were looked up, until another word answers it.
func TestOpenedAfterTheRelease(t *testing.T) {
	s := batch.State{Control: sample.Control(t, "lighthouse-at-dusk.yaml", 1)}
	open := func(facts ...batch.Fact) string {
		for _, f := range facts {
			s = s.Apply(batch.Entry{Seq: len(s.Entries) + 1, Fact: f})
		}
		return strings.Join(label.Of("26C02A", steps.Of(s), s, label.Options{Market: label.EU, Checked: true}).Open, "; ")
	}
	word := batch.Released{Task: rest.DecideID, Reason: "titrated"}
	const since = "opened after the release, and not answered: skin reaction: itches"
	if got := open(batch.Started{Control: s.Control}, word); strings.Contains(got, "opened after") {
		t.Error(got)
	}
	if got := open(batch.Complained{About: batch.SkinReaction, Words: "itches"}); !strings.Contains(got, since) {
		t.Error(got)
	}
	if got := open(word); strings.Contains(got, "opened after") {
		t.Errorf("answered: %s", got)
	}
}

// TestReleasedOverAWarning: the terminal says over what and with which reason; it does not
// keep the label from being one.
func TestReleasedOverAWarning(t *testing.T) {
	s := batch.State{}
	for i, f := range []batch.Fact{
		batch.Started{Control: sample.Control(t, "lighthouse-at-dusk.yaml", 1)},
		batch.Tested{Task: "test/alkali", Test: batch.PHTest, Value: 11.2},
		batch.Released{Task: rest.DecideID, Reason: "titrated", Open: []string{"failed: pH 11.2"}},
	} {
		s = s.Apply(batch.Entry{Seq: i + 1, Fact: f})
	}
	l := label.Of("26C02A", steps.Of(s), s, label.Options{Market: label.EU, Checked: true})
	if got := strings.Join(l.Over, "; "); got != "failed: pH 11.2; the reason was: titrated" || strings.Contains(strings.Join(l.Open, "; "), "pH 11.2") {
		t.Errorf("over %q, open %q", got, l.Open)
	}
}

// TestLabelOfWhatIsNotThere: a batch that was abandoned, and what was not weighed, keep a
// label from being more than a proof.
func TestLabelOfWhatIsNotThere(t *testing.T) {
	b := sample.Begin(sample.Control(t, "lighthouse-at-dusk.yaml", 1))
	open := func() string {
		return strings.Join(label.Of("26C02A", b.Plan(), b.State, label.Options{Market: label.EU}).Open, "; ")
	}
	if got := open(); !strings.Contains(got, "nothing was weighed in this batch") {
		t.Error(got)
	}
	b.WorkTo(t, "sea/olive")
	if got := open(); !strings.Contains(got, "not weighed, and listed as planned: olive oil") || strings.Contains(got, "nothing was weighed") || strings.Contains(got, "ended") {
		t.Error(got)
	}
	b.Put(batch.Closed{Reason: "the phone rang"})
	if got := open(); !strings.Contains(got, "the batch ended before its release, or without it: the phone rang") {
		t.Error(got)
	}
	whole := sample.Begin(sample.Control(t, "lighthouse-at-dusk.yaml", 1))
	whole.WorkTo(t, "clean up/gloves")
	b = whole
	if got := open(); strings.Contains(got, "weighed") {
		t.Error(got)
	}
}
