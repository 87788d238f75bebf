package cells

import (
	"math"
	"strings"
	"unicode"
	"unicode/utf8"

	"bench/internal/scene"
)

// letter is a character of a label in a cell.
type letter struct {
	r    rune // r is 0 where there is none.
	bold bool
}

// letters lays a drawing's labels over its cells. A label that would lie on
// another is left out, and so is one whose characters are not one cell each.
func letters(s scene.Scene, w, h int, look Look) []letter {
	out := make([]letter, w*h)
	for _, l := range s.Labels {
		n := utf8.RuneCountInString(l.Text)
		text := l.Text
		if l.On != nil && look.Colours == None {
			text, n = " "+text+" ", n+2 // Clear of the hatch.
			l.At.X -= s.Box.Width() / float64(w)
		}
		x := (l.At.X - s.Box.Left) / s.Box.Width() * float64(w)
		switch l.Anchor {
		case scene.Middle:
			x -= float64(n) / 2
		case scene.End:
			x -= float64(n)
		case scene.Start:
		}
		col := int(math.Round(x))
		row := int(math.Floor((s.Box.Top - l.At.Y) / s.Box.Height() * float64(h)))
		if !narrow(text) || row < 0 || row >= h || col < 0 || col+n > w || taken(out[row*w:(row+1)*w], col, n) {
			continue
		}
		if look.Pattern == Plain {
			text = strings.ReplaceAll(text, "▼", "v")
		}
		for i, r := range []rune(text) {
			out[row*w+col+i] = letter{r, l.Bold}
		}
	}
	return out
}

// narrow says that every character takes one cell and joins no other: no marks,
// nothing of East Asian width W or F (Unicode Standard Annex 11), no control.
func narrow(text string) bool {
	return !strings.ContainsFunc(text, func(r rune) bool {
		return !unicode.IsPrint(r) || unicode.Is(unicode.M, r) || r >= 0x1100 && r <= 0x115f || r >= 0x2e80
	})
}

// taken says that a label would touch another.
func taken(row []letter, col, n int) bool {
	for i := max(0, col-1); i < min(len(row), col+n+1); i++ {
		if row[i].r != 0 {
			return true
		}
	}
	return false
}
