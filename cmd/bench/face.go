package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"bench/internal/cells"
	"bench/internal/face"
	"bench/internal/files"
	"bench/internal/picture"
	"bench/internal/scene"
	"bench/internal/steps"
	"bench/internal/work"
)

// What face can show.
const (
	showCut  = "cut"
	showSide = "side"
	showEnd  = "end"
)

// dotsPerMM is how finely a PNG is drawn: about 300 dots an inch.
const dotsPerMM = 12

// faceOptions are the flags of face.
type faceOptions struct {
	show    string
	out     string
	replace bool
	bare    bool
	loaves  int
	cells   string
	loaf    int
}

func (a *app) faceCommand() *cobra.Command {
	var o faceOptions
	c := &cobra.Command{
		Use:   "face RECIPE|BATCH",
		Short: "draw a recipe's cut face",
		Long: `face draws a loaf to scale: its cut face, the loaf from the side with its cuts,
or the end of its mould. RECIPE is a path, or the name of a recipe of yours or a built-in one; of a
batch, the loaf is drawn as it was really poured.

Without -o the picture is printed. With -o it becomes a file of its real size in
millimetres: SVG, PNG or PDF, by its suffix. A file that is there already is left
alone unless you say --replace.

  bench face lighthouse-at-dusk -o bar.png --bare           the bar, for a listing
  bench face lighthouse-at-dusk --show side -o loaf.svg     the loaf with its cuts
  bench face lighthouse-at-dusk --show end -o mould.pdf     1 : 1, to hold against the mould

The terminal's characters are chosen by its environment; --cells or BENCH_CELLS
says otherwise: ` + patternNames() + `.`,
		Args: one("face needs one recipe or batch: bench face RECIPE|BATCH"),
		RunE: func(_ *cobra.Command, args []string) error { return a.face(args[0], o) },
	}
	loavesFlag(c, &o.loaves)
	f := c.Flags()
	f.StringVarP(&o.out, "output", "o", "", "write the picture to this file: .svg, .png or .pdf")
	f.StringVar(&o.show, "show", showCut, "what to draw: cut, side or end")
	f.BoolVar(&o.bare, "bare", false, "the cut face alone, without rule and names")
	replaceFlag(c, &o.replace)
	f.StringVar(&o.cells, "cells", "", "characters to print with: "+patternNames())
	f.IntVar(&o.loaf, "loaf", 1, "which loaf of the batch: heights and pieces of stick may differ")
	return c
}

func patternNames() string {
	var names []string
	for _, p := range cells.Patterns() {
		names = append(names, string(p))
	}
	return strings.Join(names, ", ")
}

func (a *app) face(file string, o faceOptions) error {
	if err := o.check(); err != nil {
		return err
	}
	_, s, err := a.recipeOrBatch("face", file, o.loaves)
	if err != nil {
		return err
	}
	control := s.Control
	switch {
	case !control.Mould.HasHeights():
		return failed(fmt.Errorf("the mould %q is a number of cavities, and has no cut face to draw", control.Mould.Name))
	case o.show == showSide && !control.Mould.Lies():
		return failed(fmt.Errorf("the mould %q stands upright, and is cut across: it has no side to show cuts on", control.Mould.Name))
	}
	if o.loaf > control.Loaves {
		return fmt.Errorf("--loaf %d: there are only %d", o.loaf, control.Loaves)
	}
	loaf, cut := face.Designed(control), face.CutOf(control, o.loaf-1)
	if s.Begun() {
		loaf = face.Of(steps.Of(s), control, o.loaf-1, work.Stage{})
	}
	if o.out == "" {
		return failed(a.printFace(loaf, cut, o, s.Begun()))
	}
	var drawing scene.Scene
	switch {
	case o.show == showSide:
		drawing = loaf.Side(cut)
	case o.show == showEnd:
		drawing = loaf.End()
	case o.bare:
		drawing = loaf.Bar()
	default:
		drawing = loaf.Notebook()
	}
	return a.writePicture(drawing, o)
}

// check reads the flags, before any file is.
func (o faceOptions) check() error {
	if !slices.Contains([]string{showCut, showSide, showEnd}, o.show) {
		return fmt.Errorf("--show %q is none of: cut, side, end", o.show)
	}
	if o.bare && o.show != showCut {
		return errors.New("--bare is for the cut face only")
	}
	if o.cells != "" && !slices.Contains(cells.Patterns(), cells.Pattern(o.cells)) {
		return fmt.Errorf("--cells %q is none of: %s", o.cells, patternNames())
	}
	if o.out != "" && !slices.Contains([]string{".svg", ".png", ".pdf"}, suffix(o.out)) {
		return fmt.Errorf("-o %q: its suffix says no kind of picture: use .svg, .png or .pdf", o.out)
	}
	if o.loaf < 1 {
		return errors.New("--loaf must be 1 or more")
	}
	return nil
}

// writePicture writes the file, and says what is in it.
func (a *app) writePicture(s scene.Scene, o faceOptions) error {
	data, err := encoded(s, suffix(o.out))
	if err != nil {
		return failed(err)
	}
	replaced, err := files.Create(o.out, data, files.Open, o.replace)
	if err != nil {
		return failed(err)
	}
	did := "wrote"
	if replaced {
		did = "replaced"
	}
	_, err = fmt.Fprintf(a.out, "%s %s: %s, %.0f by %.0f mm\n", did, o.out, s.Title, s.Box.Width(), s.Box.Height())
	return failed(err)
}

// encoded gives the picture's bytes. A PDF states no moment, so that one drawing
// gives one file.
func encoded(s scene.Scene, suffix string) ([]byte, error) {
	switch suffix {
	case ".png":
		return picture.PNG(s, dotsPerMM)
	case ".pdf":
		return picture.PDF(s, time.Unix(0, 0))
	}
	return scene.SVG(s), nil
}

// printFace prints the picture and, below it, what lies where.
// What a batch has not poured yet is shown as an outline.
func (a *app) printFace(l face.Loaf, cut face.Cut, o faceOptions, underWay bool) error {
	look, w, h := a.look(o.cells)
	var lines []string
	switch {
	case o.show == showSide:
		lines = l.TerminalSide(w, h, look, cut)
	case o.show == showEnd, underWay && !o.bare:
		lines = l.Terminal(w, h, look, face.Frame{Rule: true, Names: true, Heights: true, Mould: true})
	default:
		lines = l.Finished().Terminal(w, h, look, face.Frame{Rule: !o.bare, Names: !o.bare})
	}
	if len(lines) == 0 {
		return errors.New("the window is too small for a picture: make it larger, or write a file with -o")
	}
	if !underWay {
		l = l.Finished()
	}
	if !o.bare {
		lines = append(append(lines, ""), l.Legend(look)...)
	}
	_, err := fmt.Fprintln(a.raw, strings.Join(lines, "\n")) // Styled; its names were cleaned when they were read.
	return err
}
