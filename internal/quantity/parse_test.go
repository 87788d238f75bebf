package quantity

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

func TestParseMass(t *testing.T) {
	for _, c := range []struct {
		text string
		want Mass
	}{
		{"38 g", 38 * Gram},
		{"38g", 38 * Gram},
		{" 38\u00a0g ", 38 * Gram},
		{"1.2 kg", 1200 * Gram},
		{"1,2 kg", 1200 * Gram},
		{"0,125 kg", 125 * Gram},
		{"1.500 kg", 1500 * Gram},
		{"450 mg", 450},
		{"0 g", 0},
		{"0.0005 g", 1},
		{"312.0 grams", 312 * Gram},
		// 1 lb = 453.59237 g exactly (NIST Handbook 44, appendix C, from memory;
		// to six digits in 16 CFR 500.19).
		{"1 lb", 453_592},
		{"100 lb", 45_359_237},
		{"1 oz", 28_350},
		{"16 oz", 453_592},
		{"2 lb 4 oz", 1_020_583},
		{"2lb 4.5oz", 1_034_758},
		{"2 LB 4 OZ", 1_020_583},
		{"1000 kg", MaxMass},
	} {
		got, err := ParseMass(c.text)
		if err != nil || got != c.want {
			t.Errorf("ParseMass(%q) = %v, %v; want %v", c.text, int64(got), err, int64(c.want))
		}
	}
}

// TestParseErrors holds every way of going wrong to words about it.
func TestParseErrors(t *testing.T) {
	mass := func(s string) (string, error) { m, err := ParseMass(s); return m.String(), err }
	for _, c := range []struct {
		text, want string
	}{
		{"", "nothing is written"},
		{"  ", "nothing is written"},
		{"38", "the unit is missing"},
		{"g", "does not start with a digit"},
		{".5 g", "does not start with a digit"},
		{"5. g", "a digit is missing after the decimal mark"},
		{"-5 g", "cannot be negative"},
		{"0.0004 g", "so little that nothing is left of it"},
		{"−5 g", "cannot be negative"},
		{"+5 g", "plus sign"},
		{"1e3 g", "exponent"},
		{"1E+3 g", "exponent"},
		{"NaN g", "does not start with a digit"},
		{"inf g", "does not start with a digit"},
		{"0x10 g", `"x" stands among the figures and is no unit`},
		{"5o.07 g", `"o" stands among the figures and is no unit`},
		{"5o g", `"o g" is not a unit that fits`},
		{"010 g", "idle zero"},
		{"00 g", "idle zero"},
		{"1,500 g", "write 1.500 or 1500"},
		{"1,500.0 g", "two ways"},
		{"1.500,0 g", "nothing separates thousands"},
		{"1 500 g", "nothing separates thousands"},
		{"1'500 g", "nothing separates thousands"},
		{"1_500 g", "nothing separates thousands"},
		{"38 mm", `"mm" is not a unit that fits`},
		{"38 ml", "bench weighs"},
		{"1 fl oz", "bench weighs"},
		{"2 lb 4 g", `"g" cannot follow "lb"`},
		{"2 oz 4 lb", `"lb" cannot follow "oz"`},
		{"2.5 lb 4 oz", "only the last"},
		{"2 lb 16 oz", "16 oz or more belong to the number before"},
		{"2 lb 4", "the unit is missing"},
		{"1 lb 2 oz 3 oz", "too many parts"},
		{"1000.001 kg", "more than 1000 kg"},
		{"9999999999999 kg", "too many digits"},
		{"1.0000000000001 kg", "too many digits"},
		{"38 g\x1b[2J", `\x1b`},
	} {
		got, err := mass(c.text)
		if err == nil {
			t.Errorf("ParseMass(%q) = %v, want an error with %q", c.text, got, c.want)
			continue
		}
		if !strings.Contains(err.Error(), c.want) {
			t.Errorf("ParseMass(%q): %v\nwant it to contain %q", c.text, err, c.want)
		}
		if !strings.Contains(err.Error(), `write it like "38 g"`) {
			t.Errorf("ParseMass(%q): no example in %v", c.text, err)
		}
		if strings.ContainsAny(err.Error(), "\x1b\n") {
			t.Errorf("ParseMass(%q): the error repeats a control character", c.text)
		}
	}
	if _, err := ParseMass(strings.Repeat("9", 1<<20)); err == nil || len(err.Error()) > 300 {
		t.Errorf("a megabyte of digits: %.400v", err)
	}
}

