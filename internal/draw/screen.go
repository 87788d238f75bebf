package draw

import (
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Marks around a frame (DEC private mode 2026) make a terminal show it whole.
const (
	frameBegin = "\x1b[?2026h"
	frameEnd   = "\x1b[?2026l"
)

// piece is how many bytes of one write reach a terminal together, whatever lies
// between: the least buffer of Linux's terminals. A frame of no more, or of a single
// run, cannot be seen half done.
const piece = 256

// screen knows what the terminal shows and what must be written to show another
// frame. It does no input or output.
type screen struct {
	marks bool // The terminal may be sent frame marks.
	wary  bool // The terminal may show as wide what is narrow elsewhere.
	rows  []row
	width int
	stale bool // What the terminal shows is not known.

	frame   string // frame is what out leads to, if ready.
	ready   bool
	out     []byte
	next    []row // next is what the changed rows will be.
	changed []int

	spans int    // Runs of cells in out.
	pen   string // The style in force at the end of out.
	look  look   // The pen, taken apart.
	x, y  int    // The cursor; y is -1 if its place is not known.
}

type row struct {
	line  string // As it came, to tell an unchanged row at a glance.
	cells []cell
}

// resize makes the next frame repaint everything at a new size.
func (s *screen) resize(width, height int) {
	s.width, s.rows, s.next = width, make([]row, height), make([]row, height)
	s.stale, s.ready = true, false
}

// invalidate makes the next frame repaint everything.
func (s *screen) invalidate() {
	for y := range s.rows {
		s.rows[y] = row{cells: s.rows[y].cells[:0]}
	}
	s.stale, s.ready = true, false
}

// render returns the bytes that turn what is shown into the frame, valid until
// it is called for another; nothing when nothing changed. Lines too many are left
// out. Until they are shown, it may be asked about other frames, too.
func (s *screen) render(frame string) []byte {
	if !s.ready || s.frame != frame {
		s.frame, s.ready = frame, true
		s.work(frame)
	}
	if s.marks && (s.stale || s.spans > 1 && len(s.out)-len(frameBegin) > piece) {
		return append(s.out, frameEnd...)
	}
	return s.out[len(frameBegin):]
}

func (s *screen) work(frame string) {
	s.out, s.changed, s.spans, s.y = append(s.out[:0], frameBegin...), s.changed[:0], 0, -1
	if s.stale {
		s.out = append(s.out, "\x1b[m\x1b[2J"...)
	}
	for y := range s.rows {
		var line string
		line, frame, _ = strings.Cut(frame, "\n")
		if s.rows[y].line != line {
			s.renderRow(y, line)
		}
	}
	s.setPen("")
}

// shown says that what was rendered last has been written.
func (s *screen) shown() {
	for _, y := range s.changed {
		s.rows[y], s.next[y] = s.next[y], s.rows[y]
	}
	s.stale, s.ready = false, false
}

func (s *screen) renderRow(y int, line string) {
	old, now := s.rows[y].cells, appendCells(s.next[y].cells[:0], line, s.width)
	s.next[y], s.changed = row{line, now}, append(s.changed, y)

	spoilt := 0
	for x := range now {
		if same(old, now, x) && x >= spoilt || now[x].text == "" {
			continue // The second half of a wide grapheme comes with the first.
		}
		s.moveTo(y, x, now)
		s.write(x, now)
		if s.unsure(now[x].text) {
			spoilt = max(spoilt, x+most(now[x].text))
		}
	}
	if len(now) == s.width || len(old) <= len(now) && spoilt <= len(now) {
		return
	}
	s.moveTo(y, len(now), now)
	s.setPenFor(cell{text: " "}) // Erased cells take the background in force.
	s.out = append(s.out, "\x1b[K"...)
}

// most is how many columns a grapheme takes where each of its runes takes two.
func most(grapheme string) int { return 2 * utf8.RuneCountInString(grapheme) }

// same reports whether column x looks the same in both rows; past its end a row
// is blank.
func same(old, now []cell, x int) bool {
	if x < len(old) {
		return old[x] == now[x]
	}
	return now[x].blank()
}

// write appends the grapheme at column x of the cursor's row, and takes the cursor
// to the column after it.
func (s *screen) write(x int, cells []cell) {
	s.setPenFor(cells[x])
	s.out = append(s.out, cells[x].text...)
	for s.x = x + 1; s.x < len(cells) && cells[s.x].text == ""; {
		s.x++
	}
	if s.unsure(cells[x].text) {
		s.place(s.y, s.x)
	}
}

// moveTo takes the cursor to a place. What lies between in its row is written
// again where that takes fewer bytes.
func (s *screen) moveTo(y, x int, cells []cell) {
	const jump = len("\x1b[9C")
	switch {
	case s.y != y:
		s.spans++
		s.descend(y, x)
	case s.x == x:
	case s.bytes(cells[s.x:x]) <= jump:
		for _, c := range cells[s.x:x] {
			s.out = append(s.out, c.text...)
		}
	default:
		s.spans++
		s.step(x-s.x, 'C')
	}
	s.y, s.x = y, x
}

// descend goes to another row: to the place itself, or from where the cursor is,
// whichever takes fewer bytes. VT moves down a row and nothing else, on terminals
// since the VT100; of LF, a driver may make more. The cursor's column is not known
// when it has written the last one.
func (s *screen) descend(y, x int) {
	from := len(s.out)
	s.place(y, x)
	if s.y < 0 || s.x >= s.width || y-s.y > 4 {
		return
	}
	whole := len(s.out) - from
	for range y - s.y {
		s.out = append(s.out, '\v')
	}
	switch by := x - s.x; {
	case by > 0:
		s.step(by, 'C')
	case by < 0 && x == 0:
		s.out = append(s.out, '\r')
	case by < -3:
		s.step(-by, 'D')
	default:
		s.out = append(s.out, "\b\b\b"[:-by]...)
	}
	if steps := s.out[from+whole:]; len(steps) < whole {
		s.out = append(s.out[:from], steps...)
	} else {
		s.out = s.out[:from+whole]
	}
}

// step appends a move by columns (CUF, CUB; ECMA-48, 8.3.20 and 8.3.18).
func (s *screen) step(by int, way byte) {
	s.out = append(s.out, "\x1b["...)
	if by > 1 {
		s.out = strconv.AppendInt(s.out, int64(by), 10)
	}
	s.out = append(s.out, way)
}

// bytes returns how many bytes cells take that the pen can write as it is; too
// many for any gap if it cannot.
func (s *screen) bytes(cells []cell) (n int) {
	for _, c := range cells {
		ready := c.style == s.pen || c.blank() && !s.look.inked()
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
	if !c.blank() || s.look.inked() {
		s.setPen(c.style)
	}
}

func (s *screen) setPen(style string) {
	if style == s.pen {
		return
	}
	to := lookOf(style)
	s.out = appendChange(s.out, s.look, to, style)
	s.pen, s.look = style, to
}
