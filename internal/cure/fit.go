package cure

import "math"

// For a given τ the model is a straight line in x = 1 − e^(−t/τ), for each bar
// with its own start and loss. So the search has one dimension, ln τ, whatever
// the number of bars (separable least squares: Golub and Pereyra, 1973, from
// memory).

// The search for τ: from a tenth of the shortest step between readings to fifty
// times their span, first on a grid, then by golden section.
const (
	gridPoints  = 160
	goldenSteps = 80
)

// Fit fits one curve to the readings of several marked bars; a bar with one
// reading says nothing of the drying and is left out. Reads is what the scale
// reads to, in g: the scatter is never taken to be less than that of rounding.
// Most is the largest loss that there can be, the water of the bars, as a
// fraction of their weight.
//
// It fails in words where the readings carry no curve.
func Fit(bars [][]Reading, reads, most float64) (Curve, error) {
	s, err := seriesOf(bars)
	if err != nil {
		return Curve{}, err
	}
	low, high := math.Log(s.step/10), math.Log(50*s.span)
	lnTau := s.search(low, high)
	c := s.curve(lnTau, reads)
	vague := c.errorOfTau() > widest || high-lnTau < 0.02 || lnTau-low < 0.02
	switch {
	case !(c.loss > 2*c.Scatter):
		return Curve{}, ErrNoLoss
	case vague && lnTau < math.Log(s.step):
		return Curve{}, ErrLevel
	case vague:
		return Curve{}, ErrStraight
	case c.loss/c.start > most:
		return Curve{}, &BeyondWaterError{Loss: c.Loss(), Most: most}
	}
	return c, nil
}

// errorOfTau is how far off ln τ may be, at 95 %.
func (c Curve) errorOfTau() float64 { return c.k * math.Sqrt(c.cov[2][2]) }

// line is the straight line of one bar's weights on x, with what it leaves.
type line struct {
	n, meanX, meanY, sxx float64
	start, loss, rest    float64 // rest is the sum of squared residuals.
}

func lineOf(bar []Reading, tau float64) line {
	l := line{n: float64(len(bar))}
	for _, r := range bar {
		l.meanX += dried(r, tau) / l.n
		l.meanY += r.Grams / l.n
	}
	sxy := 0.0
	for _, r := range bar {
		dx := dried(r, tau) - l.meanX
		l.sxx += dx * dx
		sxy += dx * (r.Grams - l.meanY)
	}
	if l.sxx > 0 {
		l.loss = -sxy / l.sxx
	}
	l.start = l.meanY + l.loss*l.meanX
	for _, r := range bar {
		d := r.Grams - l.start + l.loss*dried(r, tau)
		l.rest += d * d
	}
	return l
}

// dried is the part of the loss that has happened.
func dried(r Reading, tau float64) float64 { return -math.Expm1(-r.Days / tau) }

func (s series) rest(lnTau float64) float64 {
	sum := 0.0
	for _, bar := range s.bars {
		sum += lineOf(bar, math.Exp(lnTau)).rest
	}
	return sum
}

// search gives the ln τ of the least squares.
func (s series) search(low, high float64) float64 {
	step := (high - low) / gridPoints
	best, least := low, math.Inf(1)
	for i := range gridPoints + 1 {
		at := low + float64(i)*step
		if rest := s.rest(at); rest < least {
			best, least = at, rest
		}
	}
	a, b := max(low, best-step), min(high, best+step)
	const golden = 0.6180339887498949
	for range goldenSteps {
		left, right := b-golden*(b-a), a+golden*(b-a)
		if s.rest(left) <= s.rest(right) {
			b = right
		} else {
			a = left
		}
	}
	return (a + b) / 2
}

// curve gives the curve of all bars together with the covariance of its start,
// its loss and ln τ. The derivative of the model by ln τ, freed of what start
// and loss of its own bar can explain, is all that tells of τ: the Schur
// complement of (JᵀJ).
func (s series) curve(lnTau, reads float64) Curve {
	tau := math.Exp(lnTau)
	c := Curve{Bars: len(s.bars), Readings: s.n, Span: s.span, lnTau: lnTau}
	rest, schur := 0.0, 0.0
	var own [2][2]float64 // own sums the bars' inverse normal matrices.
	var by [2]float64     // by is how start and loss move with ln τ.
	for _, bar := range s.bars {
		l := lineOf(bar, tau)
		c.start, c.loss, rest = c.start+l.start, c.loss+l.loss, rest+l.rest
		meanD, sxd := 0.0, 0.0
		for _, r := range bar {
			meanD += byLnTau(r, tau, l.loss) / l.n
		}
		for _, r := range bar {
			sxd += (dried(r, tau) - l.meanX) * byLnTau(r, tau, l.loss)
		}
		slope := sxd / l.sxx // The derivative on x: its slope is −loss's, its foot start's.
		foot := meanD - slope*l.meanX
		for _, r := range bar {
			q := byLnTau(r, tau, l.loss) - foot - slope*dried(r, tau)
			schur += q * q
		}
		own[0][0] += 1/l.n + l.meanX*l.meanX/l.sxx
		own[0][1] += l.meanX / l.sxx
		own[1][1] += 1 / l.sxx
		by[0] -= foot
		by[1] += slope
	}
	own[1][0] = own[0][1]
	c.Scatter = math.Sqrt(max(rest/float64(s.free), reads*reads/12))
	c.k = student(s.free)
	v := c.Scatter * c.Scatter
	for i := range 2 {
		for j := range 2 {
			c.cov[i][j] = v * (own[i][j] + by[i]*by[j]/schur)
		}
		c.cov[i][2] = v * by[i] / schur
		c.cov[2][i] = c.cov[i][2]
	}
	c.cov[2][2] = v / schur
	return c
}

// byLnTau is the derivative of the model by ln τ.
func byLnTau(r Reading, tau, loss float64) float64 {
	return loss * math.Exp(-r.Days/tau) * r.Days / tau
}
