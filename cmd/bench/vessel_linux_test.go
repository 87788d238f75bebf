package main

import (
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/quantity"
)

// TestAnotherVessel takes another jug for the lye than the plan names, in the real
// program: the scale reads by its tare from then on, also after the program was killed,
// and the record says so.
func TestAnotherVessel(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	m := sits(t, home, dawn).begins("260302A")
	m.works("sea/water")
	m.Sees("not tared", "vessel 148.5")
	took := batch.VesselReplaced{Vessel: "lye jug A", By: "spare jug", Tare: 164 * quantity.Gram, Brim: 1500 * quantity.Millilitre, Held: "the sea lye solution"}
	m.rests()
	m.Send("i")
	m.Sees("Another vessel?", "Lye jug A is for the sea lye solution")
	m.rests()
	m.Send("lye jug A" + enter)
	m.Sees("say which other was taken")
	m.Send(strings.Repeat("\x7f", len("lye jug A")))
	m.says("spare jug, 164.0 g, 1.5 l"+enter, took)
	m.Sees("spare jug", "vessel 164.0")
	m.rests()
	m.works("sea/dissolve")
	m.agrees()
	m.Kill()

	m = sits(t, home, dawn.Add(time.Minute)).reopens("260302A")
	m.works("sea/lye jug/dissolved")
	if jug, _ := m.next(); jug.Vessel != "spare jug" || jug.Tare != took.Tare {
		t.Fatalf("%s, %s empty", jug.Vessel, jug.Tare)
	}
	m.Sees("spare jug")
	m.works("dusk/water")
	m.agrees()
	m.Send(esc)
	m.Sees("Recipes")
	m.rests()
	m.setsUp()
	m.Sees("3 of 3 moulds called harbour loaf are in use for batch 260302A") // The batch that could be begun beside it.
	if strings.Contains(m.Screen(), "lye jug A holds") {
		t.Errorf("lye jug A is free:\n%s", m.Screen())
	}
	m.Send(esc)
	m.Sees("Recipes")
	m.rests()
	m.leaves()
	for command, want := range map[string]string{
		"record 260302A":               "spare jug taken instead of lye jug A for the sea lye solution, 164 g empty, 1500 ml to the brim",
		"record 260302A --format json": "spare jug taken instead of lye jug A", "find --note spare": "260302A", "verify": "everything is whole",
	} {
		if said := printed(t, home, strings.Fields(command)...); !strings.Contains(said, want) {
			t.Errorf("bench %s does not say %q:\n%s", command, want, said)
		}
	}
}

// TestAnsweredInANote goes on with a batch whose store was written when the answer for a
// shared vessel was a note: nothing is asked again, the tare is that of the plan, and the
// note stays readable.
func TestAnsweredInANote(t *testing.T) {
	t.Parallel()
	home := earlier(t, "answered/journal.db")
	const note = "lye jug A holds the water of the sea lye of batch 260302A: took the spare jug, 214.0 g empty"
	if said := printed(t, home, "record", "260302B"); !strings.Contains(said, note) {
		t.Errorf("the note is gone:\n%s", said)
	}
	m := sits(t, home, dawn.Add(time.Minute)).reopens("260302B")
	m.works("sea/sodium hydroxide") // What goes into the jug on the way would be asked about.
	if jug, _, _ := m.plan.Task("sea/lye jug/dissolved"); jug.Vessel != "lye jug A" || jug.Tare != 148_500 {
		t.Errorf("%s, %s empty", jug.Vessel, jug.Tare)
	}
	m.agrees()
	m.leaves()
	if said := printed(t, home, "verify"); !strings.Contains(said, "2 batches") || !strings.Contains(said, "everything is whole") {
		t.Error(said)
	}
}
