package face

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"bench/internal/quantity"
	"bench/internal/scene"
)

// Print gives a frame for paper and pictures: lines of writing 3 mm high and a
// rule of whole millimetres.
func Print() Frame { return Frame{letterW: 1.45, letterH: 3, Tick: 1, Rule: true} }

// Bar draws the cut face alone, edge to edge, as for a listing.
func (l Loaf) Bar() scene.Scene { return l.Finished().CutFace(Frame{}) }

// Notebook draws the cut face with its rule, its title, and the names and
// heights of what lies in it.
func (l Loaf) Notebook() scene.Scene {
	l = l.Finished()
	f := Print()
	s := l.CutFace(f)
	box := l.shown(f)
	var notes []note
	for i, layer := range l.Layers {
		from, low, where := 0.0, 0.0, ""
		if i > 0 {
			below := l.Layers[i-1].Finished
			from, low, where = below.over(box.Right), below.over(l.middle()), below.where()
		}
		to, high := layer.Finished.over(box.Right), layer.Finished.over(l.middle())
		where = cmp.Or(where, layer.Finished.where())
		notes = append(notes, note{(from + to) / 2, fmt.Sprintf("%s, %s to %s mm%s", layer.Name, short(eye(low)), short(eye(high)), where), 0})
		for _, e := range layer.Embeds {
			if e.holds(f) {
				s.Write(scene.Label{At: centre(e.Outline), Text: e.Name, Size: f.letterH, Anchor: scene.Middle, On: &e.Colour})
				continue
			}
			y := l.seen(e)
			notes = append(notes, note{y, e.Name, rightmost(e.Outline, y)})
		}
	}
	beside(&s, f, box, notes)
	what := "the cut face"
	if l.Upright {
		what = "the loaf as it stands"
	}
	title(&s, f, l.Title, fmt.Sprintf("%s, %s × %s mm", what, short(box.Width()), short(box.Height())))
	return s
}

// holds says that an embed's name fits into its outline.
func (e Embed) holds(f Frame) bool {
	width := float64(utf8.RuneCountInString(e.Name)+1) * f.letterW
	middle := centre(e.Outline)
	for _, x := range []float64{-width / 2, 0, width / 2} {
		for _, y := range []float64{-f.letterH / 2, f.letterH / 2} {
			if !inside(scene.Point{X: middle.X + x, Y: middle.Y + y}, e.Outline) {
				return false
			}
		}
	}
	return true
}

// inside counts the sides that a ray to the right crosses (even-odd rule).
func inside(p scene.Point, outline []scene.Point) bool {
	in := false
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}

// rightmost is the last place where an outline crosses a height.
func rightmost(outline []scene.Point, y float64) float64 {
	x := math.Inf(-1)
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		if (a.Y > y) != (b.Y > y) {
			x = math.Max(x, a.X+(y-a.Y)/(b.Y-a.Y)*(b.X-a.X))
		}
	}
	return x
}

// seen gives a height at which an embed is seen from the right, past the others.
func (l Loaf) seen(e Embed) float64 {
	at := scene.BoxOf(e.Outline)
	for _, share := range []float64{0.5, 0.6, 0.4, 0.7, 0.3, 0.8, 0.2} {
		y := at.Bottom + share*at.Height()
		free := true
		for _, layer := range l.Layers {
			for _, o := range layer.Embeds {
				b := scene.BoxOf(o.Outline)
				free = free && (b.Left < at.Right || y < b.Bottom-1 || y > b.Top+1)
			}
		}
		if free {
			return y
		}
	}
	return (at.Bottom + at.Top) / 2
}

// note is a line of writing at the right of a picture. It points to what begins
// at To, if that is not zero.
type note struct {
	y    float64
	text string
	to   float64
}

// beside writes notes at the right of a box, from the top down, none over
// another.
func beside(s *scene.Scene, f Frame, box scene.Box, notes []note) {
	slices.SortStableFunc(notes, func(a, b note) int { return cmp.Compare(b.y, a.y) })
	least, widest := math.Inf(1), 0.0
	x := box.Right + 2*f.letterW
	for _, n := range notes {
		y := min(n.y, least)
		least = y - f.letterH*1.1
		if n.to != 0 {
			s.Add(scene.Shape{
				Points: []scene.Point{{X: n.to, Y: n.y}, {X: box.Right, Y: n.y}, {X: x - f.letterW/2, Y: y}}, Open: true,
				Line: scene.Line{Width: thin, Ink: true},
			})
		}
		s.Write(scene.Label{At: scene.Point{X: x, Y: y}, Text: n.text, Size: f.letterH})
		widest = max(widest, float64(utf8.RuneCountInString(n.text)))
	}
	s.Box.Right = max(s.Box.Right, x+(widest+1)*f.letterW)
}

// title writes over a picture what it is.
func title(s *scene.Scene, f Frame, name, what string) {
	left := s.Box.Left + f.letterW
	s.Write(
		scene.Label{At: scene.Point{X: left, Y: s.Box.Top + 3.4*f.letterH}, Text: name, Size: 1.4 * f.letterH, Bold: true},
		scene.Label{At: scene.Point{X: left, Y: s.Box.Top + 2*f.letterH}, Text: what, Size: f.letterH},
	)
	s.Box.Top += 4.6 * f.letterH
	longest := float64(max(utf8.RuneCountInString(name)*7/5, utf8.RuneCountInString(what)) + 2)
	s.Box.Right = max(s.Box.Right, left+longest*f.letterW)
}

// centre gives the middle of an outline's box.
func centre(points []scene.Point) scene.Point {
	b := scene.BoxOf(points)
	return scene.Point{X: (b.Left + b.Right) / 2, Y: (b.Bottom + b.Top) / 2}
}

// eye rounds to what an eye can pour to, half a millimetre, as the tasks do.
func eye(mm float64) float64 { return math.Round(2*mm) / 2 }

// short writes millimetres as the tasks and lists do, without their unit.
func short(mm float64) string {
	return strings.TrimSuffix(quantity.FromMillimetres(mm).String(), " mm")
}
