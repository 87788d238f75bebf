// Package sheet draws pages in real millimetres: text in one typeface, lines
// and outlines, as PDF and as SVG.
//
// The rule: a page is data, with its origin at the top left corner and all
// lengths in millimetres. What is on it is the caller's; both writers draw the
// same page from the same measures, and the same page always gives the same
// bytes.
package sheet

// Face chooses between the cuts of the typeface.
type Face int

// The cuts.
const (
	Regular Face = iota
	Bold
)

// Style is how text is set. Size is the em in millimetres.
type Style struct {
	Size float64
	Face Face
}

// Page is a sheet of paper.
type Page struct {
	Width, Height float64
	texts         []text
	strokes       []stroke
}

// text stands with its left end at X on the base line Y.
type text struct {
	x, y  float64
	style Style
	words string
}

// stroke is a line of a width through points.
type stroke struct {
	width  float64
	points []Point
	closed bool
}

// Point is a place on a page.
type Point struct{ X, Y float64 }

// Text puts words with their left end at x on the base line y. A character
// that the typeface does not have is drawn as a box.
func (p *Page) Text(x, y float64, s Style, words string) {
	if words != "" {
		p.texts = append(p.texts, text{x, y, s, drawable(words)})
	}
}

// Right puts words with their right end at x.
func (p *Page) Right(x, y float64, s Style, words string) {
	p.Text(x-Width(s, words), y, s, words)
}

// Line draws a line through the points.
func (p *Page) Line(width float64, points ...Point) {
	p.strokes = append(p.strokes, stroke{width, points, false})
}

// Loop draws a closed line through the points.
func (p *Page) Loop(width float64, points ...Point) {
	p.strokes = append(p.strokes, stroke{width, points, true})
}

// Rectangle draws a frame whose line lies inside the stated size.
func (p *Page) Rectangle(line, x, y, width, height float64) {
	h := line / 2
	p.Loop(line, Point{x + h, y + h}, Point{x + width - h, y + h}, Point{x + width - h, y + height - h}, Point{x + h, y + height - h})
}
