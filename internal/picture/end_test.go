package picture_test

import (
	"bytes"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"bench/internal/face"
	"bench/internal/picture"
	"bench/internal/sample"
	"bench/internal/scene"
)

// end draws the end of the built-in mould, whose inside is 70 by 65 mm.
func end(t *testing.T) scene.Scene {
	t.Helper()
	return face.Designed(sample.Control(t, "lighthouse-at-dusk.yaml", 0)).End()
}

// longest gives the longest dark run along rows, and along columns, in dots.
func longest(img image.Image) (across, down int) {
	dark := func(x, y int) bool {
		r, g, b, a := img.At(x, y).RGBA()
		return a > 0x8000 && r+g+b < 3*0x9000
	}
	size := img.Bounds().Size()
	for y := range size.Y {
		run := 0
		for x := range size.X {
			if run++; !dark(x, y) {
				run = 0
			}
			across = max(across, run)
		}
	}
	for x := range size.X {
		run := 0
		for y := range size.Y {
			if run++; !dark(x, y) {
				run = 0
			}
			down = max(down, run)
		}
	}
	return across, down
}

// The sheet that is held against the mould, measured on the paper that general
// tools make of it: its check rule is 100 mm and the mould's wall 65 mm, give or
// take the width of a line and a dot.
func TestTheEndIsOneToOneOnPaper(t *testing.T) {
	s := end(t)
	dir := t.TempDir()
	pdf, err := picture.PDF(s, time.Unix(0, 0))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		file, tool string
		data       []byte
		args       func(in, out string) []string
	}{
		{"end.pdf", "pdftoppm", pdf, func(in, out string) []string {
			return []string{"-r", "254", "-png", "-singlefile", in, out}
		}},
		{"end.svg", "rsvg-convert", scene.SVG(s), func(in, out string) []string {
			return []string{"-d", "254", "-p", "254", "-o", out + ".png", in}
		}},
	} {
		t.Run(c.file, func(t *testing.T) {
			tool, err := exec.LookPath(c.tool)
			if err != nil {
				t.Skipf("%s is not installed: what it would have measured is not", c.tool)
			}
			in, out := filepath.Join(dir, c.file), filepath.Join(dir, c.file+"-paper")
			if err := os.WriteFile(in, c.data, 0o600); err != nil {
				t.Fatal(err)
			}
			if said, err := exec.Command(tool, c.args(in, out)...).CombinedOutput(); err != nil {
				t.Fatalf("%v: %s", err, said)
			}
			data, err := os.ReadFile(out + ".png")
			if err != nil {
				t.Fatal(err)
			}
			img, err := png.Decode(bytes.NewReader(data))
			if err != nil {
				t.Fatal(err)
			}
			across, down := longest(img)
			if across < 997 || across > 1008 || down < 648 || down > 658 {
				t.Errorf("the check rule is %.1f mm on paper, and the wall %.1f mm", float64(across)/10, float64(down)/10)
			}
		})
	}
}
