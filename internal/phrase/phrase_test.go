package phrase_test

import (
	"errors"
	"testing"
	"time"

	"bench/internal/phrase"
	"bench/internal/timer"
)

func TestSentence(t *testing.T) {
	for said, want := range map[string]string{
		"the disk is full": "The disk is full.", "Is it?": "Is it?", " élan ": "Élan.", "": "", "done.": "Done.", "pH 15 is no pH": "pH 15 is no pH.", "a\x1b[2Jb": "A\ufffd[2Jb.",
	} {
		if got := phrase.Sentence(errors.New(said)); got != want {
			t.Errorf("%q: %q, want %q", said, got, want)
		}
	}
}

// TestTiming: the day is said with the time where it is not today's, in the place where
// one stands.
func TestTiming(t *testing.T) {
	place := time.FixedZone("harbour", 3600)
	now := timer.Moment{Wall: time.Date(2026, 3, 2, 22, 30, 0, 0, time.UTC)} // 23:30 there.
	soon := timer.Timer{Start: now, After: 10 * time.Minute}
	tomorrow := timer.Timer{Start: now, After: 45 * time.Minute}
	off := timer.Timer{Start: timer.Moment{Wall: now.Wall.Add(-time.Hour)}, After: time.Hour, Deferred: now, DeferFor: 5 * time.Minute}
	for name, c := range map[string]struct {
		t    timer.Timer
		want string
	}{
		"today":    {soon, soon.Say(now) + " (23:40)"},
		"tomorrow": {tomorrow, tomorrow.Say(now) + " (3 Mar 00:15)"},
		"put off":  {off, "put off until 23:35"},
		"counts":   {timer.Timer{Start: now}, timer.Timer{Start: now}.Say(now)},
	} {
		if got := phrase.Timing(c.t, now, place); got != c.want {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}
