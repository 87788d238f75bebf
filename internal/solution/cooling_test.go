package solution_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"bench/internal/near"
	"bench/internal/solution"

	"pgregory.net/rapid"
)

func celsius(fahrenheit float64) float64 { return (fahrenheit - 32) / 1.8 }

// Printed exercises on Newton's law of cooling. They test the mathematics; the
// last three print no answer, which was worked out outside the project.
func TestCoolingExercises(t *testing.T) {
	for _, c := range []struct {
		source                string
		from, to, room        float64 // °C
		minutes, perMinute    float64
		tolerance             float64
		target, targetMinutes float64 // zero where the source asks for none
	}{
		{"believed of Zill, Differential Equations: 300 to 200 °F in 70 °F", celsius(300), celsius(200), celsius(70), 3, 0.19018, 1e-5, celsius(104.3), 10},
		{"forum exercise, printed as 0.02: 95 to 61 °C in 20 °C", 95, 61, 20, 30, 0.02, 0.0002, 0, 0},
		{"university exercise: 90 to 60 °C in 25 °C", 90, 60, 25, 1, 0.61904, 1e-5, 40, 2.369},
		{"forum exercise: 210 to 140 °F in 70 °F", celsius(210), celsius(140), celsius(70), 30, math.Ln2 / 30, 1e-9, celsius(100), 66.67},
		{"textbook exercise: 100 to 85.9 °C in 15 °C", 100, 85.9, 15, 5, 0.03628, 1e-5, 0, 0},
	} {
		fit, err := solution.FitCooling([]solution.Reading{{0, c.from}, {60 * c.minutes, c.to}}, c.room)
		if err != nil {
			t.Errorf("%s: %v", c.source, err)
			continue
		}
		near.To(t, c.source, 60*fit.PerSecond, c.perMinute, c.tolerance)
		if c.target == 0 {
			continue
		}
		at, err := fit.Reaches(c.target)
		if err != nil {
			t.Errorf("%s: %v", c.source, err)
		}
		near.To(t, c.source+", minutes", at.Seconds/60, c.targetMinutes, 0.01)
	}
}

// By hand, for two readings: u(k)² = (u/ΔT₁)² + (u/ΔT₂)² over the time squared.
func TestErrorOfTheRate(t *testing.T) {
	fit, err := solution.FitCooling([]solution.Reading{{0, 90}, {600, 60}}, 20)
	if err != nil {
		t.Fatal(err)
	}
	u := math.Hypot(1./70, 1./40) / math.Sqrt(3) / 600
	near.To(t, "error of k", fit.PlusMinus, 2*u, 1e-9)
}

// What really happens must fall within the error nearly always: readings off
// by up to a degree, forty thousand pots, a fixed seed.
func TestForecastCoversWhatHappens(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	for _, times := range [][]float64{{0, 1200}, {0, 900, 1800}, {0, 300, 900, 1500, 2400}} {
		const k, room, start, target = 4e-4, 21.0, 88.0, 38.0
		truth := math.Log((start-room)/(target-room)) / k
		within, forecasts := 0, 0
		for range 40_000 {
			var readings []solution.Reading
			for _, s := range times {
				off := 2*random.Float64() - 1
				readings = append(readings, solution.Reading{s, room + (start-room)*math.Exp(-k*s) + off})
			}
			fit, err := solution.FitCooling(readings, room)
			if err != nil {
				t.Fatal(err)
			}
			at, err := fit.Reaches(target)
			if err != nil {
				t.Fatal(err)
			}
			forecasts++
			if math.Abs(at.Seconds-truth) <= at.PlusMinus {
				within++
			}
		}
		if share := float64(within) / float64(forecasts); share < 0.94 {
			t.Errorf("readings at %v s: %.1f %% within the error, want about 95 %%", times, 100*share)
		}
	}
}

