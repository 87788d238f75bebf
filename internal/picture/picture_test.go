package picture

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/color"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"bench/internal/scene"
)

// drawing is 90 by 60 mm with a teal square of 40 mm whose left side is at 20 mm
// and whose top is at 10 mm from the picture's.
func drawing() scene.Scene {
	s := scene.Scene{Title: "Quay", Box: scene.Box{Right: 90, Top: 60}}
	s.Add(scene.Shape{
		Name: "sea", Fill: scene.Fill{On: true, Colour: scene.Colour{R: 0x2a, G: 0x6f, B: 0x7d}},
		Points: []scene.Point{{X: 20, Y: 10}, {X: 60, Y: 10}, {X: 60, Y: 50}, {X: 20, Y: 50}},
	})
	s.Write(scene.Label{At: scene.Point{X: 75, Y: 30}, Text: "sea", Size: 4, Anchor: scene.Middle})
	return s
}

// measured gives the teal square's sides in mm from the left and from the top.
func measured(t *testing.T, img image.Image, perMM float64) (left, top, right, bottom float64) {
	t.Helper()
	box := image.Rectangle{}
	for y := range img.Bounds().Dy() {
		for x := range img.Bounds().Dx() {
			c := color.NRGBAModel.Convert(img.At(x, y)).(color.NRGBA)
			if near(c.R, 0x2a) && near(c.G, 0x6f) && near(c.B, 0x7d) {
				box = box.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	return float64(box.Min.X) / perMM, float64(box.Min.Y) / perMM, float64(box.Max.X) / perMM, float64(box.Max.Y) / perMM
}

func near(a, b uint8) bool { return max(a, b)-min(a, b) <= 6 }

// expect holds a measure to a tenth of a millimetre and a dot.
func expect(t *testing.T, what string, got, want, perMM float64) {
	t.Helper()
	if d := got - want; max(d, -d) > 0.1+1/perMM {
		t.Errorf("%s is at %.2f mm, not at %.2f", what, got, want)
	}
}

func TestPNGIsOfItsRealSize(t *testing.T) {
	data, err := PNG(drawing(), 10)
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	if size := img.Bounds().Size(); size != image.Pt(900, 600) {
		t.Errorf("the picture is %v dots", size)
	}
	left, top, right, bottom := measured(t, img, 10)
	if left != 20 || top != 10 || right != 60 || bottom != 50 {
		t.Errorf("the square is %g, %g to %g, %g mm", left, top, right, bottom)
	}
	at := bytes.Index(data, []byte("pHYs"))
	if at < 0 || binary.BigEndian.Uint32(data[at+4:]) != 10_000 || binary.BigEndian.Uint32(data[at+8:]) != 10_000 || data[at+12] != 1 {
		t.Error("the file does not say 10 000 dots a metre")
	}
	if dark := darkDots(img, image.Rect(700, 280, 800, 320)); dark < 50 {
		t.Errorf("the label has %d dots", dark)
	}
}

func darkDots(img image.Image, in image.Rectangle) int {
	n := 0
	for y := in.Min.Y; y < in.Max.Y; y++ {
		for x := in.Min.X; x < in.Max.X; x++ {
			if r, _, _, _ := img.At(x, y).RGBA(); r < 0x4000 {
				n++
			}
		}
	}
	return n
}

// tool runs a program of the system, or skips where it is missing.
func tool(t *testing.T, name string, args ...string) []byte {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		t.Skipf("%s is not installed: what it would have measured is not", name)
	}
	out, err := exec.Command(path, args...).Output()
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return out
}

func fileWith(t *testing.T, name string, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// The PDF, opened and rasterised by Poppler: an A4 page, and every side of the
// square where it belongs in millimetres of paper.
func TestPDFMeasuredOnPaper(t *testing.T) {
	data, err := PDF(drawing(), time.Unix(0, 0))
	if err != nil {
		t.Fatal(err)
	}
	path := fileWith(t, "quay.pdf", data)
	if info := string(tool(t, "pdfinfo", path)); !strings.Contains(info, "595.28 x 841.89 pts (A4)") || !strings.Contains(info, "Quay") {
		t.Errorf("the document is\n%s", info)
	}
	out := strings.TrimSuffix(path, ".pdf")
	tool(t, "pdftoppm", "-r", "127", "-png", "-singlefile", path, out)
	rastered, err := os.ReadFile(out + ".png")
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(rastered))
	if err != nil {
		t.Fatal(err)
	}
	left, top, right, bottom := measured(t, img, 5)
	expect(t, "the left side", left, 60+20, 5) // 90 mm in the middle of 210.
	expect(t, "the right side", right, 60+60, 5)
	expect(t, "the top", top, endMargin+10, 5)
	expect(t, "the bottom", bottom, endMargin+50, 5)
}

// The SVG, rasterised by librsvg at 254 dots an inch.
func TestSVGMeasuredOnPaper(t *testing.T) {
	path := fileWith(t, "quay.svg", scene.SVG(drawing()))
	img, err := png.Decode(bytes.NewReader(tool(t, "rsvg-convert", "-d", "254", "-p", "254", path)))
	if err != nil {
		t.Fatal(err)
	}
	if size := img.Bounds().Size(); max(size.X-900, 900-size.X) > 1 || max(size.Y-600, 600-size.Y) > 1 {
		t.Errorf("the picture is %v dots, not 900 by 600", size)
	}
	left, top, right, bottom := measured(t, img, 10)
	expect(t, "the left side", left, 20, 10)
	expect(t, "the right side", right, 60, 10)
	expect(t, "the top", top, 10, 10)
	expect(t, "the bottom", bottom, 50, 10)
}

// A page never cuts a drawing off, and paper of both usual sizes takes what is
// on A4.
func TestPages(t *testing.T) {
	for _, c := range []struct{ w, h, page, high float64 }{
		{100, 100, 210, 297},
		{186, 257, 210, 297},
		{187, 100, 297, 210},
		{257, 186, 297, 210},
		{258, 100, 282, 124},
		{400, 300, 424, 324},
	} {
		w, h := page(scene.Box{Right: c.w, Top: c.h})
		if w != c.page || h != c.high {
			t.Errorf("%g by %g mm goes on %g by %g", c.w, c.h, w, h)
		}
	}
}

func TestTheSameDrawingGivesTheSameBytes(t *testing.T) {
	for range 3 {
		a, _ := PDF(drawing(), time.Unix(0, 0))
		b, _ := PDF(drawing(), time.Unix(0, 0))
		if !bytes.Equal(a, b) {
			t.Fatal("two PDFs of one drawing differ")
		}
	}
}
