package quantity

import (
	"fmt"
	"math"
	"math/big"
	"os/exec"
	"strings"
	"testing"
)

// factors are one of each unit that bench reads, in its small unit, as exact
// decimals: NIST Handbook 44, appendix C, and SP 811, appendix B (from memory;
// to six digits in 16 CFR 500.19, which marks the inch as exact).
var factors = []struct {
	unit, small, exact string
	parse              func(string) (int64, error)
	gnuUnit, gnuSmall  string
}{
	{"lb", "mg", "453592.37", massOf, "lb", "mg"},
	{"oz", "mg", "28349.523125", massOf, "oz", "mg"},
	{"kg", "mg", "1000000", massOf, "kg", "mg"},
	{"g", "mg", "1000", massOf, "g", "mg"},
	{"in", "µm", "25400", lengthOf, "in", "um"},
	{"cm", "µm", "10000", lengthOf, "cm", "um"},
	{"mm", "µm", "1000", lengthOf, "mm", "um"},
}

func massOf(s string) (int64, error)   { m, err := ParseMass(s); return int64(m), err }
func lengthOf(s string) (int64, error) { l, err := ParseLength(s); return int64(l), err }

// A thousand of a unit, one, and a thousandth of it are the exact factor,
// rounded to the small unit and no worse.
func TestFactorsAreExact(t *testing.T) {
	for _, f := range factors {
		factor, ok := new(big.Rat).SetString(f.exact)
		if !ok {
			t.Fatalf("factor %q", f.exact)
		}
		for _, count := range []string{"0.001", "1", "7.77", "100"} {
			got, err := f.parse(count + " " + f.unit)
			if err != nil {
				t.Fatal(err)
			}
			n, _ := new(big.Rat).SetString(count)
			want := n.Mul(n, factor)
			off := new(big.Rat).Sub(want, new(big.Rat).SetInt64(got))
			if off.Abs(off).Cmp(big.NewRat(1, 2)) > 0 {
				t.Errorf("%s %s is %d %s, want %s rounded", count, f.unit, got, f.small, want.FloatString(6))
			}
		}
	}
	// The constants that calculate must be those that are read.
	for what, c := range map[string][2]float64{
		"pound": {MilligramsPerPound, 453_592.37},
		"ounce": {MilligramsPerOunce, 28_349.523125},
		"inch":  {float64(Inch), 25_400},
	} {
		if c[0] != c[1] {
			t.Errorf("%s: %v, want %v exactly", what, c[0], c[1])
		}
	}
}

// Fahrenheit is exact: °C = (°F − 32)·5/9 (SP 811, B.8).
func TestFahrenheitIsExact(t *testing.T) {
	for _, f := range []struct {
		text string
		want Temperature
	}{{"32 °F", 0}, {"212 °F", 100 * Degree}, {"98.6 °F", 37 * Degree}, {"100 °F", 37_778}, {"95 °F", 35 * Degree}} {
		if got, err := ParseTemperature(f.text); err != nil || got != f.want {
			t.Errorf("%s is %v, %v; want %v", f.text, got, err, f.want)
		}
	}
}

// GNU units, where it is installed, keeps the same factors by its own table.
func TestFactorsAgainstGNUUnits(t *testing.T) {
	program, err := exec.LookPath("units")
	if err != nil {
		t.Skip("GNU units is not installed")
	}
	if out, err := exec.Command(program, "--version").CombinedOutput(); err != nil || !strings.Contains(string(out), "GNU Units") {
		t.Skip("units is another program than GNU units")
	}
	convert := func(from, to string) float64 {
		out, err := exec.Command(program, "--terse", "--digits", "15", from, to).Output()
		if err != nil {
			t.Fatalf("units %s %s: %v: %s", from, to, err, out)
		}
		var value float64
		if _, err := fmt.Sscan(string(out), &value); err != nil {
			t.Fatalf("units %s %s: %q: %v", from, to, out, err)
		}
		return value
	}
	for _, f := range factors {
		exact, _ := new(big.Rat).SetString(f.exact)
		want, _ := exact.Float64()
		if got := convert(f.gnuUnit, f.gnuSmall); math.Abs(got-want) > 1e-13*want {
			t.Errorf("1 %s is %.15g %s by GNU units, %s here", f.unit, got, f.small, f.exact)
		}
	}
	for _, fahrenheit := range []float64{32, 95, 123.4} {
		got, err := ParseTemperature(fmt.Sprintf("%g °F", fahrenheit))
		want := convert(fmt.Sprintf("tempF(%g)", fahrenheit), "tempC")
		if err != nil || math.Abs(got.Celsius()-want) > 0.0005+1e-9 {
			t.Errorf("%g °F is %v, %v; GNU units says %g °C", fahrenheit, got, err, want)
		}
	}
}