// A lid put on half-way: the scatter must widen the error.
func TestScatterWidensTheError(t *testing.T) {
	smooth, err := solution.FitCooling([]solution.Reading{{0, 90}, {600, 75.2}, {1200, 63.4}, {1800, 54}}, 20)
	if err != nil {
		t.Fatal(err)
	}
	rough, err := solution.FitCooling([]solution.Reading{{0, 90}, {600, 70}, {1200, 66}, {1800, 54}}, 20)
	if err != nil {
		t.Fatal(err)
	}
	if rough.PlusMinus < 2*smooth.PlusMinus {
		t.Errorf("±%.2g per s with scatter, ±%.2g without", rough.PlusMinus, smooth.PlusMinus)
	}
}

func TestNoForecastSaysWhy(t *testing.T) {
	falling := []solution.Reading{{0, 90}, {600, 60}}
	for _, c := range []struct {
		name     string
		readings []solution.Reading
		room     float64
		target   float64
		want     error
	}{
		{"none", nil, 20, 40, solution.ErrFewReadings},
		{"one", falling[:1], 20, 40, solution.ErrFewReadings},
		{"twice at once", []solution.Reading{{0, 90}, {0, 60}}, 20, 40, solution.ErrFewReadings},
		{"no number", []solution.Reading{{0, math.NaN()}, {600, 60}}, 20, 40, solution.ErrFewReadings},
		{"no room", falling, math.NaN(), 40, solution.ErrFewReadings},
		{"rising", []solution.Reading{{0, 60}, {600, 90}}, 20, 40, solution.ErrNotCooling},
		{"rising in between", []solution.Reading{{0, 90}, {600, 60}, {700, 64}}, 20, 40, solution.ErrNotCooling},
		{"level", []solution.Reading{{0, 60}, {600, 60}}, 20, 40, solution.ErrNotCooling},
		{"at the room", []solution.Reading{{0, 60}, {600, 20.5}}, 20, 40, solution.ErrAtRoom},
		{"below the room", []solution.Reading{{0, 60}, {600, 10}}, 20, 40, solution.ErrAtRoom},
		{"target at the room", falling, 20, 20, solution.ErrTargetAtRoom},
		{"target below the room", falling, 20, 5, solution.ErrTargetAtRoom},
		{"no target", falling, 20, math.NaN(), solution.ErrTargetAtRoom},
		{"target above", falling, 20, 60, solution.ErrThere},
		{"within the thermometer's error", []solution.Reading{{0, 90}, {60, 89}}, 20, 40, solution.ErrTooSoon},
	} {
		fit, err := solution.FitCooling(c.readings, c.room)
		if err == nil {
			_, err = fit.Reaches(c.target)
		}
		if !errors.Is(err, c.want) {
			t.Errorf("%s: got %v, want %v", c.name, err, c.want)
		}
	}
}

// Readings without error give back the law that they came from, on any clock.
func TestFitFindsTheLaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.Float64Range(1e-4, 1e-3).Draw(t, "k")
		room := rapid.Float64Range(0, 30).Draw(t, "room")
		excess := rapid.Float64Range(40, 70).Draw(t, "excess")
		clock := rapid.Float64Range(-1e6, 1e6).Draw(t, "clock")
		var readings []solution.Reading
		for i := range rapid.IntRange(2, 6).Draw(t, "readings") {
			s := float64(i) * 0.5 / k / 3
			readings = append(readings, solution.Reading{clock + s, room + excess*math.Exp(-k*s)})
		}
		fit, err := solution.FitCooling(readings, room)
		if err != nil {
			t.Fatal(err)
		}
		near.Share(t, "k", fit.PerSecond, k, 1e-6)
		at, err := fit.Reaches(room + excess/8)
		switch {
		case err == nil:
			near.To(t, "seconds", at.Seconds, clock+math.Log(8)/k, 0.01)
		case !errors.Is(err, solution.ErrTooSoon) && !errors.Is(err, solution.ErrThere):
			t.Fatal(err)
		}
	})
}
