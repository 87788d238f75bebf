package steps_test

import (
	"math"
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/sample"
	"bench/internal/work"
)

// TestOtherIsWanted: what is read second must be as warm as makes up for the first, by
// the balance of heat. By hand: oils of 2.0 J/(g K), lye solution of 33.3 % of 3.514
// (the values and sources of solution's own test), 3.3 to 3.7 for others near it.
func TestOtherIsWanted(t *testing.T) {
	for first, hint := range map[string]string{
		"31": "With the lye solution at 31 °C it wants", "45": "With the lye solution at 45 °C it wants", "38": "", "38.3": "", "80": "The lye solution at 80 °C must cool first",
	} {
		b := begin(sample.Control(t, "lighthouse-at-dusk.yaml", 3))
		b.workTo(t, "sea/lye temperature")
		both := b.task(t, "sea/lye temperature").Wanted
		b.typed(t, "sea/lye temperature", first)
		oils := b.task(t, "sea/oil temperature")
		if !strings.HasPrefix(oils.Hint, hint) || hint == "" && oils.Hint != "" {
			t.Errorf("lye at %s: %q, want %q", first, oils.Hint, hint)
		}
		if other := strings.HasPrefix(hint, "With"); other != (oils.Wanted != both) {
			t.Errorf("lye at %s: %s is wanted of the oils", first, oils.Wanted)
		} else if !other {
			continue
		}
		lye, fat := 0.0, 0.0
		for _, st := range b.plan().Stages {
			for _, task := range st.Tasks {
				switch {
				case st.Batter != "sea" || task.Do != work.Weigh:
				case st.Kind == work.LyeSolution:
					lye += task.Mass.Grams()
				case st.Kind == work.Oils:
					fat += task.Mass.Grams()
				}
			}
		}
		read, _ := quantity.ParseTemperature(first + " °C")
		off := both.Celsius() - read.Celsius()
		least, most := off*lye*3.3/(fat*2), off*lye*3.7/(fat*2)
		if got := oils.Wanted.Celsius() - both.Celsius(); got < min(least, most)-0.5 || got > max(least, most)+0.5 {
			t.Errorf("lye at %s: the oils want %s, by hand %.1f to %.1f more than %s", first, oils.Wanted, least, most, both)
		}
		b.typed(t, "sea/oil temperature", oils.Wanted.String())
		meet := b.task(t, "sea/meet")
		if mix, err := quantity.ParseTemperature(meet.Shows); err != nil || math.Abs(mix.Celsius()-both.Celsius()) > 0.5 {
			t.Errorf("lye at %s, oils at %s give %s, not %s", first, oils.Wanted, meet.Shows, both)
		}
	}
}

// TestCoolMixIsSaid: two that are each near enough, and together cooler than is wanted.
func TestCoolMixIsSaid(t *testing.T) {
	b := begin(sample.Control(t, "lighthouse-at-dusk.yaml", 3))
	b.workTo(t, "sea/lye temperature")
	b.typed(t, "sea/lye temperature", "31")
	b.typed(t, "sea/oil temperature", "38")
	if meet := b.task(t, "sea/meet"); !strings.Contains(meet.Hint, "°C below the 38 °C that is wanted.") {
		t.Errorf("%q, %q", meet.Title, meet.Hint)
	}
}

// TestUndecidedStandsAtTheGate: what was off and is not decided is named where the lye is
// about to meet the oils, and no longer once it was decided.
func TestUndecidedStandsAtTheGate(t *testing.T) {
	b := begin(sample.Control(t, "lighthouse-at-dusk.yaml", 3))
	b.workTo(t, "sea/castor")
	b.typed(t, "sea/castor", "45")
	b.workTo(t, "sea/meet")
	if hint := b.task(t, "sea/meet").Hint; !strings.Contains(hint, "! Not decided yet (d): castor oil") {
		t.Errorf("%q", hint)
	}
	d := b.plan().Deviations[0]
	b.put(b.plan().Ways(d)[0].Fact)
	b.workTo(t, "sea/meet")
	if hint := b.task(t, "sea/meet").Hint; strings.Contains(hint, "Not decided") {
		t.Errorf("decided: %q", hint)
	}
}

// TestHotLyeIsSaid: lye solution of 80 °C with oils of 20 °C gives a mix that may meet; that
// a splash of it scalds is said at the gate and at the pour (common practice, no source),
// and no longer once it was read cool.
func TestHotLyeIsSaid(t *testing.T) {
	b := begin(sample.Control(t, "lighthouse-at-dusk.yaml", 3))
	b.workTo(t, "sea/lye temperature")
	read := func(lye, oils quantity.Temperature) {
		b.put(batch.TemperatureTaken{Task: "sea/lye temperature", Temperature: lye})
		b.put(batch.TemperatureTaken{Task: "sea/oil temperature", Temperature: oils})
	}
	read(80*quantity.Degree, 20*quantity.Degree)
	meet := b.task(t, "sea/meet")
	if _, hot := b.plan().TooHot("sea"); hot || !meet.Open {
		t.Fatalf("together they are too hot: %q, %q", meet.Title, meet.Waits)
	}
	if !strings.HasPrefix(meet.Hint, "! The lye solution is at 80 °C") {
		t.Errorf("at the gate: %q", meet.Hint)
	}
	if pour := b.task(t, "sea/combine"); !strings.Contains(pour.Hint, "! The lye solution is at 80 °C") || !strings.Contains(pour.Hint, "Rinse the jug") {
		t.Errorf("at the pour: %q", pour.Hint)
	}
	read(70*quantity.Degree, 30*quantity.Degree)
	if hint := b.task(t, "sea/meet").Hint + b.task(t, "sea/combine").Hint; strings.Contains(hint, "scalds") {
		t.Errorf("at 70 °C: %q", hint)
	}
}
