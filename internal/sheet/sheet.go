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
	Size   float64
	Face   Face
	Colour Colour
}

// Colour is an sRGB colour; the zero Colour is black.
type Colour struct{ R, G, B uint8 }

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

// stroke is a line of a width through points, or an outline that is filled.
type stroke struct {
	width  float64 // width is zero for a fill without a line.
	points []Point
	closed bool
	colour Colour
	dash   float64 // dash is how long dashes and gaps are; zero is a whole line.
	fill   *Colour
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
	p.strokes = append(p.strokes, stroke{width: width, points: points})
}

// Loop draws a closed line through the points.
func (p *Page) Loop(width float64, points ...Point) {
	p.strokes = append(p.strokes, stroke{width: width, points: points, closed: true})
}

// Rectangle draws a frame whose line lies inside the stated size.
func (p *Page) Rectangle(line, x, y, width, height float64) {
	h := line / 2
	p.Loop(line, Point{x + h, y + h}, Point{x + width - h, y + h}, Point{x + width - h, y + height - h}, Point{x + h, y + height - h})
}

// Pen is a line's look: its width, its colour, and how long its dashes are, or
// zero for a whole line.
type Pen struct {
	Width  float64
	Colour Colour
	Dash   float64
}

// Draw draws a line through the points, closed or not.
func (p *Page) Draw(pen Pen, closed bool, points ...Point) {
	p.strokes = append(p.strokes, stroke{width: pen.Width, points: points, closed: closed, colour: pen.Colour, dash: pen.Dash})
}

// Fill fills the outline through the points. What is drawn later lies on top.
func (p *Page) Fill(colour Colour, points ...Point) {
	p.strokes = append(p.strokes, stroke{points: points, closed: true, fill: &colour})
}
