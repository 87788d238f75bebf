package face

import (
	"fmt"
	"slices"

	"bench/internal/cut"
	"bench/internal/recipe"
	"bench/internal/scene"
)

// Cut says how a loaf is cut into bars, and where sticks are joined in it; all
// along the loaf from its marked end, in mm.
type Cut struct {
	Bar   float64 // Bar is how thick a bar is.
	Bars  []Span
	Near  float64   // Near is the end piece at the stop, without what the wire takes.
	Rest  float64   // Rest is the end piece at the other end.
	Lines []float64 // Lines are where the middle of the cutter's wire passes.
	Rows  []Row
}

// Span is where a bar, or a piece of stick, begins and ends.
type Span struct{ From, To float64 }

// Row is one embed's pieces along the loaf, end to end.
type Row struct {
	Layer, Embed string
	Pieces       []Piece
}

// Piece is a piece of stick in its place, with the name that the cutting list
// gives it. Shows says that the join at its end lies inside a bar.
type Piece struct {
	Span
	Name  string
	Shows bool
}

// CutOf gives how a loaf of the batch is cut, as it was planned; loaf counts from
// 0.
func CutOf(c recipe.Control, loaf int) Cut {
	drawn := c.Loaf()
	cut := Cut{Bar: drawn.Bar.Millimetres(), Near: drawn.Near.Millimetres(), Rest: drawn.Rest().Millimetres()}
	for k := range drawn.Bars() {
		from, to := drawn.Span(k + 1)
		cut.Bars = append(cut.Bars, Span{from.Millimetres(), to.Millimetres()})
	}
	for _, line := range drawn.Lines() {
		cut.Lines = append(cut.Lines, line.At.Millimetres())
	}
	for _, plan := range c.Sticks {
		if loaf >= len(plan.Plan.Loaves) {
			continue
		}
		for _, e := range plan.Embeds {
			if n := plan.Row(e.Layer, e.Embed); n <= len(plan.Plan.Loaves[loaf].Rows) {
				cut.Rows = append(cut.Rows, rowOf(plan.Plan, loaf, n, e))
			}
		}
	}
	return cut
}

// rowOf gives the pieces of one row of one loaf.
func rowOf(plan cut.Plan, loaf, n int, e recipe.StickEmbed) Row {
	row := Row{Layer: recipe.Clean(e.Layer), Embed: recipe.Clean(e.Embed)}
	placed := plan.Loaves[loaf]
	for _, p := range placed.Rows[n-1].Pieces {
		shows := slices.ContainsFunc(plan.Shows, func(s cut.Show) bool {
			return s.Loaf == placed.N && s.Row == n && s.At == p.To
		})
		row.Pieces = append(row.Pieces, Piece{Span{p.From.Millimetres(), p.To.Millimetres()}, p.Label(), shows})
	}
	return row
}

// Side draws the loaf from its left side, with its marked end at the left: the
// layers as they show, the sticks within, their joins, and the cuts.
func (l Loaf) Side(c Cut) scene.Scene {
	f := Print()
	s := l.side(c, f)
	words := "from its left side; marked end at the left, against the cutter's stop"
	if n := len(c.Bars); n > 0 {
		words += fmt.Sprintf(": %d bars of %s mm, ends of %s and %s mm", n, short(c.Bar), short(c.Near), short(c.Rest))
	}
	title(&s, f, l.Title, words)
	s.Box.Right += 2 * f.letterW
	return s
}

// along gives the box of the loaf from its side.
func (l Loaf) along() scene.Box { return scene.Box{Right: l.Length, Top: l.soap().Top} }

func (l Loaf) side(c Cut, f Frame) scene.Scene {
	l = l.Finished()
	box := l.along()
	s := scene.Scene{Title: l.Title + ", from the side", Box: box}
	s.Box.Left -= marginLeft * f.letterW
	s.Box.Bottom -= (marginBelow + 1) * f.letterH
	rule(&s, f, box)
	l.bands(&s, box)
	l.cuts(&s, f, c, box) // Joins lie on cuts, and must be seen on them.
	for _, layer := range l.Layers {
		for _, e := range layer.Embeds {
			l.stick(&s, f, c, layer.Name, e)
		}
	}
	return s
}

