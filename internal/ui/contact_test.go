package ui

import (
	"bytes"
	"flag"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"bench/internal/cells/shot"
	"bench/internal/golden"
	"bench/internal/ui/ink"

	"golang.org/x/image/draw"
)

// contactFile shows all scenes as pictures, to be looked at by eye: the smallest
// window in colour on dark, the middle one in colour on light, the largest
// without colour.
const contactFile = "contact-sheet.png"

// shots is where every screen is painted as large as life, to be looked at
// closely: in colour and without, on dark.
var shots = flag.String("shots", "", "paint every golden screen as PNG into this folder, to look at it")

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
	if *shots != "" {
		p.painted(name)
	}
	if !golden.Updates() {
		return
	}
	colours, ground, paper, smaller := ink.Many, ink.Dark, shot.Dark, 2
	switch w {
	case 120:
		ground, paper, smaller = ink.Light, shot.Light, 3
	case 200:
		colours, smaller = ink.None, 6
	}
	img, err := shot.Paint(strings.Split(p.inked(colours, ground), "\n"), paper)
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

// painted puts two pictures of the screen into the folder for them.
func (p *person) painted(name string) {
	p.t.Helper()
	for of, colours := range map[string]ink.Colours{"colour": ink.Many, "bare": ink.None} {
		img, err := shot.Paint(strings.Split(p.inked(colours, ink.Dark), "\n"), shot.Dark)
		if err != nil {
			p.t.Fatal(err)
		}
		keep(p.t, filepath.Join(*shots, fmt.Sprintf("%s-%d-%s.png", name, p.m.width, of)), img, png.BestSpeed)
	}
}

// keep writes a picture.
func keep(t testing.TB, path string, img image.Image, level png.CompressionLevel) {
	t.Helper()
	var out bytes.Buffer
	if err := (&png.Encoder{CompressionLevel: level}).Encode(&out, img); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, out.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
}

// contactSheet puts the pictures on one sheet, a row for every two scenes.
func contactSheet(t *testing.T) {
	t.Helper()
	if !golden.Updates() {
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
	keep(t, filepath.Join("testdata", contactFile), sheet, png.BestCompression)
}

// greys is a palette of four bits: greys, and the hues of the theme, whole and
// half, on dark and on light. It is what keeps the sheet small.
func greys() color.Palette {
	var p color.Palette
	for _, v := range []uint8{0x16, 0x40, 0x6a, 0x92, 0xb4, 0xd4, 0xe8, 0xfa} {
		p = append(p, color.RGBA{v, v, v, 0xff})
	}
	for _, hue := range []struct{ ink, ground color.RGBA }{
		{color.RGBA{0x87, 0xd7, 0xff, 0xff}, shot.Dark.Ground},
		{color.RGBA{0xff, 0xaf, 0, 0xff}, shot.Dark.Ground},
		{color.RGBA{0, 0x5f, 0xaf, 0xff}, shot.Light.Ground},
		{color.RGBA{0xaf, 0x5f, 0, 0xff}, shot.Light.Ground},
	} {
		mix := func(a, b uint8) uint8 { return uint8((int(a) + int(b)) / 2) }
		p = append(p, hue.ink, color.RGBA{mix(hue.ink.R, hue.ground.R), mix(hue.ink.G, hue.ground.G), mix(hue.ink.B, hue.ground.B), 0xff})
	}
	return p
}
