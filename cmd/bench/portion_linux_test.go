package main

import (
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/quantity"
)

// TestPouredBackAndWeighed pours 30 g too much into the first jug, some of it back, and
// weighs what goes into the first mould, in the real program: what is still to come
// follows, also after the program was killed, and the record says it all.
func TestPouredBackAndWeighed(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	m := sits(t, home, dawn).begins("260302A")
	m.works("sea/base/loaf 1")
	portion, _ := m.next()
	typed := func(text string) batch.Fact {
		t.Helper()
		task, _ := m.next()
		f, err := judge.Fact(m.plan, task.ID, judge.Answer{How: batch.Typed, Text: text})
		if err != nil {
			t.Fatal(err)
		}
		return f
	}
	reading := (portion.StopAt - 30*quantity.Gram).At(portion.Reads)
	m.says(reading+enter, typed(reading))
	m.Sees("30.0 g over", "d: how to go on")
	m.rests()
	m.Send("d")
	m.Sees("How to go on", "Leave it", "back into")
	m.rests()
	m.says(enter, batch.Decided{Task: portion.ID, Off: 30 * quantity.Gram, Within: portion.Tolerance, Way: batch.PourBack, Mass: 30 * quantity.Gram})
	m.Sees("Out of jug 1, as was decided")
	m.rests()
	m.says("29.4"+enter, typed("29.4"))
	m.agrees()
	m.Kill()

	m = sits(t, home, dawn.Add(time.Minute)).reopens("260302A")
	m.works("sea/base/loaf 1/pour")
	m.rests()
	pour, _ := m.next()
	asked := pour.Target
	if want := portion.Target + 600 - 20*quantity.Gram; asked != want {
		t.Errorf("%s are to be poured, not %s", asked, want)
	}
	went := (asked - 12*quantity.Gram).At(quantity.Gram / 10)
	m.says(went+enter, typed(went))
	m.works("pour/base/read back")
	m.Sees("336 g asked 348")
	m.agrees()
	m.Send(esc)
	m.Sees("Recipes")
	m.rests()
	m.leaves()
	for command, wants := range map[string][]string{
		"record 260302A": {"Portion for loaf 1: pour some back (30.00 g)", "Pour back into large pot 29.4 g, asked 30.0", went + " g weighed into it"},
		"verify":         {"everything is whole"},
	} {
		for _, want := range wants {
			if said := printed(t, home, strings.Fields(command)...); !strings.Contains(said, want) {
				t.Errorf("bench %s does not say %q:\n%s", command, want, said)
			}
		}
	}
}