func TestParseNumberMass(t *testing.T) {
	for _, c := range []struct {
		text string
		bare Mass
		want Mass
	}{
		{"312", Gram, 312 * Gram},
		{"312.0", Gram, 312 * Gram},
		{"312,5", Gram, 312_500},
		{" 0 ", Gram, 0},
		{"1.2", Kilogram, 1200 * Gram},
		{"2 lb 4 oz", Gram, 1_020_583},
		{"1.2 kg", Gram, 1200 * Gram},
	} {
		got, err := ParseNumberMass(c.text, c.bare)
		if err != nil || got != c.want {
			t.Errorf("ParseNumberMass(%q) = %v, %v; want %v", c.text, got, err, c.want)
		}
	}
	for _, text := range []string{"", "x", "1,500", "1 500", "-3", "010", "2000000", "3 mm", "1e2"} {
		if got, err := ParseNumberMass(text, Gram); err == nil {
			t.Errorf("ParseNumberMass(%q) = %v, want an error", text, got)
		}
	}
}

func TestParseLength(t *testing.T) {
	for text, want := range map[string]Length{
		"38 mm":   38 * Millimetre,
		"3.2 cm":  32 * Millimetre,
		"1.5 in":  38_100, // 1 in = 25.4 mm exactly (16 CFR 500.19).
		`1 "`:     Inch,
		"0,5 mm":  500,
		"10000mm": MaxLength,
	} {
		if got, err := ParseLength(text); err != nil || got != want {
			t.Errorf("ParseLength(%q) = %v, %v; want %v", text, got, err, want)
		}
	}
	for _, text := range []string{"38", "38 m", "38 g", "10001 mm", "1 in 2 in", "-1 mm", "1 ft"} {
		if got, err := ParseLength(text); err == nil {
			t.Errorf("ParseLength(%q) = %v, want an error", text, got)
		}
	}
}

func TestParseRatio(t *testing.T) {
	for text, want := range map[string]Ratio{
		"33 %":      33 * Percent,
		"33%":       33 * Percent,
		"3 g/kg":    3 * GramPerKilo,
		"3 mg/g":    3 * GramPerKilo,
		"2,5 %":     25_000,
		"33.3333 %": 333_333,
		"100 %":     Whole,
	} {
		if got, err := ParseRatio(text); err != nil || got != want {
			t.Errorf("ParseRatio(%q) = %v, %v; want %v", text, got, err, want)
		}
	}
	for _, text := range []string{"33", "2:1", "3 ‰", "1001 %", "-5 %", "3 g", "3 g / kg", "5 ppm"} {
		if got, err := ParseRatio(text); err == nil {
			t.Errorf("ParseRatio(%q) = %v, want an error", text, got)
		}
	}
}

func TestParseTemperature(t *testing.T) {
	for text, want := range map[string]Temperature{
		"35 °C":  35 * Degree,
		"35 C":   35 * Degree,
		"35ºC":   35 * Degree,
		"0 °C":   0,
		"95 °F":  35 * Degree, // 212 °F is 100 °C and 32 °F is 0 °C, by definition.
		"32 f":   0,
		"212 °F": 100 * Degree,
		"100 °F": 37_778,
	} {
		if got, err := ParseTemperature(text); err != nil || got != want {
			t.Errorf("ParseTemperature(%q) = %v, %v; want %v", text, got, err, want)
		}
	}
	for _, text := range []string{"35", "35 °", "300 K", "31 °F", "-1 °C", "251 °C", "35 °C 3 °C", "x °C"} {
		if got, err := ParseTemperature(text); err == nil {
			t.Errorf("ParseTemperature(%q) = %v, want an error", text, got)
		}
	}
}

