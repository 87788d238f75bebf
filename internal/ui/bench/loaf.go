package bench

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"bench/internal/quantity"
	"bench/internal/steps"
	"bench/internal/ui/ink"
)

// loafFills tell neighbouring layers apart without colour.
var loafFills = []rune{'▒', '░', '▓'} //nolint:gochecknoglobals // A table.

// What an embed is drawn with, once it is in and before.
const (
	embedIn     = '▪'
	embedToCome = '▫'
)

// loafDrawing is the cut face of one loaf, to scale in cells that are twice as
// high as wide.
type loafDrawing struct {
	t          ink.Theme
	b          Screen
	at         steps.Stage
	loaf       int // loaf counts from 0.
	rows, cols int
	cells      [][]rune
	labels     []string
	pour       int // pour is the row of the line to pour to, or -1.
}

// loaf draws the loaf at hand: layers filled as far as they were poured, the line
// that the next pour goes up to, its finished surface, and the embeds.
func (b Screen) loaf(t ink.Theme, w, h int, at steps.Stage, task steps.Task) []string {
	mould := b.Plan.Mould
	if !mould.HasHeights() || mould.Height <= 0 || mould.Width <= 0 || len(b.Plan.Layers) == 0 || h < 12 {
		return nil
	}
	d := loafDrawing{t: t, b: b, at: at, loaf: loafOf(at, task, b.Plan.Loaves), pour: -1}
	d.size(w-11, h-6-len(b.Plan.Layers))
	for i, l := range b.Plan.Layers {
		d.layer(i, l)
	}
	for i := range b.Plan.Layers {
		d.embeds(i)
	}
	lines := []string{"", " " + t.Quiet.Render(ink.Cut(d.title(), w-2))}
	for i := range d.cells {
		lines = append(lines, d.row(i))
	}
	lines = append(lines, "  "+t.Line.Render("└"+ink.Rule(d.cols)+"┘"), "")
	return append(lines, d.legend(w)...)
}

// loafOf says which loaf the task is about, or the first.
func loafOf(at steps.Stage, task steps.Task, loaves int) int {
	n := at.Loaf
	if _, after, ok := strings.Cut(task.ID, "/loaf "); ok {
		number, _, _ := strings.Cut(after, "/")
		n, _ = strconv.Atoi(number)
	}
	return min(max(1, n), max(1, loaves)) - 1
}

// size fits the section into so many cells.
func (d *loafDrawing) size(cols, rows int) {
	mould := d.b.Plan.Mould
	shape := mould.Height.Millimetres() / mould.Width.Millimetres() / 2
	d.cols = min(cols, int(float64(rows)/shape))
	d.rows = max(1, int(math.Round(float64(d.cols)*shape)))
	d.labels = make([]string, d.rows)
	d.cells = make([][]rune, d.rows)
	for i := range d.cells {
		d.cells[i] = []rune(ink.Spaces(d.cols))
	}
}

func (d *loafDrawing) title() string {
	which := "the loaf"
	if d.b.Plan.Loaves > 1 {
		which = fmt.Sprintf("loaf %d of %d", d.loaf+1, d.b.Plan.Loaves)
	}
	return which + ", " + d.b.Plan.Mould.Height.String() + " to the rim"
}

// rowAt gives the row in which a height lies.
func (d *loafDrawing) rowAt(y quantity.Length) int {
	up := int(math.Ceil(y.Millimetres()*d.perY())) - 1
	return min(max(0, d.rows-1-up), d.rows-1)
}

// filled gives how high the loaf stands once this layer was poured, or false: to
// the pour line, and to its finished surface when the embeds are in.
func (d *loafDrawing) filled(i int) (quantity.Length, bool) {
	l := d.b.Plan.Layers[i]
	if d.loaf >= len(l.Loaves) || !l.Loaves[d.loaf].Poured {
		return 0, false
	}
	for _, in := range d.embedsIn(i) {
		if !in {
			return l.Loaves[d.loaf].PourLine, true
		}
	}
	return l.Loaves[d.loaf].Surface, true
}

// layer fills a layer that was poured, and draws where one still to come will
// lie.
func (d *loafDrawing) layer(i int, l steps.Layer) {
	if d.loaf >= len(l.Loaves) {
		return
	}
	pour := l.Loaves[d.loaf]
	top, poured := d.filled(i)
	if !poured {
		d.level(pour.Surface, '╌', ink.ToAnEye(pour.Surface))
		if l.Name == d.at.Layer {
			d.pour = d.rowAt(pour.PourLine)
			d.level(pour.PourLine, '─', ink.ToAnEye(pour.PourLine))
		}
		return
	}
	// A row is filled when its middle was reached: half a row is what it can show.
	for row := range d.rows {
		middle := d.b.Plan.Mould.Height * quantity.Length(2*(d.rows-row)-1) / quantity.Length(2*d.rows)
		if middle < top && d.cells[row][0] == ' ' {
			fill(d.cells[row], loafFills[i%len(loafFills)])
		}
	}
	if top < pour.Surface && d.cells[d.rowAt(pour.Surface)][0] == ' ' {
		d.level(pour.Surface, '╌', ink.ToAnEye(pour.Surface))
	}
	d.labels[d.rowAt(top)] = number(ink.ToAnEye(top))
}

// level draws a level across the loaf.
func (d *loafDrawing) level(at quantity.Length, with rune, label quantity.Length) {
	row := d.rowAt(at)
	fill(d.cells[row], with)
	d.labels[row] = number(label)
}

func fill(cells []rune, with rune) {
	for i := range cells {
		cells[i] = with
	}
}

func number(l quantity.Length) string { return strings.TrimSuffix(l.String(), " mm") }

// row sets a row between the walls, with its height beside it.
func (d *loafDrawing) row(i int) string {
	text, label, style := string(d.cells[i]), d.labels[i], ink.Ink{}
	switch {
	case i == d.pour:
		style, label = d.t.Accent, d.t.Accent.Render(ink.SignNow+" "+label)
	case strings.ContainsRune(text, '╌'):
		style = d.t.Line
	}
	return "  " + d.t.Line.Render("│") + style.Render(text) + d.t.Line.Render("│") + " " + label
}

// legend names the layers from the top down, as they lie.
func (d *loafDrawing) legend(w int) []string {
	var lines []string
	some := false
	for i := len(d.b.Plan.Layers) - 1; i >= 0; i-- {
		l := d.b.Plan.Layers[i]
		sign, state := " ", "to come"
		if top, poured := d.filled(i); poured {
			sign, state = string(loafFills[i%len(loafFills)]), "poured to "+ink.ToAnEye(top).String()
		} else if l.Name == d.at.Layer && d.loaf < len(l.Loaves) {
			state = "pour to " + ink.ToAnEye(l.Loaves[d.loaf].PourLine).String()
		}
		lines = append(lines, "  "+sign+" "+ink.Cut(ink.Clean(l.Name)+": "+state, w-5))
		some = some || len(d.b.State.Control.Recipe.Layers[i].Embeds) > 0
	}
	if some {
		lines = append(lines, "  "+d.t.Quiet.Render(ink.Cut(string(embedIn)+" embed in  "+string(embedToCome)+" still to come", w-3)))
	}
	return lines
}
