package form

import (
	"errors"
	"fmt"
	"math"
	"strings"
)

// Path is one closed outline as path data of SVG draws it: straight sides,
// curves and arcs, one after the other. Its Y points down, as in SVG.
type Path struct {
	start  Point
	pieces []piece
}

// piece leads on from where the piece before it ends: straight to the end, or
// along a cubic curve or an arc.
type piece struct {
	kind   byte // kind is 'L', 'C' or 'A'.
	c1, c2 Point
	arc    arc
	end    Point
}

// The bounds of path data. An outline of an embed needs a small part of it.
const (
	maxPathText   = 64 << 10
	maxPathNumber = 1e6
)

// ParsePath reads path data of SVG (W3C, Scalable Vector Graphics 2, section
// 9.3) that draws one closed outline. It is strict: data must begin with a move,
// hold a single outline, and close it. Errors name the character, from 1.
func ParsePath(data string) (Path, error) {
	if len(data) > maxPathText {
		return Path{}, fmt.Errorf("the path is longer than %d characters: draw it with fewer points", maxPathText)
	}
	p := pathParser{text: data}
	for p.skip(); p.at < len(p.text); p.skip() {
		if err := p.command(); err != nil {
			return Path{}, fmt.Errorf("at character %d of the path: %w", p.began+1, err)
		}
	}
	switch last := p.now; {
	case !p.moved:
		return Path{}, errors.New("the path is empty: draw one closed outline")
	case len(p.path.pieces) == 0:
		return Path{}, errors.New("the path draws nothing: it has one point only")
	case !p.closed && last != p.path.start:
		return Path{}, fmt.Errorf("the outline is open: it ends at %g,%g and began at %g,%g; end the path with Z", last.X, last.Y, p.path.start.X, p.path.start.Y)
	}
	return p.path, nil
}

// pathParser reads commands one by one, as the grammar of SVG 2 has them.
type pathParser struct {
	text    string
	at      int
	began   int // began is where the command or number being read starts.
	path    Path
	now     Point
	control Point // control is the last control point, for S and T.
	last    byte  // last is the command before, in capitals.
	moved   bool
	closed  bool
}

// counts are how many numbers each command takes.
const counts = "M2 L2 H1 V1 C6 S4 Q4 T2 A7 Z0"

func (p *pathParser) command() error {
	p.began = p.at
	letter := p.text[p.at]
	upper := letter &^ 0x20
	i := strings.IndexByte(counts, upper)
	switch {
	case i < 0 || letter < 'A' || upper < 'A' || upper > 'Z':
		return fmt.Errorf("%q is no command: it can be M, L, H, V, C, S, Q, T, A or Z", letter)
	case !p.moved && upper != 'M':
		return fmt.Errorf("a path begins with M, not with %q", letter)
	case p.moved && upper == 'M', p.closed:
		return errors.New("a second outline begins here: an embed has one")
	}
	p.at++
	n := int(counts[i+1] - '0')
	for first := true; ; first = false {
		var v [7]float64
		for k := range n {
			flag := upper == 'A' && (k == 3 || k == 4)
			x, err := p.number(flag, first && k == 0)
			if err != nil {
				return err
			}
			v[k] = x
		}
		if !first && upper == 'M' { // Further pairs after a move are lines.
			upper = 'L'
		}
		if err := p.draw(upper, letter >= 'a', v); err != nil {
			return err
		}
		if n == 0 || !p.more() {
			return nil
		}
	}
}

// draw adds what one set of numbers draws. Relative ones count from where the
// last piece ended.
func (p *pathParser) draw(command byte, relative bool, v [7]float64) error {
	var from Point
	if relative {
		from = p.now
	}
	at := func(i int) Point { return Point{from.X + v[i], from.Y + v[i+1]} }
	mirror := p.now // mirror continues the last curve smoothly, where S or T follows one of its kind.
	if command == 'S' && strings.IndexByte("CS", p.last) >= 0 || command == 'T' && strings.IndexByte("QT", p.last) >= 0 {
		mirror = Point{2*p.now.X - p.control.X, 2*p.now.Y - p.control.Y}
	}
	p.last = command
	switch command {
	case 'M':
		p.now, p.path.start, p.moved = at(0), at(0), true
	case 'L':
		p.add(piece{kind: 'L', end: at(0)})
	case 'H':
		p.add(piece{kind: 'L', end: Point{from.X + v[0], p.now.Y}})
	case 'V':
		p.add(piece{kind: 'L', end: Point{p.now.X, from.Y + v[0]}})
	case 'C':
		p.cubic(at(0), at(2), at(4))
	case 'S':
		p.cubic(mirror, at(0), at(2))
	case 'Q':
		p.quadratic(at(0), at(2))
	case 'T':
		p.quadratic(mirror, at(0))
	case 'A':
		p.add(arcPiece(p.now, v[0], v[1], v[2], v[3] != 0, v[4] != 0, at(5)))
	case 'Z':
		p.now, p.closed = p.path.start, true
	}
	e, reach := p.now, 0.0
	if n := len(p.path.pieces); n > 0 {
		reach = math.Max(p.path.pieces[n-1].arc.rx, p.path.pieces[n-1].arc.ry)
	}
	if !(max(math.Abs(e.X), math.Abs(e.Y), reach) <= maxPathNumber) {
		return fmt.Errorf("the path leads further than %g from the origin", maxPathNumber)
	}
	return nil
}

func (p *pathParser) add(s piece) {
	p.path.pieces = append(p.path.pieces, s)
	p.now = s.end
}

func (p *pathParser) cubic(c1, c2, end Point) {
	p.control = c2
	p.add(piece{kind: 'C', c1: c1, c2: c2, end: end})
}

// quadratic is the cubic curve that runs the same way.
func (p *pathParser) quadratic(c, end Point) {
	toward := func(a Point) Point { return Point{a.X + (c.X-a.X)*2/3, a.Y + (c.Y-a.Y)*2/3} }
	p.add(piece{kind: 'C', c1: toward(p.now), c2: toward(end), end: end})
	p.control = c
}
