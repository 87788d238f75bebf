package face

import (
	"bytes"
	"flag"
	"fmt"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"bench/internal/cells"
	"bench/internal/cells/shot"
	"bench/internal/golden"
	"bench/internal/sample"
	"bench/recipes"
)

var shots = flag.String("shots", "", "paint the golden pictures as PNG into this folder, to look at them")

// designed gives the loaf of a built-in recipe before anything is done.
func designed(t testing.TB, file string) Loaf {
	t.Helper()
	l := Designed(sample.Control(t, file, 0))
	l.Layers[0].Next = true
	return l
}

// looks are what terminals can show, by name.
var looks = map[string]cells.Look{
	"truecolour": {Pattern: cells.Quadrants, Colours: cells.True, Bold: true},
	"256-fine":   {Pattern: cells.Sextants, Colours: cells.TwoHundredFiftySix, Bold: true},
	"16-coarse":  {Pattern: cells.Halves, Colours: cells.Sixteen, Bold: true},
	"no-colour":  {Pattern: cells.Braille, Bold: true},
	"plain":      {Pattern: cells.Plain},
}

// TestGolden compares each built-in recipe's cut face with its file, at three
// sizes, with and without colour: as designed, and as the mould stands before
// the first pour.
func TestGolden(t *testing.T) {
	for _, file := range recipes.Files() {
		l := designed(t, file)
		for _, size := range [][2]int{{26, 12}, {44, 20}, {80, 36}} {
			for name, look := range looks {
				design := l.Finished().Terminal(size[0], size[1], look, Frame{Rule: true, Names: true})
				mould := l.Terminal(size[0], size[1], look, Frame{Rule: true, Names: true, Heights: true, Mould: true})
				lines := append(append(design, ""), mould...)
				same(t, fmt.Sprintf("%s-%dx%d-%s", strings.TrimSuffix(file, ".yaml"), size[0], size[1], name), lines)
			}
		}
	}
}

// same compares lines with a golden file, and paints them if that is asked for.
func same(t *testing.T, name string, lines []string) {
	t.Helper()
	paint(t, name, lines)
	golden.Equal(t, filepath.Join("testdata", name+".golden"), strings.Join(lines, "\n")+"\n")
}

// paint paints lines as a picture where that is asked for.
func paint(t *testing.T, name string, lines []string) {
	t.Helper()
	if *shots == "" {
		return
	}
	img, err := shot.Paint(lines, shot.Dark)
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := png.Encode(&out, img); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(*shots, name+".png"), out.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
}

// Without colour no layer's meaning is lost: neighbours have other patterns, and
// each layer is named in the picture.
func TestLayersDifferWithoutColour(t *testing.T) {
	for _, file := range recipes.Files() {
		l := designed(t, file)
		for _, look := range []cells.Look{looks["no-colour"], looks["plain"]} {
			text := strings.Join(l.Finished().Terminal(44, 20, look, Frame{Rule: true, Names: true}), "\n")
			if strings.ContainsRune(text, '\x1b') {
				t.Errorf("%s in %s has a control sequence", file, look.Pattern)
			}
			for _, layer := range l.Layers {
				if !strings.Contains(text, " "+layer.Name+" ") {
					t.Errorf("%s in %s does not name %q:\n%s", file, look.Pattern, layer.Name, text)
				}
			}
		}
	}
}

// Any window gets lines that fit into it, or none.
func TestFitsAnyWindow(t *testing.T) {
	l := designed(t, recipes.Files()[0])
	for w := 0; w <= 130; w += 13 {
		for h := 0; h <= 60; h += 9 {
			for name, look := range looks {
				lines := l.Terminal(w, h, look, Frame{Rule: true, Names: true, Mould: true})
				if len(lines) > h {
					t.Errorf("%s at %dx%d: %d lines", name, w, h, len(lines))
				}
				for _, line := range lines {
					if n := shot.Columns(line); n > w {
						t.Errorf("%s at %dx%d: a line is %d wide", name, w, h, n)
					}
				}
			}
		}
	}
}
