package steps_test

import (
	"testing"

	"bench/internal/batch"
	"bench/internal/judge"
)

// TestReplacedExchangedHalfWay: in a cup that changed places, what was weighed since then
// is where it was put.
func TestReplacedExchangedHalfWay(t *testing.T) {
	const id = "dusk/dusk/loaf 2/evening smoke/cup"
	b := begin(harbour())
	b.put(batch.VesselReplaced{Vessel: "cup 1", By: "cup 2", Tare: 9 * g})
	b.workTo(t, id)
	if err := b.say(id, judge.Answer{How: batch.Typed, Text: "4", More: true}); err != nil {
		t.Fatal(err)
	}
	if task := b.task(t, id); task.Vessel != "cup 1" {
		t.Errorf("in %s", task.Vessel)
	}
}

// TestReplacedExchanges: a vessel of the plan that was taken for another changes places
// with it, and one that comes back is where it was.
func TestReplacedExchanges(t *testing.T) {
	b := begin(harbour())
	b.put(batch.VesselReplaced{Vessel: "jug 1", By: "jug 2", Tare: 121 * g})
	into := func() string {
		return b.task(t, "sea/sea/loaf 1").Into + ", " + b.task(t, "sea/sea/loaf 2").Into + ", " + b.task(t, "sea/sea/loaf 3").Into
	}
	if got := into(); got != "jug 2, jug 1, jug 3" {
		t.Errorf("into %s", got)
	}
	b.put(batch.VesselReplaced{Vessel: "jug 3", By: "bucket", Tare: 300 * g})
	b.put(batch.VesselReplaced{Vessel: "jug 2", By: "jug 1", Tare: 120 * g})
	if got := into(); got != "jug 1, jug 2, bucket" {
		t.Errorf("into %s", got)
	}
	b.put(batch.VesselReplaced{Vessel: "bucket", By: "jug 3", Tare: 119 * g})
	if got := into(); got != "jug 1, jug 2, jug 3" {
		t.Errorf("into %s", got)
	}
	// Dry alkali's cup is given to nothing else, however the facts read.
	b.put(batch.VesselReplaced{Vessel: "alkali cup", By: "cup 3", Tare: 9 * g})
	for _, u := range b.plan().Uses() {
		if u.Vessel == "alkali cup" || u.Vessel == "cup 3" && !u.Alkali {
			t.Errorf("%+v", u)
		}
	}
}
