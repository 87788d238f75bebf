package ink

import (
	"fmt"
	"math"
	"testing"
)

// rgb is linear light, red to blue, each from 0 to 1.
type rgb [3]float64

// colourOf gives a colour of the palette in linear light: the lower sixteen as
// xterm has them (XTerm-col.ad, from memory), the cube and the greys as every
// terminal with 256 colours does.
func colourOf(n int) rgb {
	low := []int{
		0x000000, 0xcd0000, 0x00cd00, 0xcdcd00, 0x0000ee, 0xcd00cd, 0x00cdcd, 0xe5e5e5,
		0x7f7f7f, 0xff0000, 0x00ff00, 0xffff00, 0x5c5cff, 0xff00ff, 0x00ffff, 0xffffff,
	}
	level := []int{0, 95, 135, 175, 215, 255}
	switch {
	case n < 16:
		return linear(low[n]>>16, low[n]>>8&255, low[n]&255)
	case n < 232:
		n -= 16
		return linear(level[n/36], level[n/6%6], level[n%6])
	}
	grey := 8 + 10*(n-232)
	return linear(grey, grey, grey)
}

// linear undoes the curve of sRGB (IEC 61966-2-1).
func linear(levels ...int) rgb {
	var out rgb
	for i, l := range levels {
		c := float64(l) / 255
		if out[i] = math.Pow((c+0.055)/1.055, 2.4); c <= 0.04045 {
			out[i] = c / 12.92
		}
	}
	return out
}

