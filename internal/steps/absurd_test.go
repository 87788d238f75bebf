package steps_test

import (
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/work"
)

// Values that cannot be, typed at the bench: each is an error in words, no fact
// comes of it, and the task still asks for what it asked for. As a correction
// it leaves the first value standing.
func TestAbsurdAnswers(t *testing.T) {
	for _, task := range []string{"sea/olive", "sea/sodium hydroxide", "sea/lye jug/dissolved", "sea/lye temperature"} {
		b := begin(harbour())
		b.workTo(t, task)
		asked, n := b.task(t, task), len(b.state.Entries)
		for text, want := range map[string]string{
			"-5":             "it cannot be negative",
			"−5":             "it cannot be negative",
			"NaN":            "a number is missing",
			"nan g":          "a number is missing",
			"Inf":            "a number is missing",
			"-Inf":           "it cannot be negative",
			"1e12":           "without an exponent",
			"100000000000":   "more than 1000 kg",
			"1000000000 kg":  "more than 1000 kg",
			"0.1 mg":         "so little that nothing is left of it",
			"0.0001":         "so little that nothing is left of it",
			"99999999999999": "too many digits",
			"":               "type a number first",
			"12,345":         "can be read in two ways",
			"3 cups":         "not a unit that fits",
		} {
			if asked.Do == work.Temperature {
				switch text {
				case "0.1 mg", "0.0001": // Nearly freezing is asked about, not refused.
					continue
				case "100000000000", "99999999999999":
					want = ""
				case "1000000000 kg", "nan g":
					want = ""
				}
			}
			fact, err := judge.Fact(b.plan(), task, judge.Answer{How: batch.Typed, Text: text})
			if err == nil || !strings.Contains(err.Error(), want) {
				t.Errorf("%s, %q: fact %+v, error %v, want %q", task, text, fact, err, want)
			}
		}
		if again := b.task(t, task); again.Target != asked.Target || again.Done || len(b.state.Entries) != n {
			t.Errorf("%s: something was lost: %+v", task, again)
		}
		b.asked(t, task)
		for _, text := range []string{"-5", "NaN", "Inf", "100000000000", "1e9"} {
			if _, err := judge.Correct(b.plan(), b.state, len(b.state.Entries), text, "read wrong"); err == nil {
				t.Errorf("%s is corrected to %q", task, text)
			}
		}
	}
}

// What can be typed and cannot be meant is asked about, or refused by what the
// scale and the vessel can carry.
func TestUnlikelyAnswers(t *testing.T) {
	for task, cases := range map[string]map[string]string{
		"sea/sodium hydroxide": {"0": "asked", "900": "asked"},
		"sea/olive":            {"999000": "carries", "0.5": "asked"},
		"sea/oil temperature":  {"249": "unusual", "2": "unusual"},
	} {
		b := begin(harbour())
		b.workTo(t, task)
		for text, want := range cases {
			f, err := judge.Fact(b.plan(), task, judge.Answer{How: batch.Typed, Text: text})
			if err != nil {
				t.Fatal(err)
			}
			words := judge.Doubt(b.plan(), f)
			if err := judge.Allows(b.plan(), f, b.moment()); err != nil {
				words += err.Error()
			}
			if !strings.Contains(words, want) {
				t.Errorf("%s, %q: %q, want %q", task, text, words, want)
			}
		}
	}
}