func TestParseDuration(t *testing.T) {
	for text, want := range map[string]time.Duration{
		"24 h":       24 * time.Hour,
		"36 hours":   36 * time.Hour,
		"2 days":     48 * time.Hour,
		"1 h 30 min": 90 * time.Minute,
		"1 day 12 h": 36 * time.Hour,
		"1.5 h":      90 * time.Minute,
		"6 weeks":    42 * 24 * time.Hour,
	} {
		if got, err := ParseDuration(text); err != nil || got != want {
			t.Errorf("ParseDuration(%q) = %v, %v; want %v", text, got, err, want)
		}
	}
	for _, text := range []string{"24", "24 m", "90 s", "1 h 90 min", "1 day 30 min", "30 min 1 h", "200 weeks"} {
		if got, err := ParseDuration(text); err == nil {
			t.Errorf("ParseDuration(%q) = %v, want an error", text, got)
		}
	}
}

// TestRoundTrip holds that what a quantity shows is read back as the same.
func TestRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := Mass(rapid.Int64Range(0, int64(MaxMass)).Draw(t, "mass"))
		if got, err := ParseMass(m.String()); err != nil || got != m {
			t.Fatalf("mass %v: %v, %v", m, got, err)
		}
		if got, err := ParseNumberMass(m.At(Milligram), Gram); err != nil || got != m {
			t.Fatalf("typed mass %v: %v, %v", m, got, err)
		}
		comma := strings.Replace(m.String(), ".", ",", 1)
		if got, err := ParseMass(comma); err == nil && got != m {
			t.Fatalf("%q became %v", comma, got)
		}
		// A length and a temperature show tenths.
		l := Length(rapid.Int64Range(0, int64(MaxLength/100)).Draw(t, "length")) * 100
		if got, err := ParseLength(l.String()); err != nil || got != l {
			t.Fatalf("length %v: %v, %v", l, got, err)
		}
		c := Temperature(rapid.Int64Range(0, int64(MaxTemperature/100)).Draw(t, "temperature")) * 100
		if got, err := ParseTemperature(c.String()); err != nil || got != c {
			t.Fatalf("temperature %v: %v, %v", c, got, err)
		}
		r := Ratio(rapid.Int64Range(0, int64(MaxRatio)).Draw(t, "ratio"))
		if got, err := ParseRatio(r.String()); err != nil || got != r {
			t.Fatalf("ratio %v: %v, %v", r, got, err)
		}
		h, m60 := rapid.IntRange(0, 1000).Draw(t, "h"), rapid.IntRange(0, 59).Draw(t, "min")
		want := time.Duration(h)*time.Hour + time.Duration(m60)*time.Minute
		if got, err := ParseDuration(fmt.Sprintf("%d h %d min", h, m60)); err != nil || got != want {
			t.Fatalf("%d h %d min: %v, %v", h, m60, got, err)
		}
	})
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"38 g", "2 lb 4 oz", "1,5 kg", "95 °F", "1 h 30 min", "33 %", "1e9 g", "00", "\xff", "9,999 mm"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		m, errMass := ParseMass(s)
		n, errNumber := ParseNumberMass(s, Gram)
		l, errLength := ParseLength(s)
		r, errRatio := ParseRatio(s)
		c, errTemperature := ParseTemperature(s)
		d, errDuration := ParseDuration(s)
		if m < 0 || m > MaxMass || n < 0 || n > MaxMass || l < 0 || l > MaxLength || r < 0 || r > MaxRatio ||
			c < 0 || c > MaxTemperature || d < 0 || d > MaxDuration {
			t.Fatalf("%q is out of bounds: %d %d %d %d %d %d", s, m, n, l, r, c, d)
		}
		if errMass == nil && (errNumber != nil || m != n) {
			t.Fatalf("%q: %v in a document and %v (%v) at the bench", s, m, n, errNumber)
		}
		for _, err := range []error{errMass, errNumber, errLength, errRatio, errTemperature, errDuration} {
			if err != nil && (len(err.Error()) > 500 || strings.ContainsAny(err.Error(), "\x1b\n\r\u202e")) {
				t.Fatalf("%q: %q is not fit to be shown", s, err)
			}
		}
	})
}

// TestLengthInWords: to the nearest tenth, and half a tenth up, as a picture has it.
func TestLengthInWords(t *testing.T) {
	for length, want := range map[Length]string{8250: "8.3 mm", 29_250: "29.3 mm", 8249: "8.2 mm", 8 * Millimetre: "8 mm", 0: "0 mm"} {
		if got := length.String(); got != want {
			t.Errorf("%d: %s, want %s", length, got, want)
		}
	}
}
