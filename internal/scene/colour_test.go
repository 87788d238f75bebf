package scene

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestColoursComeBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := Colour{rapid.Byte().Draw(t, "r"), rapid.Byte().Draw(t, "g"), rapid.Byte().Draw(t, "b")}
		if got := c.Linear().Colour(); got != c {
			t.Fatalf("%s comes back as %s from light", c, got)
		}
		if got := c.Linear().Perceived().Linear().Colour(); got != c {
			t.Fatalf("%s comes back as %s from Oklab", c, got)
		}
		if got, ok := ParseColour(c.String()); !ok || got != c {
			t.Fatalf("%s is read as %s", c, got)
		}
	})
}

// The colours of CSS Color Module Level 4 (W3C), whose examples give sRGB red as
// oklab(0.628 0.225 0.126); white is 1, 0, 0 by definition.
func TestOklabAgainstCSS(t *testing.T) {
	for c, want := range map[Colour]Perceived{
		{255, 255, 255}: {1, 0, 0}, {}: {0, 0, 0}, {255, 0, 0}: {0.628, 0.225, 0.126},
		{0, 128, 0}: {0.5198, -0.1403, 0.1077}, {0, 0, 255}: {0.452, -0.032, -0.312},
	} {
		if got := c.Linear().Perceived(); math.Sqrt(got.Apart(want)) > 1.5e-3 {
			t.Errorf("%s is %.4f, not %.4f", c, got, want)
		}
	}
}

// Black and white have equal contrast ratios (WCAG 2.2) with #757575 or its
// neighbour; below it white shows better.
func TestContrast(t *testing.T) {
	ratio := func(a, b Colour) float64 {
		y, z := a.Linear().Luminance(), b.Linear().Luminance()
		return (max(y, z) + 0.05) / (min(y, z) + 0.05)
	}
	black, white := Colour{}, Colour{255, 255, 255}
	if r := ratio(black, white); math.Abs(r-21) > 1e-9 {
		t.Errorf("black on white has %g to 1, not 21", r)
	}
	rapid.Check(t, func(t *rapid.T) {
		c := Colour{rapid.Byte().Draw(t, "r"), rapid.Byte().Draw(t, "g"), rapid.Byte().Draw(t, "b")}
		got := c.Linear().Contrast()
		if ratio(c, got) < max(ratio(c, black), ratio(c, white))-1e-9 || ratio(c, got) < 4.5 {
			t.Fatalf("%s on %s has %.2f to 1", got, c, ratio(c, got))
		}
	})
}

func TestWhatIsNoColour(t *testing.T) {
	for _, text := range []string{"", "1f3a5f", "#1f3a5", "#1f3a5g", "#1f3a5f0", "blue"} {
		if c, ok := ParseColour(text); ok {
			t.Errorf("%q is read as %s", text, c)
		}
	}
}
