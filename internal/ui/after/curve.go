package after

import (
	"fmt"
	"math"
	"strings"

	"bench/internal/curing"
	"bench/internal/ui/ink"
)

// The curve is drawn in braille, two dots across and four down a cell; weigh-ins
// stand on it as signs, one for each marked bar.
const (
	dotsAcross = 2
	dotsDown   = 4
	labelWide  = 8
	leastPlot  = 3 // leastPlot is the fewest rows that show a curve.
)

// braille gives the bit of a dot in U+2800 and on (Unicode, Braille Patterns).
func braille(x, y int) rune {
	return [dotsDown][dotsAcross]rune{{0x01, 0x08}, {0x02, 0x10}, {0x04, 0x20}, {0x40, 0x80}}[y][x]
}

// barSigns tell marked bars apart without colour.
func barSigns() []rune { return []rune("●○◆◇■□") }

// plot is a drawing under way.
type plot struct {
	w, h      int
	last      float64 // last is the day at the right edge.
	low, high float64 // low and high are the parts at the lower and the upper edge.
	dots      [][]rune
	signs     [][]rune
}

// Curve draws what the marked bars weigh by day, as parts of their weight at the
// cut, with the fitted line where there is one; in h rows, or nothing where that
// is too few.
func Curve(t ink.Theme, c curing.Curing, d *curing.Drying, w, h int) []string {
	points := c.Points(d)
	if len(points) == 0 || h < leastPlot+2 || w < 30 {
		return nil
	}
	p := newPlot(c, d, points, w-labelWide-1, h-2)
	if d != nil {
		p.line(d.Line(p.last, p.w*dotsAcross))
	}
	for _, at := range points {
		p.sign(at, signOf(c, at.Bar))
	}
	var lines []string
	for row := range p.h {
		label := ""
		switch row {
		case 0:
			label = fmt.Sprintf("%.1f %%", 100*p.high)
		case p.h - 1:
			label = fmt.Sprintf("%.1f %%", 100*p.low)
		}
		lines = append(lines, t.Quiet.Render(ink.Right(label, labelWide-1))+t.Line.Render("│")+p.row(t, row))
	}
	return append(lines, t.Line.Render(ink.Spaces(labelWide-1)+"└"+p.axis(c)), t.Quiet.Render(ink.Spaces(labelWide)+p.days(c, d)))
}

func newPlot(c curing.Curing, d *curing.Drying, points []curing.Point, w, h int) plot {
	p := plot{w: w, h: h, last: c.Rules.Usual.Hours() / 24, low: 1, high: 1}
	for _, at := range points {
		p.last, p.low, p.high = max(p.last, at.Days), min(p.low, at.Part), max(p.high, at.Part)
	}
	if d != nil {
		if slow, _ := d.SlowDay(); slow < 2*p.last {
			p.last = max(p.last, slow)
		}
		line := d.Line(p.last, 2)
		p.low = min(p.low, line[1])
	}
	p.last = max(p.last, 1) * 1.02
	p.low = min(p.low, p.high-0.005) // Half a percent is the least that rows are told apart by.
	p.dots, p.signs = make([][]rune, h), make([][]rune, h)
	for i := range h {
		p.dots[i], p.signs[i] = make([]rune, w), make([]rune, w)
	}
	return p
}

// at gives the dot of a day and a part.
func (p plot) at(days, part float64) (x, y int, ok bool) {
	x = int(math.Round(days / p.last * float64(p.w*dotsAcross-1)))
	y = int(math.Round((p.high - part) / (p.high - p.low) * float64(p.h*dotsDown-1)))
	return x, y, x >= 0 && y >= 0 && x < p.w*dotsAcross && y < p.h*dotsDown
}

func (p plot) line(parts []float64) {
	for i, part := range parts {
		if x, y, ok := p.at(p.last*float64(i)/float64(max(1, len(parts)-1)), part); ok {
			p.dots[y/dotsDown][x/dotsAcross] |= braille(x%dotsAcross, y%dotsDown)
		}
	}
}

func (p plot) sign(at curing.Point, sign rune) {
	if x, y, ok := p.at(at.Days, at.Part); ok {
		p.signs[y/dotsDown][x/dotsAcross] = sign
	}
}

func signOf(c curing.Curing, bar string) rune {
	signs := barSigns()
	for i, m := range c.Marks {
		if m.Bar == bar {
			return signs[i%len(signs)]
		}
	}
	return signs[0]
}

func (p plot) row(t ink.Theme, row int) string {
	var b strings.Builder
	for x := range p.w {
		switch {
		case p.signs[row][x] != 0:
			b.WriteString(t.Accent.Render(string(p.signs[row][x])))
		case p.dots[row][x] != 0:
			b.WriteRune(0x2800 + p.dots[row][x])
		default:
			b.WriteByte(' ')
		}
	}
	return b.String()
}

// axis marks the shortest and the usual cure.
func (p plot) axis(c curing.Curing) string {
	line := []rune(strings.Repeat("─", p.w))
	for _, days := range []float64{c.Rules.Least.Hours() / 24, c.Rules.Usual.Hours() / 24} {
		if x, _, ok := p.at(days, p.high); ok {
			line[x/dotsAcross] = '┴'
		}
	}
	return string(line)
}

// days writes the days under the axis, as far as they leave each other room.
func (p plot) days(c curing.Curing, d *curing.Drying) string {
	line := []rune(ink.Spaces(p.w))
	put := func(days float64, text string) {
		x, _, ok := p.at(days, p.high)
		from := min(x/dotsAcross, p.w-len([]rune(text)))
		if !ok || from < 0 || strings.TrimSpace(string(line[max(0, from-1):min(p.w, from+len([]rune(text))+1)])) != "" {
			return
		}
		copy(line[from:], []rune(text))
	}
	put(0, "cut")
	if d != nil {
		if slow, _ := d.SlowDay(); slow > 0 {
			put(slow, fmt.Sprintf("▲ day %.0f", slow))
		}
	}
	put(c.Rules.Least.Hours()/24, fmt.Sprintf("least %.0f", c.Rules.Least.Hours()/24))
	put(c.Rules.Usual.Hours()/24, fmt.Sprintf("usual %.0f", c.Rules.Usual.Hours()/24))
	return string(line)
}
