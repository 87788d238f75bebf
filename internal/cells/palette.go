package cells

import (
	"fmt"
	"slices"
	"strconv"

	"bench/internal/scene"
)

// palette turns dots into tones and tones into the colours of a terminal.
type palette struct {
	colours Colours
	own     map[int]int // own gives each fill's colour of the sixteen, by its shape.
	known   map[scene.Linear]scene.Perceived
	styles  map[[2]tone]string
}

// pens makes the palette of a drawing.
func pens(s scene.Scene, colours Colours) *palette {
	p := &palette{colours: colours, known: map[scene.Linear]scene.Perceived{}, styles: map[[2]tone]string{}}
	if colours == Sixteen {
		p.own = sixteenFor(s)
	}
	return p
}

// How much of a dot must be filled, or inked, for it to count.
const (
	solidFrom = 0.5
	inkFrom   = 0.5
)

// tone says what a dot should look like.
func (p *palette) tone(d *scene.Dot) tone {
	solid := d.Solid >= solidFrom
	var light scene.Linear
	if solid {
		for i := range light {
			light[i] = d.Light[i] / d.Solid
		}
	}
	switch {
	case d.Ink >= inkFrom && !solid:
		return tone{kind: inked}
	case d.Ink >= inkFrom:
		light = light.Contrast().Linear()
	case !solid:
		return tone{}
	case p.own != nil && d.Top >= 0:
		light = sixteen[p.own[d.Top]].Linear()
	}
	colour, ok := p.known[light]
	if !ok {
		colour = light.Perceived()
		p.known[light] = colour
	}
	return tone{filled, colour}
}

// written gives the style of writing over a cell: on its fill, in black or white,
// or in the terminal's own colours.
func (p *palette) written(tones []tone) string {
	filledOnes, light := 0, scene.Linear{}
	for _, t := range tones {
		if t.kind == filled {
			filledOnes++
			light = light.Mixed(t.colour.Linear(), 1/float64(filledOnes))
		}
	}
	if 2*filledOnes < len(tones) {
		return ""
	}
	return p.style(tone{filled, light.Contrast().Linear().Perceived()}, tone{filled, light.Perceived()})
}

// open says that nothing in a cell is filled, so that lines can be thin.
func (p *palette) open(tones []tone) bool {
	return !slices.ContainsFunc(tones, func(t tone) bool { return t.kind == filled })
}

// style gives the SGR sequence for two tones, or nothing for the terminal's own.
func (p *palette) style(fore, back tone) string {
	pair := [2]tone{fore, back}
	style, ok := p.styles[pair]
	if !ok {
		style = p.sequence(fore, back)
		p.styles[pair] = style
	}
	return style
}

func (p *palette) sequence(fore, back tone) string {
	codes := ""
	if fore.kind == filled {
		codes = p.code(fore.colour, false)
	}
	if back.kind == filled {
		if codes != "" {
			codes += ";"
		}
		codes += p.code(back.colour, true)
	}
	if codes == "" {
		return ""
	}
	return "\x1b[" + codes + "m"
}

// code gives the SGR parameters of the nearest colour that the terminal has:
// direct and indexed colours are those of ITU-T T.416, as xterm writes them.
func (p *palette) code(c scene.Perceived, back bool) string {
	ground := 3
	if back {
		ground = 4
	}
	switch p.colours {
	case True:
		rgb := colourOf(c)
		return fmt.Sprintf("%d8;2;%d;%d;%d", ground, rgb.R, rgb.G, rgb.B)
	case TwoHundredFiftySix:
		return fmt.Sprintf("%d8;5;%d", ground, nearest256(c))
	case Sixteen, None:
	}
	n := nearest(c, sixteen) // The very colour, as tone made it.
	if n >= 8 {
		return strconv.Itoa((ground+6)*10 + n - 8)
	}
	return strconv.Itoa(ground*10 + n)
}

// nearest256 finds the nearest of xterm's 240 fixed colours: a cube of six
// levels a channel, and 24 greys.
func nearest256(c scene.Perceived) int {
	want := colourOf(c)
	channel := func(v uint8) int {
		if v < 48 {
			return 0
		}
		if v < 115 {
			return 1
		}
		return (int(v) - 35) / 40
	}
	level := func(n int) uint8 {
		if n == 0 {
			return 0
		}
		return uint8(55 + 40*n)
	}
	r, g, b := channel(want.R), channel(want.G), channel(want.B)
	grey := min(max((int(want.R)+int(want.G)+int(want.B))/3-3, 0)/10, 23)
	cube := scene.Colour{R: level(r), G: level(g), B: level(b)}
	tone := uint8(8 + 10*grey)
	if nearest(c, []scene.Colour{cube, {R: tone, G: tone, B: tone}}) == 0 {
		return 16 + 36*r + 6*g + b
	}
	return 232 + grey
}
