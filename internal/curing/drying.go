package curing

import (
	"time"

	"bench/internal/cure"
	"bench/internal/quantity"
	"bench/internal/timer"
)

const day = 24 * time.Hour

// Drying is the fitted curve of the marked bars, as parts of their weight at the
// cut.
type Drying struct {
	cure.Curve
	Slow     time.Time     // Slow is when the loss falls under the stated rate.
	SlowOff  time.Duration // SlowOff is how far off that may be, at 95 %.
	SlowRate quantity.Ratio
}

// Point is one weigh-in for a drawing: days from the cut, and the weight as a
// part of that at the cut.
type Point struct {
	Bar  string
	Days float64
	Part float64
}

// Drying fits the curve. Water is how much of a bar is water, a fraction. It
// fails in words where the weigh-ins carry no curve.
func (c Curing) Drying(water float64) (Drying, error) {
	reads := quantity.Mass(0)
	var bars [][]cure.Reading
	for _, m := range c.Marks {
		var bar []cure.Reading
		for _, r := range m.Readings {
			reads = max(reads, r.Reads)
			bar = append(bar, cure.Reading{Days: c.days(r.At), Grams: r.Mass.Grams()})
		}
		bars = append(bars, bar)
	}
	curve, err := cure.Fit(bars, reads.Grams(), water)
	if err != nil {
		return Drying{}, err
	}
	d := Drying{Curve: curve, SlowRate: c.Rules.Slow}
	slow := curve.SlowerThan(c.Rules.Slow.Fraction())
	d.Slow = c.Cut.Wall.Add(daysLong(slow.Value))
	d.SlowOff = daysLong(slow.PlusMinus)
	return d, nil
}

// longest keeps a forecast within what a calendar can show.
const longest = 3650.0

func daysLong(days float64) time.Duration {
	return time.Duration(min(days, longest) * float64(day))
}

// days gives days since the cut. What was weighed a little before the last loaf
// was cut counts as then.
func (c Curing) days(at timer.Moment) float64 {
	gone, _ := at.Since(c.Cut)
	return gone.Hours() / 24
}

// Points gives the weigh-ins for a drawing. A bar whose first weigh-in came
// after the cut starts on the curve, if there is one.
func (c Curing) Points(d *Drying) []Point {
	var list []Point
	for _, m := range c.Marks {
		first, base := m.Readings[0], 1.0
		if d != nil {
			base = d.At(c.days(first.At)).Value / d.Start().Value
		}
		for _, r := range m.Readings {
			list = append(list, Point{m.Bar, c.days(r.At), base * r.Mass.Grams() / max(first.Mass.Grams(), 1e-9)})
		}
	}
	return list
}

// Line gives the fitted line at n days from the cut to the last, as parts of the
// weight at the cut.
func (d Drying) Line(last float64, n int) []float64 {
	line := make([]float64, n)
	for i := range line {
		line[i] = d.At(last*float64(i)/float64(max(1, n-1))).Value / d.Start().Value
	}
	return line
}

// SlowDay gives the day of the cure on which the loss falls under the stated
// rate, with its error.
func (d Drying) SlowDay() (day, plusMinus float64) {
	slow := d.SlowerThan(d.SlowRate.Fraction())
	return slow.Value, slow.PlusMinus
}

// Lost gives the greatest part of its first weight that a marked bar has lost so
// far, a fraction.
func (c Curing) Lost() float64 {
	most := 0.0
	for _, m := range c.Marks {
		if first := m.Readings[0].Mass; first > 0 {
			most = max(most, 1-m.Last().Mass.Grams()/first.Grams())
		}
	}
	return most
}
