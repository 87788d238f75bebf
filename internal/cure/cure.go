// Package cure says how bars dry: it fits w(t) = w∞ + (w0 − w∞) e^(−t/τ) to
// weigh-ins, and forecasts when the loss has become slow.
//
// The rule: a number is given with its error, and where the readings do not
// carry one, words are given instead. Days count from the cut; weights are in
// grams. The model is common practice, no source; the statistics are ordinary
// least squares (Bates and Watts, Nonlinear Regression Analysis and Its
// Applications, 1988, from memory).
package cure

import "math"

// Reading is what a marked bar weighed so many days after the cut.
type Reading struct{ Days, Grams float64 }

// Estimate is a value with its error: the 95 % interval, either way.
type Estimate struct{ Value, PlusMinus float64 }

// Curve is a fitted curve. Several bars share τ, and the curve is that of their
// weights together.
type Curve struct {
	Bars     int
	Readings int
	Span     float64 // Span is from the first reading to the last, in days.
	Scatter  float64 // Scatter is the standard deviation of one reading, in g.

	start, loss, lnTau float64 // w(t) = start − loss (1 − e^(−t/τ))
	cov                [3][3]float64
	k                  float64 // k makes a standard error a 95 % interval.
}

// Start gives the weight at the cut, in g.
func (c Curve) Start() Estimate { return c.estimate(c.start, 1, 0, 0) }

// Last gives the weight that the bars come to, in g.
func (c Curve) Last() Estimate { return c.estimate(c.start-c.loss, 1, -1, 0) }

// Tau gives the time constant in days: what is still to go falls to 37 % in it.
func (c Curve) Tau() Estimate {
	tau := math.Exp(c.lnTau)
	return c.estimate(tau, 0, 0, tau)
}

// Loss gives the whole loss as a fraction of the weight at the cut.
func (c Curve) Loss() Estimate {
	return c.estimate(c.loss/c.start, -c.loss/(c.start*c.start), 1/c.start, 0)
}

// At gives the weight after so many days, in g: the fitted line, not a reading.
func (c Curve) At(days float64) Estimate {
	left := math.Exp(-days / math.Exp(c.lnTau))
	return c.estimate(c.start-c.loss*(1-left), 1, left-1, c.loss*left*days/math.Exp(c.lnTau))
}

// Rate gives the loss a week after so many days, as a fraction of the weight at
// the cut.
func (c Curve) Rate(days float64) float64 {
	tau := math.Exp(c.lnTau)
	return 7 * c.loss / tau * math.Exp(-days/tau) / c.start
}

// SlowerThan gives the day on which the loss falls under a rate: a fraction of
// the weight at the cut, a week. A curve that is slower from the start gives
// day 0. From loss/τ e^(−t/τ) = r: t = τ ln(loss / (τ r)); its error follows by
// the law of propagation (JCGM 100:2008, 5.2).
func (c Curve) SlowerThan(perWeek float64) Estimate {
	tau := math.Exp(c.lnTau)
	day := tau * math.Log(7*c.loss/(tau*perWeek*c.start))
	if day <= 0 {
		return Estimate{}
	}
	return c.estimate(day, -tau/c.start, tau/c.loss, day-tau)
}

// estimate carries the errors of start, loss and ln τ to a value by its
// derivatives.
func (c Curve) estimate(value, byStart, byLoss, byLnTau float64) Estimate {
	g, v := [3]float64{byStart, byLoss, byLnTau}, 0.0
	for i := range g {
		for j := range g {
			v += g[i] * c.cov[i][j] * g[j]
		}
	}
	return Estimate{value, c.k * math.Sqrt(max(0, v))}
}
