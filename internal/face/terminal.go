package face

import (
	"math"

	"bench/internal/cells"
)

// Terminal draws the cut face into at most w by h cells, which are taken to be
// twice as high as wide; nothing if there is no room for it.
func (l Loaf) Terminal(w, h int, look cells.Look, f Frame) []string {
	box := l.shown(f)
	left, below := 0, 0
	if f.Rule {
		left, below = marginLeft, marginBelow
	}
	// One cell is left at the right, for the wall and the last figure.
	cols, rows := fitted(box.Width(), box.Height(), w-left-1, h-below)
	if cols < 4 || rows < 2 {
		return nil
	}
	f.letterW, f.letterH = box.Width()/float64(cols), box.Height()/float64(rows)
	f.Cells = true
	_, down := look.Dots()
	f.Tick = float64(min(3, 1+down)) * f.letterH / float64(down)
	s := l.CutFace(f)
	s.Box.Right += f.letterW
	return cells.Lines(s, cols+left+1, rows+below, look)
}

// fitted gives the cells that a width and a height take at the largest scale
// that fits.
func fitted(width, height float64, w, h int) (cols, rows int) {
	shape := height / width / 2
	cols = min(w, int(float64(h)/shape))
	rows = min(h, max(1, int(math.Round(float64(cols)*shape))))
	return cols, rows
}

// TerminalSide draws the loaf from its side into at most w by h cells; nothing if
// there is no room for it.
func (l Loaf) TerminalSide(w, h int, look cells.Look, c Cut) []string {
	box := l.along()
	const above, below = 1, marginBelow + 1
	cols, rows := fitted(box.Width(), box.Height(), w-marginLeft-2, h-above-below)
	if cols < 8 || rows < 2 {
		return nil
	}
	f := Frame{letterW: box.Width() / float64(cols), letterH: box.Height() / float64(rows), Cells: true, Rule: true}
	_, down := look.Dots()
	f.Tick = float64(min(3, 1+down)) * f.letterH / float64(down)
	s := l.side(c, f)
	s.Box.Right += 2 * f.letterW
	return cells.Lines(s, cols+marginLeft+2, rows+above+below, look)
}
