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
