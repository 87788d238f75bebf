package sheet_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"image/png"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"bench/internal/sheet"
)

var at = time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)

// bar is a page with a line of 50 mm whose ends can be found in a picture.
func bar() sheet.Page {
	p := sheet.Page{Width: 60, Height: 30}
	p.Line(1, sheet.Point{X: 5, Y: 10}, sheet.Point{X: 55, Y: 10})
	p.Text(5, 20, sheet.Style{Size: 2.5}, "Mole & pier <5 °C> ± ½ Ölé Ж 灯 🧼")
	return p
}

// tool gives the path of a general program, and skips the test without it.
func tool(t *testing.T, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		t.Skipf("%s is not installed: nothing outside looks at the page", name)
	}
	return path
}

func run(t *testing.T, name string, args ...string) string {
	t.Helper()
	out, err := exec.Command(tool(t, name), args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v: %s", name, err, out)
	}
	return string(out)
}

// ink gives the box of what is dark in a picture, in millimetres, at so many
// dots an inch, between two heights.
func ink(t *testing.T, path string, dpi, fromY, toY float64) (left, top, right, bottom float64) {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	mm := 25.4 / dpi
	left, top = math.Inf(1), math.Inf(1)
	for y := int(fromY / mm); y < min(int(toY/mm), img.Bounds().Dy()); y++ {
		for x := range img.Bounds().Dx() {
			if r, _, _, _ := img.At(x, y).RGBA(); r < 0x8000 {
				left, right = min(left, float64(x)*mm), max(right, float64(x+1)*mm)
				top, bottom = min(top, float64(y)*mm), max(bottom, float64(y+1)*mm)
			}
		}
	}
	return left, top, right, bottom
}

// picture renders a page with a general program at 300 dots an inch.
func picture(t *testing.T, kind string, p sheet.Page) string {
	t.Helper()
	dir := t.TempDir()
	if kind == "svg" {
		write(t, dir+"/p.svg", sheet.SVG("A page", p))
		run(t, "rsvg-convert", "-d", "300", "-p", "300", "-o", dir+"/p.png", dir+"/p.svg")
		return dir + "/p.png"
	}
	doc, err := sheet.PDF("A page", at, p)
	if err != nil {
		t.Fatal(err)
	}
	write(t, dir+"/p.pdf", doc)
	run(t, "pdftoppm", "-r", "300", "-png", "-singlefile", dir+"/p.pdf", dir+"/p")
	return dir + "/p.png"
}

func write(t *testing.T, path string, data []byte) {
	t.Helper()
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
}

// What is drawn in millimetres is as long in the picture that rsvg and poppler
// make, and text is as wide as Width says.
func TestMillimetresAreReal(t *testing.T) {
	for _, kind := range []string{"svg", "pdf"} {
		t.Run(kind, func(t *testing.T) {
			path := picture(t, kind, bar())
			near := func(what string, got, want float64) {
				t.Helper()
				if math.Abs(got-want) > 0.15 { // Two dots.
					t.Errorf("%s is at %.2f mm, want %.2f", what, got, want)
				}
			}
			left, top, right, bottom := ink(t, path, 300, 0, 14)
			near("the line's left end", left, 5)
			near("its right end", right, 55)
			near("its upper side", top, 9.5)
			near("its lower side", bottom, 10.5)
		})
	}
}

func TestTextIsAsWideAsMeasured(t *testing.T) {
	s := sheet.Style{Size: 5, Face: sheet.Bold}
	const words = "HHHHHHHHHHHH"
	p := sheet.Page{Width: 80, Height: 20}
	p.Text(5, 12, s, words)
	for _, kind := range []string{"svg", "pdf"} {
		t.Run(kind, func(t *testing.T) {
			left, top, right, bottom := ink(t, picture(t, kind, p), 300, 0, 20)
			// An H stands between two side bearings, each under a tenth of the em.
			if w := right - left; w > sheet.Width(s, words) || w < sheet.Width(s, words)-1 {
				t.Errorf("%.2f mm wide in the picture, measured %.2f", w, sheet.Width(s, words))
			}
			if h := bottom - top; math.Abs(h-sheet.CapHeight(s)) > 0.2 {
				t.Errorf("capitals are %.2f mm high, measured %.2f", h, sheet.CapHeight(s))
			}
		})
	}
}

