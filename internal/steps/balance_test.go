package steps_test

import (
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/sample"
	"bench/internal/say"
	"bench/internal/work"
)

// TestBalance: what went in is what is in the loaves, set aside and in vessels, by
// hand: harbour's two pots and 3 × 2 jugs keep 20 g each, tide lines' pot, its three
// jugs and 3 × 3 jugs likewise.
func TestBalance(t *testing.T) {
	for name, c := range map[string]struct {
		control recipe.Control
		vessels int
	}{
		"harbour":           {harbour(), 8},
		"one pot, 3 layers": {sample.Control(t, "tide-lines.yaml", 3), 13},
		"a single loaf":     {sample.Control(t, "wharf-puck.yaml", 1), 1},
	} {
		b := resting(t, c.control)
		p := b.plan()
		in, loaves := quantity.Mass(0), quantity.Mass(0)
		for _, st := range p.Stages {
			for _, task := range st.Tasks {
				switch {
				case st.Kind == work.Texture || task.Do == work.Portion || strings.HasSuffix(task.ID, "/cup"):
				case task.Do == work.Weigh:
					in += task.Mass
				case task.Material == "batter":
					loaves += task.Target
				}
			}
		}
		got := p.Balance
		if !got.Poured || got.In != got.Loaves+got.Leftover+got.Rest || got.Vessels != c.vessels || got.Planned != quantity.Mass(c.vessels)*20*g {
			t.Errorf("%s: %+v", name, got)
		}
		if abs(got.In-in) > g || got.Loaves != loaves || abs(got.Rest-got.Planned) > g {
			t.Errorf("%s: %v in and %v in the loaves, by hand %v and %v: %s", name, got.In, got.Loaves, in, loaves, got)
		}
		if asked := judge.Doubt(p, batch.SetAside{Task: "clean up/leftover", Piece: batch.LeftoverBatter}); asked != "" {
			t.Errorf("%s: %q", name, asked)
		}
	}
}

// TestBatterThatIsNowhere: the pot weighs 100 g less than what went in, and nobody set
// it aside: that is asked about and kept with the answer. Set aside, it is in order.
func TestBatterThatIsNowhere(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/sea/gross")
	b.typed(t, "sea/sea/gross", (b.task(t, "sea/sea/gross").Target - 100*g).At(g/10))
	b.workTo(t, "clean up/leftover")
	if hint := b.task(t, "clean up/leftover").Hint; !strings.Contains(hint, b.plan().Balance.String()[1:]) {
		t.Errorf("%q", hint)
	}
	for text, want := range map[string]string{
		"0": "100 g of batter are neither in the loaves nor expected in vessels", "98": "", "": "",
		"400": "140 g more came out than went in",
	} {
		f, err := judge.Fact(b.plan(), "clean up/leftover", judge.Answer{How: batch.Typed, Text: text})
		if text == "" {
			f, err = judge.Fact(b.plan(), "clean up/leftover", judge.Answer{How: batch.AtTarget})
		}
		if err != nil {
			t.Fatal(err)
		}
		if got := judge.Doubt(b.plan(), f); !strings.HasPrefix(got, want) || want == "" && got != "" {
			t.Errorf("%q: asked %q, want %q", text, got, want)
		}
	}
}

// TestSampleOfTheLeftover: a sample bar that was weighed with the leftover already would
// bring out more than went in, and is asked about; one that was not is a matter of course.
func TestSampleOfTheLeftover(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "clean up/leftover")
	rest := b.plan().Balance.Rest
	b.typed(t, "clean up/leftover", (rest - 20*g).At(g/10))
	for mass, want := range map[quantity.Mass]string{15 * g: "", 90 * g: "was this bar weighed as part of it? Then it is 0"} {
		got := judge.Doubt(b.plan(), batch.SetAside{Task: "clean up/sample", Piece: batch.SampleBar, Count: 1, Mass: mass})
		if want == "" && got != "" || !strings.Contains(got, want) {
			t.Errorf("%v: %q", mass, got)
		}
	}
	none := say.Fact(batch.Entry{Fact: batch.SetAside{Piece: batch.LeftoverBatter}}, b.plan(), b.state)
	some := say.Fact(batch.Entry{Fact: batch.SetAside{Piece: batch.LeftoverBatter, Count: 1}}, b.plan(), b.state)
	if none != "set aside: no leftover batter" || some != "set aside: leftover batter" {
		t.Errorf("%q, %q", none, some)
	}
}
