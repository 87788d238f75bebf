package picture

import (
	"time"

	"bench/internal/scene"
	"bench/internal/sheet"
)

// The sides of a page (ISO 216), and the margins that leave a drawing whole on
// the narrower of that and the paper of 216 by 279 mm that is usual elsewhere.
const (
	shortSide = 210
	longSide  = 297

	besideMargin = 12
	endMargin    = 20
)

// PDF writes the drawing at its real size on a page: A4 upright or across where
// it fits, or else a page as large as it needs. At is the moment that the
// document is of.
func PDF(s scene.Scene, at time.Time) ([]byte, error) {
	p := placed{box: s.Box}
	p.Width, p.Height = page(s.Box)
	p.left, p.top = (p.Width-s.Box.Width())/2, min(endMargin, (p.Height-s.Box.Height())/2)
	for _, shape := range s.Shapes {
		p.shape(shape)
	}
	for _, l := range s.Labels {
		p.label(l)
	}
	return sheet.PDF(s.Title, at, p.Page)
}

// page chooses the page.
func page(box scene.Box) (w, h float64) {
	switch w, h := box.Width(), box.Height(); {
	case w <= shortSide-2*besideMargin && h <= longSide-2*endMargin:
		return shortSide, longSide
	case w <= longSide-2*endMargin && h <= shortSide-2*besideMargin:
		return longSide, shortSide
	default:
		return w + 2*besideMargin, h + 2*besideMargin
	}
}

// placed is a page with a drawing on it.
type placed struct {
	sheet.Page
	left, top float64
	box       scene.Box
}

func (p *placed) at(q scene.Point) sheet.Point {
	return sheet.Point{X: p.left + q.X - p.box.Left, Y: p.top + p.box.Top - q.Y}
}

func (p *placed) shape(s scene.Shape) {
	if len(s.Points) < 2 {
		return
	}
	points := make([]sheet.Point, len(s.Points))
	for i, q := range s.Points {
		points[i] = p.at(q)
	}
	if s.Fill.On && !s.Open {
		p.Fill(sheet.Colour(s.Fill.Colour), points...)
	}
	if s.Line.Width > 0 {
		c := s.Line.Colour
		if s.Line.Ink {
			c = scene.Colour{}
		}
		p.Draw(sheet.Pen{Width: s.Line.Width, Colour: sheet.Colour(c), Dash: s.Line.Dash}, !s.Open, points...)
	}
}

func (p *placed) label(l scene.Label) {
	style := sheet.Style{Size: l.Type(), Colour: sheet.Colour(l.Colour())}
	if l.Bold {
		style.Face = sheet.Bold
	}
	at := p.at(scene.Point{X: l.At.X, Y: l.Baseline()})
	switch width := sheet.Width(style, l.Text); l.Anchor {
	case scene.Middle:
		at.X -= width / 2
	case scene.End:
		at.X -= width
	case scene.Start:
	}
	p.Text(at.X, at.Y, style, l.Text)
}