func TestPDFIsReadByPoppler(t *testing.T) {
	dir := t.TempDir()
	doc, err := sheet.PDF("Mole", at, bar(), sheet.Page{Width: 210, Height: 297})
	if err != nil {
		t.Fatal(err)
	}
	write(t, dir+"/p.pdf", doc)
	if got := run(t, "pdftotext", dir+"/p.pdf", "-"); !strings.Contains(got, "Mole & pier <5 °C> ± ½ Ölé Ж □ □") {
		t.Errorf("it says %q", got)
	}
	info := run(t, "pdfinfo", "-l", "2", dir+"/p.pdf")
	for _, want := range []string{"Pages:           2", "170.08 x 85.04 pts", "595.28 x 841.89 pts"} {
		if !strings.Contains(info, want) {
			t.Errorf("pdfinfo does not say %q:\n%s", want, info)
		}
	}
}

// SVG is well-formed XML whatever the words are.
func TestSVGIsXML(t *testing.T) {
	p := bar()
	p.Text(1, 5, sheet.Style{Size: 3}, "\x00\x1b[31m\"'<>&\u202e")
	d := xml.NewDecoder(bytes.NewReader(sheet.SVG("<&>\x00", p)))
	for {
		if _, err := d.Token(); errors.Is(err, io.EOF) {
			return
		} else if err != nil {
			t.Fatal(err)
		}
	}
}

func TestTheSamePageGivesTheSameBytes(t *testing.T) {
	one, err := sheet.PDF("Mole", at, bar())
	two, err2 := sheet.PDF("Mole", at, bar())
	if err != nil || err2 != nil || !bytes.Equal(one, two) {
		t.Errorf("two PDFs of one page differ (%v, %v)", err, err2)
	}
	undated, err := sheet.PDF("Mole", time.Time{}, bar())
	if err != nil || !bytes.Contains(undated, []byte("D:19700101")) {
		t.Errorf("a page without a date has one of the clock's: %v", err)
	}
	if !bytes.Equal(sheet.SVG("x", bar()), sheet.SVG("x", bar())) {
		t.Error("two SVGs of one page differ")
	}
}

func TestWrap(t *testing.T) {
	s := sheet.Style{Size: 3}
	for _, words := range []string{
		"Olea Europaea Fruit Oil, Cocos Nucifera Oil, Aqua, Sodium Hydroxide", "", "a", "alpha-isomethyl-ionone-and-something-very-long",
		strings.Repeat("w", 200), "  spaced   out  ",
	} {
		for _, width := range []float64{1, 10, 37.5, 200} {
			t.Run(fmt.Sprintf("%.8s in %g", words, width), func(t *testing.T) {
				lines := sheet.Wrap(s, words, width)
				for _, l := range lines {
					if w := sheet.Width(s, l); w > width && len([]rune(l)) > 1 {
						t.Errorf("%q is %.2f mm wide", l, w)
					}
				}
				bare := func(s string) string { return strings.ReplaceAll(s, " ", "") }
				if got := bare(strings.Join(lines, "")); got != bare(words) {
					t.Errorf("%q became %q", words, lines)
				}
			})
		}
	}
}

// Look at them: SHEET_OUT=/tmp/x go test -run Look ./internal/sheet.
func TestLook(t *testing.T) {
	dir := os.Getenv("SHEET_OUT")
	if dir == "" {
		t.Skip("SHEET_OUT is not set")
	}
	doc, err := sheet.PDF("Mole", at, bar())
	if err != nil {
		t.Fatal(err)
	}
	write(t, filepath.Join(dir, "bar.pdf"), doc)
	write(t, filepath.Join(dir, "bar.svg"), sheet.SVG("Mole", bar()))
}
