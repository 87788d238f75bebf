package scene

import (
	"fmt"
	"math"
	"strconv"
	"sync"
)

// Colour is an sRGB colour, eight bits a channel (IEC 61966-2-1).
type Colour struct{ R, G, B uint8 }

// ParseColour reads "#1f3a5f"; anything else is no colour.
func ParseColour(text string) (Colour, bool) {
	if len(text) != 7 || text[0] != '#' {
		return Colour{}, false
	}
	n, err := strconv.ParseUint(text[1:], 16, 32)
	if err != nil {
		return Colour{}, false
	}
	return Colour{uint8(n >> 16), uint8(n >> 8), uint8(n)}, true
}

// String gives the colour as "#1f3a5f".
func (c Colour) String() string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

// Linear is a colour in light: red, green and blue of sRGB without its curve,
// each from 0 to 1. Light is what mixes where two colours share a dot.
type Linear [3]float64

// Linear gives the colour in light.
func (c Colour) Linear() Linear {
	light := lights()
	return Linear{light[c.R], light[c.G], light[c.B]}
}

// lights are the light of each of eight bits.
//
//nolint:gochecknoglobals // A table, worked out when it is first needed.
var lights = sync.OnceValue(func() *[256]float64 {
	var light [256]float64
	for v := range light {
		light[v] = toLight(uint8(v))
	}
	return &light
})

// Colour gives the light as the nearest colour of eight bits.
func (l Linear) Colour() Colour {
	return Colour{fromLight(l[0]), fromLight(l[1]), fromLight(l[2])}
}

// Luminance gives the relative luminance Y, from 0 for black to 1 for white
// (ITU-R BT.709's weights, which sRGB shares).
func (l Linear) Luminance() float64 { return 0.2126*l[0] + 0.7152*l[1] + 0.0722*l[2] }

// Mixed gives the light of both, with so much of o, from 0 to 1.
func (l Linear) Mixed(o Linear, share float64) Linear {
	for i := range l {
		l[i] += (o[i] - l[i]) * share
	}
	return l
}

// toLight and fromLight are sRGB's transfer function (IEC 61966-2-1).
func toLight(v uint8) float64 {
	x := float64(v) / 255
	if x <= 0.04045 {
		return x / 12.92
	}
	return math.Pow((x+0.055)/1.055, 2.4)
}

func fromLight(x float64) uint8 {
	x = min(max(x, 0), 1)
	if x <= 0.0031308 {
		x *= 12.92
	} else {
		x = 1.055*math.Pow(x, 1/2.4) - 0.055
	}
	return uint8(math.Round(x * 255))
}

// Contrast gives black or white, whichever is further from the light: the one
// with the higher contrast ratio (WCAG 2.2, "contrast ratio").
func (l Linear) Contrast() Colour {
	const glare = 0.05
	if y := l.Luminance() + glare; y*y > glare*(1+glare) {
		return Colour{}
	}
	return Colour{255, 255, 255}
}

// Perceived is a colour in Oklab (Ottosson 2020): equal distances look about
// equally different.
type Perceived [3]float64

// Perceived gives the light in Oklab.
func (l Linear) Perceived() Perceived {
	a := math.Cbrt(0.4122214708*l[0] + 0.5363325363*l[1] + 0.0514459929*l[2])
	b := math.Cbrt(0.2119034982*l[0] + 0.6806995451*l[1] + 0.1073969566*l[2])
	c := math.Cbrt(0.0883024619*l[0] + 0.2817188376*l[1] + 0.6299787005*l[2])
	return Perceived{
		0.2104542553*a + 0.7936177850*b - 0.0040720468*c,
		1.9779984951*a - 2.4285922050*b + 0.4505937099*c,
		0.0259040371*a + 0.7827717662*b - 0.8086757660*c,
	}
}

// Apart gives the square of the distance between two colours.
func (p Perceived) Apart(o Perceived) float64 {
	d := 0.0
	for i := range p {
		d += (p[i] - o[i]) * (p[i] - o[i])
	}
	return d
}

// Linear gives the light of a colour in Oklab; what no screen can show is cut
// to what one can.
func (p Perceived) Linear() Linear {
	cube := func(x float64) float64 { return x * x * x }
	a := cube(p[0] + 0.3963377774*p[1] + 0.2158037573*p[2])
	b := cube(p[0] - 0.1055613458*p[1] - 0.0638541728*p[2])
	c := cube(p[0] - 0.0894841775*p[1] - 1.2914855480*p[2])
	l := Linear{
		4.0767416621*a - 3.3077115913*b + 0.2309699292*c,
		-1.2684380046*a + 2.6097574011*b - 0.3413193965*c,
		-0.0041960863*a - 0.7034186147*b + 1.7076147010*c,
	}
	for i := range l {
		l[i] = min(max(l[i], 0), 1)
	}
	return l
}
