package steps_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"bench/internal/sample"
	"bench/internal/steps"
	"bench/internal/timer"
)

// coolTimer finds the forecast among a plan's timers.
func coolTimer(p steps.Plan, batter string) (timer.Timer, bool) {
	for _, t := range p.Timers {
		if t.ID == "cool/"+batter {
			return t, true
		}
	}
	return timer.Timer{}, false
}

// A third of sodium hydroxide by weight heats itself to near the boiling point
// of water, less what the jug takes (common practice, no source; internal/calc
// holds the forecast to published heats of solution). It is said before the
// alkali goes in.
func TestThePeakIsSaidBeforehand(t *testing.T) {
	b := begin(sample.Control(t, "lighthouse-at-dusk.yaml", 3))
	b.workTo(t, "sea/dissolve")
	peak := b.plan().Batters[0].Peak
	if peak.Celsius < 75 || peak.Celsius > 115 || peak.PlusMinus < 3 || peak.PlusMinus > 20 {
		t.Errorf("%+v", peak)
	}
	if hint := b.task(t, "sea/dissolve").Hint; !strings.Contains(hint, "It can reach") || !strings.Contains(hint, "give or take") {
		t.Error(hint)
	}
	warm := b.state.Control
	warm.Room = 30_000 // Not stated is 20 °C.
	b.state.Control, b.planned = warm, nil
	if hotter := b.plan().Batters[0].Peak; hotter.Celsius < peak.Celsius+5 {
		t.Errorf("in a warmer room %+v", hotter)
	}
}

// Readings that fall by Newton's law, T = 20 + 60·e^(−t/40 min), reach 38 °C
// after 40·ln(60/18) = 48.2 min. The forecast needs two, becomes a timer, and
// the gate still asks for a reading once the oils are there.
func TestTwoReadingsForecastTheCooling(t *testing.T) {
	b := begin(sample.Control(t, "lighthouse-at-dusk.yaml", 3))
	b.workTo(t, "sea/dissolve")
	if b.task(t, "sea/lye temperature").Open {
		t.Error("there is nothing to read yet")
	}
	b.asked(t, "sea/dissolve")
	b.typed(t, "sea/lye temperature", "80")
	started := b.now
	if _, ok := coolTimer(b.plan(), "sea"); ok {
		t.Error("a forecast from one reading")
	}
	if hint := b.task(t, "sea/lye temperature").Hint; !strings.Contains(hint, "second reading") {
		t.Error(hint)
	}
	b.now = started.Add(20*time.Minute - 30*time.Second)
	b.typed(t, "sea/lye temperature", "56.4") // 20 + 60·e^(−1/2)
	cool, ok := coolTimer(b.plan(), "sea")
	if minutes := cool.After.Minutes(); !ok || math.Abs(minutes-48.2) > 0.5 {
		t.Fatalf("forecast of %.1f min: %+v", minutes, cool)
	}
	if !strings.Contains(cool.Label, "38 °C, give or take") {
		t.Error(cool.Label)
	}
	b.workTo(t, "sea/lye temperature") // It was read, and is asked for again.
	if b.task(t, "sea/oil temperature").Open {
		t.Error("an old reading opens the gate")
	}
	b.typed(t, "sea/lye temperature", "40")
	b.typed(t, "sea/oil temperature", "40")
	b.asked(t, "sea/meet")
	b.workTo(t, "sea/combine")
	b.asked(t, "sea/combine")
	if _, ok := coolTimer(b.plan(), "sea"); ok {
		t.Error("the forecast outlives the lye solution")
	}
}

// A reading that rises, and a room that is warmer than what is wanted, get
// words instead of a forecast.
func TestNoForecastIsSaid(t *testing.T) {
	for _, second := range []string{"90", "20"} {
		b := begin(sample.Control(t, "lighthouse-at-dusk.yaml", 3))
		b.workTo(t, "sea/dissolve")
		b.asked(t, "sea/dissolve")
		b.typed(t, "sea/lye temperature", "80")
		b.wait(20 * time.Minute)
		b.typed(t, "sea/lye temperature", second)
		if _, ok := coolTimer(b.plan(), "sea"); ok {
			t.Errorf("a forecast from 80 and %s °C", second)
		}
		if hint := b.task(t, "sea/lye temperature").Hint; !strings.Contains(hint, "No forecast: ") {
			t.Error(hint)
		}
	}
}
