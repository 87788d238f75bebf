// Package picture writes drawings as files that need a library: PNG and PDF
// with writing in them.
//
// The rule: it lays out and works nothing out; bytes come out, and nothing is
// written to a disk.
package picture

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/png"
	"math"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"

	"bench/internal/scene"
)

// PNG writes the drawing on white, with so many dots a millimetre, which the
// file states so that it prints at its real size.
func PNG(s scene.Scene, perMM float64) ([]byte, error) {
	w, h := int(math.Ceil(s.Box.Width()*perMM)), int(math.Ceil(s.Box.Height()*perMM))
	// Whole dots: the box grows by less than one at the right and below.
	s.Box.Right = s.Box.Left + float64(w)/perMM
	s.Box.Bottom = s.Box.Top - float64(h)/perMM
	img := onWhite(scene.Paint(s, w, h))
	if err := write(img, s, perMM); err != nil {
		return nil, err
	}
	var out bytes.Buffer
	if err := png.Encode(&out, img); err != nil {
		return nil, err
	}
	return withSize(out.Bytes(), perMM), nil
}

// onWhite lays the dots on paper; ink is black, or over a fill what shows there.
func onWhite(d *scene.Dots) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, d.W, d.H))
	white := scene.Colour{R: 255, G: 255, B: 255}.Linear()
	for i, dot := range d.Dots {
		light := white
		for k := range light {
			light[k] = dot.Light[k] + white[k]*(1-dot.Solid)
		}
		if dot.Ink > 0 {
			light = light.Mixed(light.Contrast().Linear(), dot.Ink)
		}
		c := light.Colour()
		img.SetRGBA(i%d.W, i/d.W, color.RGBA{c.R, c.G, c.B, 255})
	}
	return img
}

// write sets the labels.
func write(img *image.RGBA, s scene.Scene, perMM float64) error {
	for _, l := range s.Labels {
		letters, err := opentype.Parse(typeOf(l))
		if err != nil {
			return err
		}
		face, err := opentype.NewFace(letters, &opentype.FaceOptions{Size: l.Type() * perMM, DPI: 72})
		if err != nil {
			return err
		}
		c := l.Colour()
		d := font.Drawer{Dst: img, Src: image.NewUniform(color.RGBA{c.R, c.G, c.B, 255}), Face: face}
		x := (l.At.X - s.Box.Left) * perMM
		switch width := float64(d.MeasureString(l.Text)) / 64; l.Anchor {
		case scene.Middle:
			x -= width / 2
		case scene.End:
			x -= width
		case scene.Start:
		}
		y := (s.Box.Top - l.Baseline()) * perMM
		d.Dot = fixed.Point26_6{X: fixed.Int26_6(x * 64), Y: fixed.Int26_6(y * 64)}
		d.DrawString(l.Text)
	}
	return nil
}

func typeOf(l scene.Label) []byte {
	if l.Bold {
		return gobold.TTF
	}
	return goregular.TTF
}

// headerEnd is where a PNG's first chunk ends: eight bytes of signature, and
// twelve round the thirteen of its header.
const headerEnd = 8 + 12 + 13

// withSize adds the pHYs chunk (PNG specification, W3C), which says how many
// dots a metre has; the library does not write it.
func withSize(data []byte, perMM float64) []byte {
	chunk := []byte("pHYs")
	perMetre := uint32(math.Round(perMM * 1000))
	chunk = binary.BigEndian.AppendUint32(chunk, perMetre)
	chunk = binary.BigEndian.AppendUint32(chunk, perMetre)
	chunk = append(chunk, 1) // The unit is the metre.
	out := bytes.Clone(data[:headerEnd])
	out = binary.BigEndian.AppendUint32(out, uint32(len(chunk)-4))
	out = append(out, chunk...)
	out = binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(chunk))
	return append(out, data[headerEnd:]...)
}
