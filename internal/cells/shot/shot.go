// Package shot paints lines of terminal text as a picture, so that what tests
// keep as text can be looked at as it looks.
//
// The rule: test support. Blocks and dots are painted as Unicode draws them and
// letters in Go Mono; it knows the SGR sequences that bench writes, no others.
package shot

import (
	"image"
	"image/color"
	"image/draw"
	"strconv"
	"strings"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gomono"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"
)

// The size of a cell in pixels: one to two, and whole numbers of every pattern.
const (
	CellW = 12
	CellH = 24
)

// Paper and Ink are the terminal's own colours.
type Paper struct{ Ground, Ink color.RGBA }

// Dark and Light are two terminals.
//
//nolint:gochecknoglobals // Tables.
var (
	Dark  = Paper{color.RGBA{0x16, 0x18, 0x1c, 0xff}, color.RGBA{0xd4, 0xd6, 0xd8, 0xff}}
	Light = Paper{color.RGBA{0xfa, 0xf8, 0xf4, 0xff}, color.RGBA{0x28, 0x2a, 0x2e, 0xff}}
)

// Paint paints the lines.
func Paint(lines []string, paper Paper) (*image.RGBA, error) {
	letters, err := opentype.Parse(gomono.TTF)
	if err != nil {
		return nil, err
	}
	face, err := opentype.NewFace(letters, &opentype.FaceOptions{Size: 19, DPI: 72, Hinting: font.HintingFull})
	if err != nil {
		return nil, err
	}
	defer face.Close() //nolint:errcheck // It holds nothing but memory.
	w := 0
	for _, l := range lines {
		w = max(w, Columns(l))
	}
	img := image.NewRGBA(image.Rect(0, 0, (w+2)*CellW, (len(lines)+1)*CellH))
	draw.Draw(img, img.Bounds(), image.NewUniform(paper.Ground), image.Point{}, draw.Src)
	for y, l := range lines {
		p := pen{img: img, face: face, paper: paper, fore: paper.Ink, back: paper.Ground, at: image.Pt(CellW, y*CellH+CellH/2)}
		p.line(l)
	}
	return img, nil
}

// Columns counts the cells of a line.
func Columns(line string) int {
	n, escaped := 0, false
	for _, r := range line {
		switch {
		case r == '\x1b':
			escaped = true
		case escaped:
			escaped = r != 'm'
		default:
			n++
		}
	}
	return n
}

type pen struct {
	img        *image.RGBA
	face       font.Face
	paper      Paper
	fore, back color.RGBA
	reverse    bool
	at         image.Point
}

func (p *pen) line(line string) {
	for line != "" {
		if rest, ok := strings.CutPrefix(line, "\x1b["); ok {
			codes, after, _ := strings.Cut(rest, "m")
			p.sgr(strings.Split(codes, ";"))
			line = after
			continue
		}
		for i, r := range line {
			p.cell(r)
			line = line[i+len(string(r)):]
			break
		}
	}
}

func (p *pen) sgr(codes []string) {
	for i := 0; i < len(codes); i++ {
		n, _ := strconv.Atoi(codes[i])
		switch {
		case n == 0:
			p.fore, p.back, p.reverse = p.paper.Ink, p.paper.Ground, false
		case n == 7 || n == 27:
			p.reverse = n == 7
		case n == 39:
			p.fore = p.paper.Ink
		case n == 49:
			p.back = p.paper.Ground
		case n == 2:
			p.fore = mix(p.fore, p.back)
		case n == 38 || n == 48:
			colour, used := extended(codes[i+1:])
			if i += used; n == 38 {
				p.fore = colour
			} else {
				p.back = colour
			}
		case n >= 30 && n <= 37:
			p.fore = indexed(n - 30)
		case n >= 90 && n <= 97:
			p.fore = indexed(n - 82)
		case n >= 40 && n <= 47:
			p.back = indexed(n - 40)
		case n >= 100 && n <= 107:
			p.back = indexed(n - 92)
		}
	}
}

func mix(a, b color.RGBA) color.RGBA {
	m := func(x, y uint8) uint8 { return uint8((3*int(x) + 2*int(y)) / 5) }
	return color.RGBA{m(a.R, b.R), m(a.G, b.G), m(a.B, b.B), 0xff}
}

func extended(codes []string) (color.RGBA, int) {
	n := make([]int, len(codes))
	for i, c := range codes {
		n[i], _ = strconv.Atoi(c)
	}
	switch {
	case len(n) >= 4 && n[0] == 2:
		return color.RGBA{uint8(n[1]), uint8(n[2]), uint8(n[3]), 0xff}, 4
	case len(n) >= 2 && n[0] == 5:
		return indexed(n[1]), 2
	}
	return color.RGBA{}, len(codes)
}

// indexed gives xterm's colours.
func indexed(n int) color.RGBA {
	low := []uint32{
		0x000000, 0xcd0000, 0x00cd00, 0xcdcd00, 0x0000ee, 0xcd00cd, 0x00cdcd, 0xe5e5e5,
		0x7f7f7f, 0xff0000, 0x00ff00, 0xffff00, 0x5c5cff, 0xff00ff, 0x00ffff, 0xffffff,
	}
	level := func(v int) uint8 {
		if v == 0 {
			return 0
		}
		return uint8(55 + 40*v)
	}
	switch {
	case n < 16:
		return color.RGBA{uint8(low[n] >> 16), uint8(low[n] >> 8), uint8(low[n]), 0xff}
	case n < 232:
		n -= 16
		return color.RGBA{level(n / 36), level(n / 6 % 6), level(n % 6), 0xff}
	}
	grey := uint8(8 + 10*(n-232))
	return color.RGBA{grey, grey, grey, 0xff}
}

// cell paints one character and goes on to the next cell.
func (p *pen) cell(r rune) {
	fore, back := p.fore, p.back
	if p.reverse {
		fore, back = back, fore
	}
	cell := image.Rectangle{p.at, p.at.Add(image.Pt(CellW, CellH))}
	draw.Draw(p.img, cell, image.NewUniform(back), image.Point{}, draw.Src)
	across, down, mask, ok := maskOf(r)
	outline, isSign := signs[r]
	switch {
	case isSign:
		p.sign(cell, outline, fore)
	case ok && r >= 0x2800 && r < 0x2900:
		p.dots(cell, mask, fore)
	case ok:
		for i := range across * down {
			if mask>>i&1 == 1 {
				w, h := CellW/across, CellH/down
				at := cell.Min.Add(image.Pt(i%across*w, i/across*h))
				draw.Draw(p.img, image.Rectangle{at, at.Add(image.Pt(w, h))}, image.NewUniform(fore), image.Point{}, draw.Src)
			}
		}
	default:
		d := font.Drawer{Dst: p.img, Src: image.NewUniform(fore), Face: p.face}
		d.Dot = fixed.P(p.at.X, p.at.Y+CellH-6)
		d.DrawString(string(r))
	}
	p.at.X += CellW
}

// dots paints a braille pattern.
func (p *pen) dots(cell image.Rectangle, mask int, fore color.RGBA) {
	for i := range 8 {
		if mask>>i&1 == 1 {
			at := cell.Min.Add(image.Pt(i%2*6+1, i/2*6+1))
			draw.Draw(p.img, image.Rectangle{at, at.Add(image.Pt(4, 4))}, image.NewUniform(fore), image.Point{}, draw.Src)
		}
	}
}
