package draw

import (
	"math"
	"strconv"
	"strings"
)

// Marks around a frame (DEC private mode 2026) make a terminal show it whole.
const (
	frameBegin = "\x1b[?2026h"
	frameEnd   = "\x1b[?2026l"
)

// screen knows what the terminal shows and what must be written to show another
// frame. It does no input or output.
type screen struct {
	marks bool // The terminal may be sent frame marks.
	wary  bool // The terminal may show as wide what is narrow elsewhere.
	rows  []row
	width int
	stale bool // What the terminal shows is not known.

	out   []byte
	spare []cell
	spans int    // Runs of cells in out.
	pen   string // The style in force at the end of out.
	inked bool   // The pen shows on blanks.
}

type row struct {
	line  string // As it came, to tell an unchanged row at a glance.
	cells []cell
}

// resize makes the next frame repaint everything at a new size.
func (s *screen) resize(width, height int) {
	s.width, s.rows = width, make([]row, height)
	s.stale = true
}

// invalidate makes the next frame repaint everything.
func (s *screen) invalidate() {
	for y := range s.rows {
		s.rows[y] = row{cells: s.rows[y].cells[:0]}
	}
	s.stale = true
}

// render returns the bytes that turn what is shown into the frame, valid until
// the next call; nothing when nothing changed. Lines too many are left out.
func (s *screen) render(frame string) []byte {
	s.out, s.spans = append(s.out[:0], frameBegin...), 0
	repaint := s.stale
	if repaint {
		s.out = append(s.out, "\x1b[m\x1b[2J"...)
		s.stale = false
	}
	for y := range s.rows {
		var line string
		line, frame, _ = strings.Cut(frame, "\n")
		if s.rows[y].line != line {
			s.renderRow(y, line)
		}
	}
	s.setPen("")
	if s.marks && (repaint || s.spans > 1) {
		return append(s.out, frameEnd...)
	}
	return s.out[len(frameBegin):] // A single run cannot be seen half done.
}

func (s *screen) renderRow(y int, line string) {
	old := s.rows[y].cells
	now := appendCells(s.spare[:0], line, s.width)
	s.rows[y], s.spare = row{line, now}, old

	at := -1 // The cursor's column, -1 if it is in another row.
	spoilt := 0
	for x := range now {
		if same(old, now, x) && x >= spoilt || now[x].text == "" {
			continue // The second half of a wide grapheme comes with the first.
		}
		s.moveTo(y, x, at, now)
		at = s.write(y, x, now)
		if s.unsure(now[x].text) {
			spoilt = at + spill
		}
	}
	if len(old) <= len(now) {
		return
	}
	s.moveTo(y, len(now), at, now)
	s.setPenFor(cell{text: " "}) // Erased cells take the background in force.
	s.out = append(s.out, "\x1b[K"...)
}

// spill is how many columns a grapheme may take beside those that it should: two
// runes of two columns each that should be one.
const spill = 2

// same reports whether column x looks the same in both rows; past its end a row
// is blank.
func same(old, now []cell, x int) bool {
	if x < len(old) {
		return old[x] == now[x]
	}
	return now[x].blank()
}

// write appends the grapheme at column x and returns the column after it.
func (s *screen) write(y, x int, cells []cell) (next int) {
	s.setPenFor(cells[x])
	s.out = append(s.out, cells[x].text...)
	next = x + 1
	for next < len(cells) && cells[next].text == "" {
		next++
	}
	if s.unsure(cells[x].text) {
		s.place(y, next)
	}
	return next
}

// moveTo takes the cursor to a place from column at of the row, or from another
// row, and what lies between is written again where that takes fewer bytes.
func (s *screen) moveTo(y, x, at int, cells []cell) {
	const jump = len("\x1b[9C")
	switch {
	case at == x:
	case at < 0:
		s.spans++
		s.place(y, x)
	case s.bytes(cells[at:x]) <= jump:
		for _, c := range cells[at:x] {
			s.out = append(s.out, c.text...)
		}
	default: // CUF; it counts columns.
		s.spans++
		s.out = append(s.out, "\x1b["...)
		if x-at > 1 {
			s.out = strconv.AppendInt(s.out, int64(x-at), 10)
		}
		s.out = append(s.out, 'C')
	}
}

// bytes returns how many bytes cells take that the pen can write as it is; too
// many for any gap if it cannot.
func (s *screen) bytes(cells []cell) (n int) {
	for _, c := range cells {
		ready := c.style == s.pen || c.blank() && !s.inked
		if !ready || s.unsure(c.text) {
			return math.MaxInt
		}
		n += len(c.text)
	}
	return n
}

// place appends a cursor position (CUP), which counts from one.
func (s *screen) place(y, x int) {
	s.out = append(s.out, "\x1b["...)
	s.out = strconv.AppendInt(s.out, int64(y+1), 10)
	if x > 0 {
		s.out = append(s.out, ';')
		s.out = strconv.AppendInt(s.out, int64(x+1), 10)
	}
	s.out = append(s.out, 'H')
}

// setPenFor puts the style of a cell in force; a blank takes any that does not
// show on it.
func (s *screen) setPenFor(c cell) {
	if !c.blank() || s.inked {
		s.setPen(c.style)
	}
}

// setPen puts a style in force, from a reset unless there is none to undo.
func (s *screen) setPen(style string) {
	switch {
	case style == s.pen:
		return
	case style == "":
		s.out = append(s.out, "\x1b[m"...)
	case s.pen == "":
		s.out = append(s.out, style...)
	default: // Reset and first sequence in one.
		s.out = append(s.out, "\x1b[0;"...)
		s.out = append(s.out, style[len("\x1b["):]...)
	}
	s.pen, s.inked = style, inked(style)
}
