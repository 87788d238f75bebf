package steps_test

import (
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/sample"
	"bench/internal/say"
	"bench/internal/steps"
)

// TestSaidStaysSaid: what was done is told as it was asked then, whatever is decided later:
// a lighthouse goes deeper where a moon was left out after it was pressed. A fact of before
// is told by the plan, as ever.
func TestSaidStaysSaid(t *testing.T) {
	b := begin(sample.Control(t, "lighthouse-at-dusk.yaml", 2))
	press, moon := steps.EmbedTask("base", 1, "lighthouse"), steps.EmbedTask("base", 1, "moon")
	b.workTo(t, press)
	title := b.task(t, press).Title
	b.asked(t, press)
	pressed := b.state.Entries[len(b.state.Entries)-1]
	before := pressed
	before.Fact = batch.Ticked{Task: press}
	left := batch.Skipped{Task: moon, Asked: b.task(t, moon).Title, Reason: "it broke"}
	if err := judge.Allows(b.plan(), left, b.moment()); err != nil {
		t.Fatal(err)
	}
	b.put(left)
	if now := b.task(t, press).Title; now == title {
		t.Fatalf("nothing changed: %q", now)
	}
	if got := say.Fact(pressed, b.plan(), b.state); !strings.Contains(got, title) {
		t.Errorf("pressed as %q, and told as %q", title, got)
	}
	if got := say.Fact(before, b.plan(), b.state); !strings.Contains(got, b.task(t, press).Title) {
		t.Errorf("a fact of before is told as %q", got)
	}
	if got := say.Fact(b.state.Entries[len(b.state.Entries)-1], b.plan(), b.state); !strings.Contains(got, left.Asked) {
		t.Errorf("left out as %q, and told as %q", left.Asked, got)
	}
}
