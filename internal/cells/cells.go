// Package cells shows a drawing as characters of a terminal: the finest pattern
// that its cells can hold, in the two colours that come closest.
//
// The rule: a scene goes in and text with colours (ECMA-48 SGR) comes out. It
// asks no terminal anything; what the terminal can show is handed in.
package cells

import (
	"slices"
	"strings"

	"bench/internal/scene"
)

// Pattern is how a cell is divided.
type Pattern string

// The patterns, from coarse to fine. Plain is one of ASCII's characters a cell;
// the blocks are solid and want colour; Braille is dots, and wants none. Beside
// the blocks, lines on the terminal's own ground are drawn in dots as well,
// but not beside Halves, which are for terminals with few characters.
const (
	Plain     Pattern = "plain"
	Braille   Pattern = "braille"
	Halves    Pattern = "halves"
	Quadrants Pattern = "quadrants"
	Sextants  Pattern = "sextants"
	Octants   Pattern = "octants"
)

// Patterns lists all patterns.
func Patterns() []Pattern { return []Pattern{Plain, Braille, Halves, Quadrants, Sextants, Octants} }

// Dots gives the columns and rows of dots in a cell of this pattern.
func (p Pattern) Dots() (across, down int) {
	switch p {
	case Halves:
		return 1, 2
	case Quadrants:
		return 2, 2
	case Sextants:
		return 2, 3
	case Octants, Braille:
		return 2, 4
	case Plain:
	}
	return 1, 1
}

// Colours is how many colours the terminal shows.
type Colours int

// The palettes. None keeps fills apart by their patterns.
const (
	None Colours = iota
	Sixteen
	TwoHundredFiftySix
	True
)

// Look is what the terminal can show.
type Look struct {
	Pattern Pattern
	Colours Colours
	Bold    bool // Bold says that it knows bold, which needs no colour.
}

// usable gives the look with a pattern that its colours allow: blocks without
// colour would all look the same.
func (l Look) usable() Look {
	switch {
	case l.Colours == None && l.Pattern != Plain:
		l.Pattern = Braille
	case l.Pattern == Plain || l.Pattern == Braille:
		l.Colours = None
	}
	return l
}

// Dots gives the columns and rows of dots that a cell is divided into.
func (l Look) Dots() (across, down int) { return l.usable().Pattern.Dots() }

// Lines draws the scene into w by h cells, a line of text for each row.
func Lines(s scene.Scene, w, h int, look Look) []string {
	look = look.usable()
	if look.Colours != None {
		s = spared(s, s.Box.Height()/float64(h))
	}
	across, down := look.Pattern.Dots()
	c := canvas{scene: s, look: look, w: w, dots: scene.Paint(s, w*across, h*down), letters: letters(s, w, h, look)}
	c.chooser.tones = make([]tone, across*down)
	c.pens = pens(s, look.Colours)
	if look.Colours != None && look.Pattern != Halves { // What has halves only has no dots.
		c.fine = scene.Paint(s, w*2, h*4)
	}
	lines := make([]string, h)
	for row := range lines {
		lines[row] = c.line(row)
	}
	return lines
}

// spareFrom is how many of its widths a cell may be high for a spare line to be
// drawn: in a larger one three colours would meet, and two is all it has.
const spareFrom = 6

// spared leaves out the spare lines that are too thin for cells of this height.
// Without colour they are what tells fills apart, and stay.
func spared(s scene.Scene, cell float64) scene.Scene {
	shapes := slices.Clone(s.Shapes)
	for i, shape := range shapes {
		if shape.Line.Spare && cell > spareFrom*shape.Line.Width {
			shapes[i].Line = scene.Line{}
		}
	}
	s.Shapes = shapes
	return s
}

// canvas is a drawing on its way to text.
type canvas struct {
	scene   scene.Scene
	look    Look
	w       int
	dots    *scene.Dots
	fine    *scene.Dots // fine are braille's, for lines on the terminal's own ground.
	letters []letter
	chooser chooser
	pens    *palette
}

// line draws a row of cells. Each style stands for itself, from a reset.
func (c *canvas) line(row int) string {
	var line strings.Builder
	style := ""
	for col := range c.w {
		glyph, now := c.cell(col, row)
		if now != style {
			if style != "" {
				line.WriteString("\x1b[m")
			}
			line.WriteString(now)
			style = now
		}
		line.WriteRune(glyph)
	}
	if style != "" {
		line.WriteString("\x1b[m")
	}
	return line.String()
}

// cell gives a cell's character and its style.
func (c *canvas) cell(col, row int) (rune, string) {
	across, down := c.look.Pattern.Dots()
	x, y := col*across, row*down
	l := c.letters[row*c.w+col]
	if c.look.Colours == None {
		glyph := l.r
		switch {
		case l.r != 0:
		case c.look.Pattern == Plain:
			glyph = plain(c.scene, c.dots, x, y)
		default:
			glyph = braille(c.scene, c.dots, x, y)
		}
		return glyph, c.bold(l)
	}
	for i := range c.chooser.tones {
		c.chooser.tones[i] = c.pens.tone(c.dots.At(x+i%across, y+i/across))
	}
	if l.r != 0 {
		return l.r, c.bold(l) + c.pens.written(c.chooser.tones)
	}
	if c.fine != nil && c.pens.open(c.chooser.tones) {
		return thinLines(c.fine, 2*col, 4*row), ""
	}
	mask, fore, back := c.chooser.best()
	return glyphOf(c.look.Pattern, mask), c.pens.style(fore, back)
}

func (c *canvas) bold(l letter) string {
	if l.bold && c.look.Bold {
		return "\x1b[1m"
	}
	return ""
}
