package cure_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/diff/fd"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize"
	"gonum.org/v1/gonum/stat/distuv"

	"bench/internal/cure"
)

// truth is a curve that readings are drawn from. The figures are invented within
// common practice: bars of about 110 g that lose 9 to 14 %.
type truth struct{ start, loss, tau float64 }

func (c truth) at(day float64) float64 { return c.start - c.loss*(1-math.Exp(-day/c.tau)) }

// drawn gives readings with normal scatter, rounded to what the scale reads to.
func (c truth) drawn(rng *rand.Rand, days []float64, scatter, reads float64) []cure.Reading {
	var bar []cure.Reading
	for _, d := range days {
		w := c.at(d) + scatter*rng.NormFloat64()
		if reads > 0 {
			w = math.Round(w/reads) * reads
		}
		bar = append(bar, cure.Reading{Days: d, Grams: w})
	}
	return bar
}

var (
	weekly = []float64{0, 7, 14, 21, 28, 35, 42}
	dense  = []float64{0, 2, 4, 7, 10, 14, 21, 28}
)

// TestAgainstGonum: gonum's own optimiser finds the same least squares, and the
// covariance is that of (JᵀJ)⁻¹ by gonum's Jacobian and inverse.
func TestAgainstGonum(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 1))
	for n, c := range []truth{{112, 13, 11}, {108, 10, 18}, {121, 12, 7}, {96, 14, 24}} {
		for _, days := range [][]float64{weekly, dense} {
			bar := c.drawn(rng, days, 0.12, 0.1)
			got, err := cure.Fit([][]cure.Reading{bar}, 0.1, 0.3)
			if err != nil {
				t.Fatalf("%d: %v", n, err)
			}
			best, errs := gonumFit(t, bar, c)
			near(t, "start", got.Start(), best[0], errs[0])
			near(t, "tau", got.Tau(), math.Exp(best[2]), math.Exp(best[2])*errs[2])
			near(t, "loss", cure.Estimate{Value: got.Loss().Value * got.Start().Value, PlusMinus: errs[1]}, best[1], errs[1])
			if rest := residuals(bar, best); math.Abs(got.Scatter-math.Sqrt(rest/float64(len(bar)-3))) > 1e-5 {
				t.Errorf("scatter %.6f, gonum %.6f", got.Scatter, math.Sqrt(rest/float64(len(bar)-3)))
			}
		}
	}
}

func near(t *testing.T, what string, got cure.Estimate, value, plusMinus float64) {
	t.Helper()
	if math.Abs(got.Value-value) > 1e-3*plusMinus+1e-6 || math.Abs(got.PlusMinus-plusMinus) > 2e-3*plusMinus {
		t.Errorf("%s: %.6f ± %.6f, gonum %.6f ± %.6f", what, got.Value, got.PlusMinus, value, plusMinus)
	}
}

func model(x []float64, day float64) float64 { return truth{x[0], x[1], math.Exp(x[2])}.at(day) }

func residuals(bar []cure.Reading, x []float64) float64 {
	sum := 0.0
	for _, r := range bar {
		sum += (r.Grams - model(x, r.Days)) * (r.Grams - model(x, r.Days))
	}
	return sum
}

// gonumFit gives start, loss and ln τ with their 95 % errors.
func gonumFit(t *testing.T, bar []cure.Reading, from truth) (x, errs []float64) {
	t.Helper()
	result, err := optimize.Minimize(optimize.Problem{Func: func(x []float64) float64 { return residuals(bar, x) }},
		[]float64{from.start, from.loss, math.Log(from.tau)},
		&optimize.Settings{Converger: &optimize.FunctionConverge{Absolute: 1e-15, Iterations: 400}, MajorIterations: 20000}, &optimize.NelderMead{})
	if err != nil {
		t.Fatal(err)
	}
	j := mat.NewDense(len(bar), 3, nil)
	fd.Jacobian(j, func(y, x []float64) {
		for i, r := range bar {
			y[i] = model(x, r.Days)
		}
	}, result.X, &fd.JacobianSettings{Formula: fd.Central})
	var normal, inverse mat.Dense
	normal.Mul(j.T(), j)
	if err := inverse.Inverse(&normal); err != nil {
		t.Fatal(err)
	}
	free := float64(len(bar) - 3)
	k := distuv.StudentsT{Sigma: 1, Nu: free}.Quantile(0.975)
	for i := range 3 {
		errs = append(errs, k*math.Sqrt(result.F/free*inverse.At(i, i)))
	}
	return result.X, errs
}

// TestCoverage: over many seeded curves the truth lies within the stated error
// as often as is stated, 95 in 100. The bounds are three standard errors of a
// count, and two points for what the linearised errors of a curve leave out.
func TestCoverage(t *testing.T) {
	const runs = 3000
	for _, c := range []struct {
		name string
		truth
		days    []float64
		scatter float64
		bars    int
	}{
		{"weekly, one bar", truth{112, 13, 11}, weekly, 0.10, 1},
		{"dense, one bar", truth{112, 12, 9}, dense, 0.10, 1},
		{"weekly, three bars", truth{108, 10, 14}, weekly, 0.20, 3},
		{"five readings", truth{110, 12, 12}, []float64{0, 7, 14, 28, 42}, 0.10, 1},
	} {
		rng := rand.New(rand.NewPCG(8, 2))
		held, done := map[string]int{}, 0
		for range runs {
			var bars [][]cure.Reading
			for range c.bars {
				bars = append(bars, c.drawn(rng, c.days, c.scatter, 0))
			}
			got, err := cure.Fit(bars, 0.01, 0.3)
			if err != nil {
				continue
			}
			done++
			n := float64(c.bars)
			ready := c.tau * math.Log(7*c.loss/(c.tau*0.01*c.start))
			for name, each := range map[string]struct {
				got  cure.Estimate
				true float64
			}{
				"start": {got.Start(), n * c.start}, "last": {got.Last(), n * (c.start - c.loss)}, "tau": {got.Tau(), c.tau},
				"loss": {got.Loss(), c.loss / c.start}, "slow": {got.SlowerThan(0.01), ready}, "at 10": {got.At(10), n * c.at(10)},
			} {
				if math.Abs(each.got.Value-each.true) <= each.got.PlusMinus {
					held[name]++
				}
			}
		}
		if done < runs*9/10 {
			t.Errorf("%s: only %d of %d gave a curve", c.name, done, runs)
		}
		room := 3*math.Sqrt(0.95*0.05/float64(done)) + 0.02
		for name, n := range held {
			if rate := float64(n) / float64(done); math.Abs(rate-0.95) > room {
				t.Errorf("%s, %s: the truth lies within the stated error in %.1f %% of %d runs", c.name, name, 100*rate, done)
			}
			t.Logf("%s, %s: %.1f %%", c.name, name, 100*float64(n)/float64(done))
		}
	}
}

func TestStudentAgainstGonum(t *testing.T) {
	for _, free := range []int{1, 2, 3, 10, 30, 31, 45, 60, 120, 1000} {
		want := distuv.StudentsT{Sigma: 1, Nu: float64(free)}.Quantile(0.975)
		if got := cure.Student(free); math.Abs(got-want) > 6e-4 {
			t.Errorf("t at %d degrees of freedom is %.4f, gonum %.4f", free, got, want)
		}
	}
}
