package sheet

import (
	"bytes"
	"fmt"
	"time"

	"codeberg.org/go-pdf/fpdf"
)

const family = "sheet"

// PDF writes pages as a PDF document with the typeface embedded. At stands in
// it as the time of its making; it is a moment of what is described, never that
// of the writing, so that the same pages give the same bytes.
func PDF(title string, at time.Time, pages ...Page) ([]byte, error) {
	if at.IsZero() {
		at = time.Unix(0, 0) // The library would ask the clock.
	}
	doc := fpdf.New("P", "mm", "A4", "")
	doc.SetCatalogSort(true)
	doc.SetCreationDate(at.UTC())
	doc.SetModificationDate(at.UTC())
	doc.SetProducer("bench", true)
	doc.SetTitle(title, true)
	doc.SetMargins(0, 0, 0)
	doc.SetAutoPageBreak(false, 0)
	doc.SetLineJoinStyle("round")
	doc.AddUTF8FontFromBytes(family, "", ttf(Regular))
	doc.AddUTF8FontFromBytes(family, "B", ttf(Bold))
	for _, p := range pages {
		doc.AddPageFormat("P", fpdf.SizeType{Wd: p.Width, Ht: p.Height})
		for _, s := range p.strokes {
			s.draw(doc)
		}
		for _, t := range p.texts {
			doc.SetFont(family, map[Face]string{Bold: "B"}[t.style.Face], 0)
			doc.SetFontUnitSize(t.style.Size)
			doc.SetTextColor(t.style.Colour.split())
			doc.Text(t.x, t.y, t.words)
		}
	}
	var out bytes.Buffer
	if err := doc.Output(&out); err != nil {
		return nil, fmt.Errorf("write PDF: %w", err)
	}
	return out.Bytes(), nil
}

func (s stroke) draw(doc *fpdf.Fpdf) {
	if len(s.points) == 0 {
		return
	}
	how := "D"
	if s.fill != nil {
		how = "F"
		doc.SetFillColor(s.fill.split())
	} else {
		doc.SetDrawColor(s.colour.split())
		doc.SetLineWidth(s.width)
		doc.SetDashPattern(s.dashes(), 0)
	}
	doc.MoveTo(s.points[0].X, s.points[0].Y)
	for _, p := range s.points[1:] {
		doc.LineTo(p.X, p.Y)
	}
	if s.closed {
		doc.ClosePath()
	}
	doc.DrawPath(how)
}

func (s stroke) dashes() []float64 {
	if s.dash <= 0 {
		return []float64{}
	}
	return []float64{s.dash, s.dash}
}

func (c Colour) split() (r, g, b int) { return int(c.R), int(c.G), int(c.B) }