// contrast is the ratio of WCAG 2.2 (relative luminance, contrast ratio).
func contrast(a, b rgb) float64 {
	x, y := luminance(a), luminance(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

func luminance(c rgb) float64 { return 0.2126*c[0] + 0.7152*c[1] + 0.0722*c[2] }

// The formula gives what WCAG 2.2 gives: 21 for black on white; 4.54 for
// #767676 on white, the lightest grey that passes (a commonly quoted value).
func TestContrastFormula(t *testing.T) {
	if got := contrast(linear(0, 0, 0), linear(255, 255, 255)); math.Abs(got-21) > 1e-9 {
		t.Errorf("black on white is %v", got)
	}
	if got := contrast(linear(0x76, 0x76, 0x76), linear(255, 255, 255)); math.Abs(got-4.54) > 0.005 {
		t.Errorf("#767676 on white is %v", got)
	}
}

// grounds are what the inks of a theme are read on; an unknown ground is either.
var grounds = map[Ground][]rgb{
	Dark:    {linear(0, 0, 0), linear(0x1e, 0x1e, 0x1e)},
	Light:   {linear(255, 255, 255), linear(0xfa, 0xf8, 0xf4)},
	Unknown: {linear(0, 0, 0), linear(255, 255, 255)},
}

// TestContrast holds every ink to the ratio that WCAG 2.2 asks of text (1.4.3,
// level AA: 4.5), on each ground it may stand on. Of the sixteen colours only the
// blues and magentas reach that on black and on white, and they look alike to
// many; so the red that stands on an unknown ground has what WCAG asks of large
// bold text and of signs (3), and always comes with a sign or in reverse.
func TestContrast(t *testing.T) {
	for _, c := range []Colours{Sixteen, Many} {
		for g, all := range grounds {
			for name, n := range named(huesOf(c, g)) {
				enough := 4.4
				if c == Sixteen && g == Unknown && name == "off" {
					enough = 3.5
				}
				for _, ground := range all {
					if ratio := contrast(colourOf(n), ground); ratio < enough {
						t.Errorf("colours %d, ground %d: %s (%d) has a contrast of %.2f", c, g, name, n, ratio)
					}
				}
			}
		}
	}
}

// named gives the hues that are colours of the palette.
func named(h hues) map[string]int {
	all := map[string]int{"accent": h.accent, "off": h.off, "quiet": h.quiet}
	for name, n := range all {
		if n == own {
			delete(all, name)
		}
	}
	return all
}

// deficits are the common kinds of colour blindness as matrices on linear light,
// at full severity (Machado, Oliveira and Fernandes 2009, "A physiologically-based
// model for simulation of color vision deficiency", IEEE TVCG 15(6), from memory).
var deficits = map[string][3]rgb{
	"none":         {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}},
	"protanopia":   {{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}},
	"deuteranopia": {{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}},
	"tritanopia":   {{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}},
}

func seen(m [3]rgb, c rgb) rgb {
	var out rgb
	for i, row := range m {
		out[i] = min(1, max(0, row[0]*c[0]+row[1]*c[1]+row[2]*c[2]))
	}
	return out
}

// A grey stays that grey in every simulation: each row adds up to one.
func TestDeficitsKeepGreys(t *testing.T) {
	for name, m := range deficits {
		for _, row := range m {
			if sum := row[0] + row[1] + row[2]; math.Abs(sum-1) > 1e-5 {
				t.Errorf("%s: a row adds up to %v", name, sum)
			}
		}
	}
}

// lab gives CIE 1976 L*a*b* for D65 (ISO/CIE 11664-4).
func lab(c rgb) rgb {
	x := 0.4124564*c[0] + 0.3575761*c[1] + 0.1804375*c[2]
	y := 0.2126729*c[0] + 0.7151522*c[1] + 0.0721750*c[2]
	z := 0.0193339*c[0] + 0.1191920*c[1] + 0.9503041*c[2]
	f := func(v float64) float64 {
		if v > 216.0/24389 {
			return math.Cbrt(v)
		}
		return (24389.0/27*v + 16) / 116
	}
	fx, fy, fz := f(x/0.95047), f(y), f(z/1.08883)
	return rgb{116*fy - 16, 500 * (fx - fy), 200 * (fy - fz)}
}

// TestColoursAreToldApart holds what is next and what is wrong to differing from
// each other and from plain text by far more than a just noticeable difference
// (about 2.3 in L*a*b*, Mahy, Van Eycken and Oosterlinck 1994), however somebody
// sees. They differ from text by their weight and their signs too.
func TestColoursAreToldApart(t *testing.T) {
	for _, c := range []Colours{Sixteen, Many} {
		for g, texts := range map[Ground][]int{Unknown: {0, 7}, Dark: {7}, Light: {0}} { // The terminal's own is light on dark.
			h := huesOf(c, g)
			for name, m := range deficits {
				pairs := []pair{{h.accent, h.off, 40}}
				for _, text := range texts {
					pairs = append(pairs, pair{h.accent, text, 13}, pair{h.off, text, 13})
				}
				for _, p := range pairs {
					if d := apart(lab(seen(m, colourOf(p.a))), lab(seen(m, colourOf(p.b)))); d < p.enough {
						t.Errorf("%s: colours %d, ground %d: %d and %d are %.1f apart, not %v", name, c, g, p.a, p.b, d, p.enough)
					}
				}
			}
		}
	}
}

// pair is two colours of the palette and how far apart they must be seen.
type pair struct {
	a, b   int
	enough float64
}

func apart(a, b rgb) float64 {
	return math.Sqrt(sq(a[0]-b[0]) + sq(a[1]-b[1]) + sq(a[2]-b[2]))
}

func sq(x float64) float64 { return x * x }

// TestWithoutColour holds NO_COLOR to bold, faint and reverse, and a bare
// terminal to nothing.
func TestWithoutColour(t *testing.T) {
	none := NewTheme(None, Unknown)
	for name, got := range map[string]struct{ ink, want string }{
		"strong": {none.Strong.before, "\x1b[1m"}, "quiet": {none.Quiet.before, "\x1b[2m"},
		"alarm": {none.Alarm.before, "\x1b[1;7m"}, "accent": {none.Accent.before, "\x1b[1m"},
	} {
		if got.ink != got.want {
			t.Errorf("%s is %q, not %q", name, got.ink, got.want)
		}
	}
	if NewTheme(Bare, Dark) != (Theme{}) {
		t.Error("a bare terminal gets a style")
	}
	if s := fmt.Sprint(NewTheme(Many, Dark).Alarm.Render("x")); s != "\x1b[1;7;38;5;214mx\x1b[0m" {
		t.Errorf("an alarm is %q", s)
	}
}