// bands draws the layers along the loaf, the highest first.
func (l Loaf) bands(s *scene.Scene, box scene.Box) {
	for i := len(l.Layers) - 1; i >= 0; i-- {
		layer := l.Layers[i]
		from := 0.0
		if i > 0 {
			from = l.Layers[i-1].Finished.over(0) - seam
		}
		s.Add(scene.Shape{
			Name: layer.Name, Points: rectangle(box.Left, from, box.Right, layer.Finished.over(0)),
			Fill: scene.Fill{On: true, Colour: layer.Colour, Pattern: 1 + i},
		})
	}
}

// stick draws a row of sticks behind the side that is seen, with its joins.
func (l Loaf) stick(s *scene.Scene, f Frame, c Cut, layer string, e Embed) {
	at := scene.BoxOf(e.Outline)
	for _, y := range []float64{at.Bottom, at.Top} {
		hidden := cased(e.Name, thin, scene.Point{X: 0, Y: y}, scene.Point{X: l.Length, Y: y})
		hidden[1].Line.Dash = 1.5
		s.Add(hidden...)
	}
	y := at.Top - 0.8*f.letterH
	colour := l.colourAt(scene.Point{X: 0, Y: at.Top - f.letterH})
	first := 0.0
	if len(c.Bars) > 0 {
		first = c.Bars[0].From // Clear of the first cut.
	}
	for _, row := range c.Rows {
		if row.Layer != layer || row.Embed != e.Name {
			continue
		}
		for i, p := range row.Pieces {
			text := p.Name
			if i == 0 {
				text = e.Name + " " + text
			}
			if p.Shows {
				text += ", its join shows"
			}
			s.Write(scene.Label{At: scene.Point{X: max(p.From, first) + 2*f.letterW, Y: y}, Text: text, Size: f.letterH, On: &colour})
			if i > 0 {
				s.Add(cased(e.Name+", join", 3*firm, scene.Point{X: p.From, Y: at.Bottom}, scene.Point{X: p.From, Y: at.Top})...)
			}
		}
		return
	}
	s.Write(scene.Label{At: scene.Point{X: first + 2*f.letterW, Y: y}, Text: e.Name, Size: f.letterH, On: &colour})
}

// colourAt gives the colour of the layer that shows at a height.
func (l Loaf) colourAt(p scene.Point) scene.Colour {
	for _, layer := range l.Layers {
		if p.Y <= layer.Finished.over(p.X) {
			return layer.Colour
		}
	}
	return uncoloured
}

// cuts draws where the cutter passes, over and under the loaf as well, and
// numbers the bars.
func (l Loaf) cuts(s *scene.Scene, f Frame, c Cut, box scene.Box) {
	over := f.letterH
	for _, x := range c.Lines {
		s.Add(cased("cut", thin, scene.Point{X: x, Y: box.Bottom}, scene.Point{X: x, Y: box.Top + over})...)
	}
	s.Box.Top = max(s.Box.Top, box.Top+over)
	below := func(span Span, text string) {
		if span.To-span.From >= float64(len(text)+1)*f.letterW {
			at := scene.Point{X: (span.From + span.To) / 2, Y: box.Bottom - (marginBelow+0.5)*f.letterH}
			s.Write(scene.Label{At: at, Text: text, Size: f.letterH, Anchor: scene.Middle})
		}
	}
	for k, bar := range c.Bars {
		below(bar, fmt.Sprintf("bar %d", k+1))
	}
	if n := len(c.Bars); n > 0 {
		below(Span{0, c.Bars[0].From}, "end")
		below(Span{c.Bars[n-1].To, l.Length}, "end")
	}
}

// cased gives a line that shows on soap of any colour: in ink, on a wider one in
// white.
func cased(name string, width float64, points ...scene.Point) []scene.Shape {
	white := scene.Colour{R: 255, G: 255, B: 255}
	return []scene.Shape{
		{Points: points, Open: true, Line: scene.Line{Width: width + thin, Colour: white, Spare: true}},
		{Name: name, Points: points, Open: true, Line: scene.Line{Width: width, Ink: true}},
	}
}

func rectangle(left, bottom, right, top float64) []scene.Point {
	return []scene.Point{{X: left, Y: bottom}, {X: right, Y: bottom}, {X: right, Y: top}, {X: left, Y: top}}
}
