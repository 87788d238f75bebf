package picture

import (
	"bytes"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"

	"bench/internal/scene"
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
// it fits, or else a page as large as it needs.
func PDF(s scene.Scene, made time.Time) ([]byte, error) {
	w, h := page(s.Box)
	p := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: fpdf.SizeType{Wd: w, Ht: h}})
	p.SetCatalogSort(true)
	p.SetCreationDate(made)
	p.SetModificationDate(made)
	p.SetTitle(s.Title, true)
	p.SetProducer("bench", true)
	p.SetAutoPageBreak(false, 0)
	p.AddUTF8FontFromBytes("go", "", goregular.TTF)
	p.AddUTF8FontFromBytes("go", "B", gobold.TTF)
	p.SetDisplayMode("real", "single")
	p.AddPage()
	d := pdf{Fpdf: p, left: (w - s.Box.Width()) / 2, top: endMargin, box: s.Box}
	if h-2*endMargin < s.Box.Height() {
		d.top = (h - s.Box.Height()) / 2
	}
	for _, shape := range s.Shapes {
		d.shape(shape)
	}
	for _, l := range s.Labels {
		d.label(l)
	}
	var out bytes.Buffer
	err := p.Output(&out)
	return out.Bytes(), err
}

// page chooses the page.
func page(box scene.Box) (w, h float64) {
	for _, p := range [][4]float64{
		{shortSide, longSide, besideMargin, endMargin}, {longSide, shortSide, endMargin, besideMargin},
	} {
		if box.Width() <= p[0]-2*p[2] && box.Height() <= p[1]-2*p[3] {
			return p[0], p[1]
		}
	}
	return box.Width() + 2*besideMargin, box.Height() + 2*endMargin
}

type pdf struct {
	*fpdf.Fpdf
	left, top float64
	box       scene.Box
}

func (d pdf) at(p scene.Point) (x, y float64) {
	return d.left + p.X - d.box.Left, d.top + d.box.Top - p.Y
}

func (d pdf) shape(s scene.Shape) {
	if len(s.Points) < 2 || !s.Fill.On && s.Line.Width <= 0 {
		return
	}
	how := ""
	if s.Fill.On && !s.Open {
		d.SetFillColor(int(s.Fill.Colour.R), int(s.Fill.Colour.G), int(s.Fill.Colour.B))
		how = "F"
	}
	if s.Line.Width > 0 {
		c := s.Line.Colour
		if s.Line.Ink {
			c = scene.Colour{}
		}
		d.SetDrawColor(int(c.R), int(c.G), int(c.B))
		d.SetLineWidth(s.Line.Width)
		d.SetLineJoinStyle("round")
		dash := []float64{}
		if s.Line.Dash > 0 {
			dash = []float64{s.Line.Dash, s.Line.Dash}
		}
		d.SetDashPattern(dash, 0)
		how += "D"
	}
	for i, p := range s.Points {
		x, y := d.at(p)
		if i == 0 {
			d.MoveTo(x, y)
		} else {
			d.LineTo(x, y)
		}
	}
	if !s.Open {
		d.ClosePath()
	}
	d.DrawPath(how)
}

func (d pdf) label(l scene.Label) {
	style := ""
	if l.Bold {
		style = "B"
	}
	const pointsPerMM = 72 / 25.4
	d.SetFont("go", style, l.Type()*pointsPerMM)
	c := l.Colour()
	d.SetTextColor(int(c.R), int(c.G), int(c.B))
	x, y := d.at(scene.Point{X: l.At.X, Y: l.Baseline()})
	switch l.Anchor {
	case scene.Middle:
		x -= d.GetStringWidth(l.Text) / 2
	case scene.End:
		x -= d.GetStringWidth(l.Text)
	case scene.Start:
	}
	d.Text(x, y, l.Text)
}
