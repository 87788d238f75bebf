package draw

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// Marks around a frame (DEC private mode 2026) make a terminal show it whole.
const (
	frameBegin = "\x1b[?2026h"
	frameEnd   = "\x1b[?2026l"
)

// farApart is the number of unchanged cells that cost more to write again than
// to jump over.
const farApart = 8

// screen knows what the terminal shows and what must be written to show another
// frame. It does no input or output.
type screen struct {
	marks bool // The terminal may be sent frame marks.
	rows  []row
	width int
	stale bool // What the terminal shows is not known.

	out   []byte
	spare []cell
	spans int    // Runs of cells in out.
	pen   string // The style in force at the end of out.
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
	for x := 0; x < len(now); {
		if same(old, now, x) {
			x++
			continue
		}
		end := spanEnd(old, now, x)
		s.moveTo(y, x)
		s.write(y, x, now[x:end])
		x, at = end, end
	}
	if len(old) <= len(now) {
		return
	}
	if at != len(now) {
		s.moveTo(y, len(now))
	}
	s.setPen("") // Erased cells take the background in force.
	s.out = append(s.out, "\x1b[K"...)
}

// same reports whether column x looks the same in both rows; past its end a row
// is blank.
func same(old, now []cell, x int) bool {
	if x < len(old) {
		return old[x] == now[x]
	}
	return now[x].blank()
}

// spanEnd returns where the run of changed cells that starts at x ends. It takes
// short unchanged stretches along and never ends within a wide grapheme.
func spanEnd(old, now []cell, x int) int {
	end := x + 1
	for i := end; i < len(now) && i-end < farApart; i++ {
		if !same(old, now, i) || now[i].text == "" && i == end {
			end = i + 1
		}
	}
	return end
}

// write appends cells that begin at column x.
func (s *screen) write(y, x int, cells []cell) {
	for i, c := range cells {
		if c.text == "" {
			continue
		}
		s.setPen(c.style)
		s.out = append(s.out, c.text...)
		if !joined(c.text) {
			continue
		}
		// Terminals disagree about the width of joined runes, so say where the
		// next one goes.
		next := i + 1
		for next < len(cells) && cells[next].text == "" {
			next++
		}
		s.place(y, x+next)
	}
}

func joined(text string) bool {
	_, n := utf8.DecodeRuneInString(text)
	return n < len(text)
}

// moveTo begins a run of cells at a place.
func (s *screen) moveTo(y, x int) {
	s.spans++
	s.place(y, x)
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
	s.pen = style
}
