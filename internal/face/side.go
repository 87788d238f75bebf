package face

import (
	"fmt"
	"math"

	"bench/internal/scene"
)

// Cut says how a loaf is cut into bars, and where sticks are joined in it; all
// along the loaf from its marked end, in mm.
type Cut struct {
	Trim float64 // Trim is what is cut off each end, at least.
	Bar  float64 // Bar is how thick a bar is.
	Rows []Row
}

// Row is one embed's sticks along the loaf, end to end.
type Row struct {
	Embed string
	Joins []float64 // Joins are where two pieces meet.
}

// Bars gives how many bars the loaf gives.
func (c Cut) Bars(length float64) int {
	if c.Bar <= 0 {
		return 0
	}
	return max(0, int(math.Floor((length-2*c.Trim)/c.Bar+1e-9)))
}

// lines gives where the cutter passes.
func (c Cut) lines(length float64) []float64 {
	var at []float64
	for k := range c.Bars(length) + 1 {
		at = append(at, c.Trim+float64(k)*c.Bar)
	}
	return at
}

// Side draws the loaf from its left side, with its marked end at the left: the
// layers as they show, the sticks within, their joins, and the cuts.
func (l Loaf) Side(c Cut) scene.Scene {
	f := Print()
	s := l.side(c, f)
	bars := c.Bars(l.Length)
	title(&s, f, l.Title, fmt.Sprintf("from its left side; marked end at the left, against the cutter's stop: %d bars of %s mm, ends of %s and %s mm",
		bars, short(c.Bar), short(c.Trim), short(l.Length-c.Trim-float64(bars)*c.Bar)))
	s.Box.Right += 2 * f.LetterW
	return s
}

// along gives the box of the loaf from its side.
func (l Loaf) along() scene.Box { return scene.Box{Right: l.Length, Top: l.soap().Top} }

func (l Loaf) side(c Cut, f Frame) scene.Scene {
	l = l.Finished()
	box := l.along()
	s := scene.Scene{Title: l.Title + ", from the side", Box: box}
	s.Box.Left -= marginLeft * f.LetterW
	s.Box.Bottom -= (marginBelow + 1) * f.LetterH
	rule(&s, f, box)
	l.bands(&s, box)
	for _, layer := range l.Layers {
		for _, e := range layer.Embeds {
			l.stick(&s, f, c, e)
		}
	}
	l.cuts(&s, f, c, box)
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

// stick draws a row of sticks behind the side that is seen, and its joins.
func (l Loaf) stick(s *scene.Scene, f Frame, c Cut, e Embed) {
	at := scene.BoxOf(e.Outline)
	for _, y := range []float64{at.Bottom, at.Top} {
		hidden := cased(e.Name, thin, scene.Point{X: 0, Y: y}, scene.Point{X: l.Length, Y: y})
		hidden[1].Line.Dash = 1.5
		s.Add(hidden...)
	}
	for _, row := range c.Rows {
		if row.Embed != e.Name {
			continue
		}
		for _, x := range row.Joins {
			s.Add(cased(e.Name+", join", 2*firm, scene.Point{X: x, Y: at.Bottom}, scene.Point{X: x, Y: at.Top})...)
		}
	}
	colour := l.colourAt(scene.Point{X: 0, Y: at.Top - f.LetterH})
	s.Write(scene.Label{
		At: scene.Point{X: c.Trim + 2*f.LetterW, Y: at.Top - 0.8*f.LetterH}, Text: e.Name, Size: f.LetterH, On: &colour,
	})
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
	at := c.lines(l.Length)
	if len(at) < 2 {
		return
	}
	over := f.LetterH
	for _, x := range at {
		s.Add(cased("cut", thin, scene.Point{X: x, Y: box.Bottom}, scene.Point{X: x, Y: box.Top + over})...)
	}
	y := box.Bottom - (marginBelow+0.5)*f.LetterH
	for k := range at[1:] {
		s.Write(scene.Label{
			At: scene.Point{X: (at[k] + at[k+1]) / 2, Y: y}, Text: fmt.Sprintf("bar %d", k+1), Size: f.LetterH, Anchor: scene.Middle,
		})
	}
	for _, end := range [][2]float64{{0, at[0]}, {at[len(at)-1], l.Length}} {
		if end[1]-end[0] >= 5*f.LetterW {
			s.Write(scene.Label{At: scene.Point{X: (end[0] + end[1]) / 2, Y: y}, Text: "end", Size: f.LetterH, Anchor: scene.Middle})
		}
	}
	s.Box.Top = max(s.Box.Top, box.Top+over)
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
