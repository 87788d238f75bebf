package paper

import (
	"fmt"
	"time"

	"bench/internal/sheet"
)

// A record is set on A4, upright, in millimetres.
const (
	paperWidth, paperHeight = 210.0, 297.0
	paperMargin             = 15.0
	printEm                 = 2.9 // printEm is 8.2 points.
	titleEm                 = 5.5
	headingEm               = 3.8
	gutter                  = 2.5
	rowAir                  = 0.4 // rowAir is left above and below the words of a row.
)

// PDF writes a record as A4 pages.
func (r Record) PDF() ([]byte, error) {
	at, _ := time.Parse(time.RFC3339, r.Last) // A record without facts has the zero time.
	d := r.document()
	return sheet.PDF(d.title, at, d.pages()...)
}

// setter sets a document line by line and begins a page when one is full.
type setter struct {
	pages []sheet.Page
	y     float64
}

func (d doc) pages() []sheet.Page {
	var s setter
	s.turn()
	s.line(sheet.Style{Size: titleEm, Face: sheet.Bold}, paperMargin, d.title)
	for _, part := range d.sections {
		s.section(part)
	}
	for i := range s.pages {
		s.pages[i].Text(paperMargin, paperHeight-8, sheet.Style{Size: printEm}, d.title)
		s.pages[i].Right(paperWidth-paperMargin, paperHeight-8, sheet.Style{Size: printEm}, fmt.Sprintf("page %d of %d", i+1, len(s.pages)))
	}
	return s.pages
}

func (s *setter) page() *sheet.Page { return &s.pages[len(s.pages)-1] }

// turn begins a page.
func (s *setter) turn() {
	s.pages = append(s.pages, sheet.Page{Width: paperWidth, Height: paperHeight})
	s.y = paperMargin
}

// room makes sure that so much fits on this page, if it fits on one at all.
func (s *setter) room(height float64) {
	if s.y+height > paperHeight-paperMargin {
		s.turn()
	}
}

// line sets words, wrapped to what is left of the paper.
func (s *setter) line(style sheet.Style, x float64, words string) {
	for _, l := range sheet.Wrap(style, words, paperWidth-paperMargin-x) {
		s.room(style.Size * lineHeight)
		s.y += style.Size * lineHeight
		s.page().Text(x, s.y-0.3*style.Size, style, l)
	}
}

func (s *setter) section(part section) {
	plain, bold := sheet.Style{Size: printEm}, sheet.Style{Size: printEm, Face: sheet.Bold}
	s.y += headingEm * 0.7
	if part.title != "" {
		s.room(headingEm*lineHeight + 3*printEm*lineHeight) // A heading does not stand alone.
		s.line(sheet.Style{Size: headingEm, Face: sheet.Bold}, paperMargin, part.title)
	}
	for _, pair := range part.pairs {
		s.room(printEm * lineHeight)
		s.page().Text(paperMargin, s.y+printEm*(lineHeight-0.3), bold, pair[0])
		s.line(plain, paperMargin+34, pair[1])
	}
	s.table(part.table)
	for _, words := range part.lines {
		s.line(plain, paperMargin, words)
	}
}

// table sets rows whose cells wrap; the head is said again on every page.
func (s *setter) table(t table) {
	if len(t.rows) == 0 {
		return
	}
	widths := t.widths(paperWidth - 2*paperMargin)
	s.row(t, widths, t.head, sheet.Style{Size: printEm, Face: sheet.Bold})
	for _, row := range t.rows {
		page := len(s.pages)
		s.room(rowHeight(widths, row))
		if len(s.pages) > page {
			s.row(t, widths, t.head, sheet.Style{Size: printEm, Face: sheet.Bold})
		}
		s.row(t, widths, row, sheet.Style{Size: printEm})
	}
}

func rowHeight(widths []float64, row []string) float64 {
	lines := 1
	for i, cell := range row {
		lines = max(lines, len(sheet.Wrap(sheet.Style{Size: printEm}, cell, widths[i])))
	}
	return float64(lines)*printEm*lineHeight + 2*rowAir
}

func (s *setter) row(t table, widths []float64, row []string, style sheet.Style) {
	x, top, low := paperMargin, s.y+rowAir, s.y
	for i, cell := range row {
		y := top
		for _, l := range sheet.Wrap(style, cell, widths[i]) {
			y += printEm * lineHeight
			if t.number(i) {
				s.page().Right(x+widths[i], y-0.3*printEm, style, l)
			} else {
				s.page().Text(x, y-0.3*printEm, style, l)
			}
		}
		low = max(low, y)
		x += widths[i] + gutter
	}
	s.y = low + rowAir
	s.page().Line(0.08, sheet.Point{X: paperMargin, Y: s.y}, sheet.Point{X: paperWidth - paperMargin, Y: s.y})
}

// widths shares the paper among the columns: each gets what it wants where that
// fits, and else the widest are narrowed to one width. Numbers and times stay whole.
func (t table) widths(total float64) []float64 {
	want := make([]float64, len(t.head))
	for i, cell := range t.head {
		want[i] = sheet.Width(sheet.Style{Size: printEm, Face: sheet.Bold}, cell)
		for _, row := range t.rows {
			want[i] = max(want[i], sheet.Width(sheet.Style{Size: printEm}, row[i]))
		}
		want[i] += 0.1
	}
	left := total - gutter*float64(len(want)-1)
	limit := 0.0
	for range 50 { // Each round settles the columns that are under the limit.
		sum, wide := 0.0, 0
		for i, w := range want {
			if w > limit && !t.whole(i) {
				wide++
			} else {
				sum += w
			}
		}
		if wide == 0 {
			break
		}
		limit = (left - sum) / float64(wide)
	}
	for i, w := range want {
		if !t.whole(i) {
			want[i] = min(w, limit)
		}
	}
	return want
}

// whole says that a column is not narrowed.
func (t table) whole(i int) bool { return t.number(i) || t.head[i] == "at" }
