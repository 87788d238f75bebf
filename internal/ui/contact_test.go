package ui

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"bench/internal/cells/shot"
	"bench/internal/ui/ink"

	"golang.org/x/image/draw"
)

// contactFile shows all scenes as pictures, to be looked at by eye: the smallest
// window in colour on dark, the middle one in colour on light, the largest
// without colour.
const contactFile = "contact-sheet.png"

// pictures are what -update has drawn so far.
var pictures []picture

type picture struct {
	name string
	w    int
	img  image.Image
}

// pictured draws the screen as it stands, when the golden screens are rewritten.
func (p *person) pictured(name string, w int) {
	p.t.Helper()
	if !*update {
		return
	}
	colours, ground, paper, smaller := ink.Many, ink.Dark, shot.Dark, 2
	switch w {
	case 120:
		ground, paper, smaller = ink.Light, shot.Light, 3
	case 200:
		colours, smaller = ink.None, 4
	}
	img, err := shot.Paint(strings.Split(p.inked(colours, ground)+strings.Repeat("\n", 0), "\n"), paper)
	if err != nil {
		p.t.Fatal(err)
	}
	size := image.Pt((w+2)*shot.CellW/smaller, (p.m.height+1)*shot.CellH/smaller)
	small := image.NewRGBA(image.Rectangle{Max: size})
	draw.Draw(small, small.Bounds(), image.NewUniform(paper.Ground), image.Point{}, draw.Src)
	fits := image.Rect(0, 0, img.Bounds().Dx()/smaller, img.Bounds().Dy()/smaller)
	draw.BiLinear.Scale(small, fits, img, img.Bounds(), draw.Src, nil)
	pictures = append(pictures, picture{name, w, small})
}

// contactSheet puts the pictures on one sheet, a row for every two scenes.
func contactSheet(t *testing.T) {
	t.Helper()
	if !*update {
		return
	}
	const gap = 12
	var places []image.Point
	at, row, across, most := image.Pt(gap, gap), 0, 0, 0
	for i, p := range pictures {
		if i > 0 && p.w == sizes[0].w {
			if across++; across%2 == 0 {
				at, row = image.Pt(gap, at.Y+row+gap), 0
			}
		}
		places = append(places, at)
		size := p.img.Bounds().Size()
		at.X, row, most = at.X+size.X+gap, max(row, size.Y), max(most, at.X+size.X+2*gap)
	}
	sheet := image.NewPaletted(image.Rect(0, 0, most, at.Y+row+gap), greys())
	for i, p := range pictures {
		size := p.img.Bounds().Size()
		draw.Draw(sheet, image.Rectangle{places[i], places[i].Add(size)}, p.img, image.Point{}, draw.Src)
	}
	var out bytes.Buffer
	if err := (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&out, sheet); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join("testdata", contactFile), out.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
}

// greys is a small palette: greys, and the few hues of the theme between dark
// and light.
func greys() color.Palette {
	var p color.Palette
	for i := range 24 {
		v := uint8(i * 255 / 23)
		p = append(p, color.RGBA{v, v, v, 0xff})
	}
	for _, hue := range []color.RGBA{{0x87, 0xd7, 0xff, 0xff}, {0xff, 0xaf, 0, 0xff}, {0, 0x5f, 0xaf, 0xff}, {0xaf, 0x5f, 0, 0xff}} {
		for i := 1; i <= 4; i++ {
			for _, ground := range []color.RGBA{shot.Dark.Ground, shot.Light.Ground} {
				mix := func(a, b uint8) uint8 { return uint8((int(a)*i + int(b)*(4-i)) / 4) }
				p = append(p, color.RGBA{mix(hue.R, ground.R), mix(hue.G, ground.G), mix(hue.B, ground.B), 0xff})
			}
		}
	}
	return p
}
