package lye_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/lye"
	"bench/internal/quantity"
	"bench/internal/sample"
	"bench/internal/solution"
	"bench/internal/timer"
)

// TestWords: what is said to the hand that is about to stir. From 28 % on 100 °C lies
// within what is to be expected (the heats of solution and their sources are in
// internal/solution); where the weights make no solution the worst is said.
func TestWords(t *testing.T) {
	c := sample.Control(t, "lighthouse-at-dusk.yaml", 1)
	stock := c
	stock.Materials = append(stock.Materials[:0:0], stock.Materials...)
	for i := range stock.Materials {
		if stock.Materials[i].Name == c.Recipe.Batters[0].Alkali[0].Material {
			stock.Materials[i].Stock = 50 * quantity.Percent
		}
	}
	dry := "Tip the alkali into the water, a little at a time, and stir until clear"
	for name, c := range map[string]struct {
		s           lye.Solution
		peak, order string
		steams      bool
	}{
		"a third":          {lye.Solution{Control: c, Alkalis: []float64{100}, Water: 200}, "then it boils and spits: add it slowly, the jug in cold water", dry, true},
		"a tenth":          {lye.Solution{Control: c, Alkalis: []float64{100}, Water: 900}, ", and it steams", dry, true},
		"nothing":          {lye.Solution{Control: c, Alkalis: []float64{0}, Water: 0}, "It may heat to near boiling and steam", dry, false},
		"a stock solution": {lye.Solution{Control: stock, Alkalis: []float64{200}, Water: 100}, ", and it steams", "Stir stock solution and water until no streaks show", true},
	} {
		c.s.Batter = c.s.Control.Recipe.Batters[0]
		if got := c.s.SayPeak(); !strings.HasSuffix(got, c.peak) {
			t.Errorf("%s: %q, want %q", name, got, c.peak)
		}
		if got := c.s.Order(); got != c.order {
			t.Errorf("%s: %q, want %q", name, got, c.order)
		}
		if got := c.s.MostSteam(); (got > 0) != c.steams {
			t.Errorf("%s: %s of steam", name, got)
		}
	}
}

// TestCooling: by hand, with Newton's law in a room of 20 °C. From 60 to 40 °C in 20
// minutes halves what it is above the room, so that 35 °C, 15 above it, are reached
// 20·log2(40/15) = 28.3 minutes after the first reading.
func TestCooling(t *testing.T) {
	at := time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)
	var s batch.State
	read := func(after time.Duration, celsius float64) lye.Cooling {
		s = s.Apply(batch.Entry{
			Seq: len(s.Entries) + 1, At: timer.Moment{Wall: at.Add(after)},
			Fact: batch.TemperatureTaken{Task: "sea/lye temperature", Temperature: quantity.FromCelsius(celsius)},
		})
		return lye.Cooling{Batter: "sea", Room: 20 * quantity.Degree, Wanted: 35 * quantity.Degree}.Read(s, "sea/lye temperature", 1)
	}
	if hint := (lye.Cooling{}).Hint(); hint != "" {
		t.Errorf("before it was read: %q", hint)
	}
	if hint := read(0, 60).Hint(); hint != "Last read 60 °C. A second reading some minutes later forecasts when it is cool enough." {
		t.Errorf("%q", hint)
	}
	c := read(20*time.Minute, 40)
	got, err := c.Timer()
	want := 20 * math.Log2(40.0/15)
	if err != nil || got.ID != lye.CoolTimer+"sea" || got.Priority != timer.ActNow || math.Abs(got.After.Minutes()-want) > 0.1 || !got.Start.Wall.Equal(at) {
		t.Errorf("%+v, %v; want %.1f min", got, err, want)
	}
	if hint := c.Hint(); !strings.HasPrefix(hint, "Last read 40 °C. Forecast: sea lye solution at 35 °C, give or take ") {
		t.Errorf("%q", hint)
	}
	if since := c.Read(s, "sea/lye temperature", 2); len(since.Readings) != len(c.Readings)+1 {
		t.Errorf("since the second reading there are %d", len(since.Readings)-len(c.Readings))
	}
	if hint := read(30*time.Minute, 34).Hint(); !strings.Contains(hint, "No forecast: the temperature is reached already.") {
		t.Errorf("%q", hint)
	}
}

// TestAfter: by hand. Solution of 100 °C ± 6 in ice water, with a time constant of 4 min,
// is at 94/e = 34.6 °C at the least after them, and at 94/e² = 12.7 °C after 8. In a room of
// 20 °C it keeps at most 20 + 86/e^(1/6) = 92.8 °C for an hour; after a day nothing but a hot
// bath explains more than the room.
func TestAfter(t *testing.T) {
	from := solution.Estimate{Celsius: 100, PlusMinus: 6}
	for after, want := range map[time.Duration]lye.Span{
		0: {Low: 94, High: 106}, 4 * time.Minute: {Low: 34.58, High: 105.05}, 8 * time.Minute: {Low: 12.72, High: 104.11},
		time.Hour: {Low: 0, High: 92.80}, 24 * time.Hour: {Low: 0, High: lye.WarmedTo},
	} {
		if got := lye.After(from, 20, after); math.Abs(got.Low-want.Low) > 0.01 || math.Abs(got.High-want.High) > 0.01 {
			t.Errorf("after %s %+v, want %+v", after, got, want)
		}
	}
}
