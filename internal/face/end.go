package face

import (
	"fmt"

	"bench/internal/scene"
)

// checkRule is how long the rule is that a print is checked by, in mm.
const checkRule = 100

// End draws the end of the mould at its real size, to hold against it: the rim,
// the lines to pour to, and the slots where the sticks will lie.
func (l Loaf) End() scene.Scene {
	f := Print()
	box := l.mould().Around(l.soap())
	s := scene.Scene{Title: l.Title + ", end of the mould", Box: box}
	s.Box.Left -= marginLeft * f.letterW
	s.Box.Bottom -= marginBelow * f.letterH
	rule(&s, f, box)
	s.Add(scene.Shape{Name: "inside of the mould " + l.Mould, Points: l.Walls, Line: scene.Line{Width: thin, Ink: true}})
	notes := []note{{l.Rim, "rim, " + short(l.Rim) + " mm above the floor", 0}}
	slots := f
	slots.letterW, slots.letterH = 0.9*f.letterW, 0.9*f.letterH
	for _, layer := range l.Layers {
		notes = append(notes, l.lines(&s, layer)...)
		for _, e := range layer.Embeds {
			s.Add(scene.Shape{Name: "slot for " + e.Name, Points: e.Outline, Line: scene.Line{Width: thin, Ink: true}})
			if e.holds(slots) {
				s.Write(scene.Label{At: centre(e.Outline), Text: e.Name, Size: slots.letterH, Anchor: scene.Middle})
			} else {
				notes = append(notes, note{l.seen(e), e.Name, scene.BoxOf(e.Outline).Right})
			}
			s.Add(slot(e, box)...)
		}
	}
	beside(&s, f, box, notes)
	check(&s, f, box)
	if l.Upright {
		title(&s, f, l.Title, "the mould "+l.Mould+" from the side, 1 : 1")
		return s
	}
	title(&s, f, l.Title, "the end of the mould "+l.Mould+", 1 : 1, seen from the marked end (turn the sheet over for the other)")
	return s
}

// lines draws a layer's pour line, and the dashed surface that it ends at.
func (l Loaf) lines(s *scene.Scene, layer Layer) []note {
	pour, finished, middle := layer.PourLine, layer.Finished, l.middle()
	s.Add(scene.Shape{Name: layer.Name + ", pour line", Points: l.across(pour), Open: true, Line: scene.Line{Width: firm, Ink: true}})
	at := pour.over(middle)
	notes := []note{{at, fmt.Sprintf("%s: pour to %s mm%s, %s down from the rim", layer.Name, short(eye(at)), pour.where(), short(eye(l.Rim-at))), 0}}
	if ends := l.across(pour); pour.Slope != 0 && ends != nil {
		notes = append(notes, note{at - 0.1, fmt.Sprintf("(%s at the left, %s at the right)", short(eye(ends[0].Y)), short(eye(ends[1].Y))), 0})
	}
	if end := finished.over(middle); end-at > 0.05 {
		s.Add(scene.Shape{
			Name: layer.Name + ", finished surface", Points: l.across(finished), Open: true, Line: scene.Line{Width: thin, Ink: true, Dash: 2},
		})
		notes = append(notes, note{end, fmt.Sprintf("%s: with its embeds %s mm", layer.Name, short(eye(end))), 0})
	}
	return notes
}

// slot marks the middle of a slot on the floor and at the rim, for a ruler.
func slot(e Embed, box scene.Box) []scene.Shape {
	x := centre(e.Outline).X
	const long = 3
	return []scene.Shape{
		tick(scene.Point{X: x, Y: box.Bottom}, scene.Point{X: x, Y: box.Bottom + long}),
		tick(scene.Point{X: x, Y: box.Top - long}, scene.Point{X: x, Y: box.Top}),
	}
}

// check draws a rule of a hundred millimetres below the picture, and says what
// it is for.
func check(s *scene.Scene, f Frame, box scene.Box) {
	y := s.Box.Bottom - 2*f.letterH
	left := box.Left
	s.Add(scene.Shape{
		Name: "check rule, 100 mm", Points: []scene.Point{{X: left, Y: y}, {X: left + checkRule, Y: y}}, Open: true,
		Line: scene.Line{Width: firm, Ink: true},
	})
	for x := 0.0; x <= checkRule; x += 10 {
		long := 1.5
		if x == 0 || x == checkRule {
			long = 3
		}
		s.Add(tick(scene.Point{X: left + x, Y: y - long}, scene.Point{X: left + x, Y: y + long}))
	}
	for i, line := range []string{
		"This rule is 100 mm long. If yours is not, print again at 100 %,",
		"without fitting to the page, before you trust a line on this sheet.",
	} {
		s.Write(scene.Label{At: scene.Point{X: left, Y: y - 5 - (float64(i)+0.5)*f.letterH}, Text: line, Size: f.letterH})
	}
	s.Box.Bottom = y - 5 - 3*f.letterH
	s.Box.Right = max(s.Box.Right, left+checkRule+f.letterW)
}
