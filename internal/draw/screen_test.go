package draw

import (
	"fmt"
	"strconv"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/charmbracelet/x/ansi"
	"github.com/charmbracelet/x/vt"
	"pgregory.net/rapid"
)

// plain draws a frame in the simplest way: each line at its place, cut by the
// library's own function. What render does must look the same.
func plain(frame string, width, height int) *vt.Emulator {
	terminal := vt.NewEmulator(width, height)
	fmt.Fprint(terminal, "\x1b[?7l")
	for y, line := range strings.Split(frame, "\n") {
		if y < height {
			fmt.Fprintf(terminal, "\x1b[%dH%s\x1b[m", y+1, ansi.Truncate(line, width, ""))
		}
	}
	return terminal
}

// difference says where two screens differ, or nothing.
func difference(got, want *vt.Emulator) string {
	for y := range want.Height() {
		for x := range want.Width() {
			g, w := got.CellAt(x, y).Clone(), want.CellAt(x, y).Clone()
			if g.Content == " " && w.Content == " " { // The ink does not show.
				const boldFaintItalic = 1 | 2 | 4
				g.Style.Fg, g.Style.Attrs = nil, g.Style.Attrs&^boldFaintItalic
				w.Style.Fg, w.Style.Attrs = nil, w.Style.Attrs&^boldFaintItalic
			}
			if !g.Equal(w) {
				return fmt.Sprintf("row %d, column %d: %q %+v, want %q %+v", y, x, g.Content, g.Style, w.Content, w.Style)
			}
		}
	}
	return ""
}

// draw renders a frame as one that is written.
func (s *screen) draw(frame string) string {
	written := string(s.render(frame))
	s.shown()
	return written
}

func lines() *rapid.Generator[string] {
	styles := rapid.SampledFrom([]string{
		"", "", "\x1b[m", "\x1b[1m", "\x1b[7m", "\x1b[0;4m", "\x1b[38;5;212m", "\x1b[4:3m", "\x1b[1;38;2;1;2;3;48;5;4m", "\x1b[44m",
		"\x1b[3;38;2;7;7;7m", "\x1b[2;31m", "\x1b[9m", "\x1b[97;100m", "\x1b[38;5;7;7m",
	})
	texts := rapid.SampledFrom([]string{
		"a", "7", "lye 213.5 g", " ", "          ", "─", "°", "e\u0301", "海", "港町", "👩\u200d🚀", "❤\ufe0f",
	})
	ends := rapid.SampledFrom([]string{"", "\x1b[m", "\x1b[0m"})
	segment := rapid.Custom(func(t *rapid.T) string {
		return styles.Draw(t, "style") + texts.Draw(t, "text") + ends.Draw(t, "end")
	})
	return rapid.Custom(func(t *rapid.T) string {
		return strings.Join(rapid.SliceOfN(segment, 0, 6).Draw(t, "segments"), "")
	})
}

// However frames follow each other, the terminal shows the last one.
func TestRenderShowsTheLastFrame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := rapid.IntRange(1, 24)
		width, height := size.Draw(t, "width"), size.Draw(t, "height")
		terminal := vt.NewEmulator(width, height)
		fmt.Fprint(terminal, enterModes)
		if rapid.Bool().Draw(t, "wraps") { // It must hold where this cannot be switched off.
			fmt.Fprint(terminal, "\x1b[?7h")
		}
		fmt.Fprint(terminal, "left over \x1b[7m from before")
		s := &screen{marks: rapid.Bool().Draw(t, "marks")}
		s.resize(width, height)

		shown := []string{""}
		for range rapid.IntRange(1, 6).Draw(t, "frames") {
			switch rapid.IntRange(0, 9).Draw(t, "event") {
			case 0:
				width, height = size.Draw(t, "width"), size.Draw(t, "height")
				terminal.Resize(width, height)
				s.resize(width, height)
			case 1:
				s.invalidate()
				fmt.Fprint(terminal, "\x1b[Hfrom another program")
			}
			shown = edit(t, shown)
			frame := strings.Join(shown, "\n")
			if rapid.Bool().Draw(t, "foreseen") { // As it comes, or another.
				s.render(strings.Join(edit(t, shown), "\n"))
			}
			written := s.draw(frame)
			fmt.Fprint(terminal, written)
			if d := difference(terminal, plain(frame, width, height)); d != "" {
				t.Fatalf("%s\nframe %q\nwritten %q", d, frame, written)
			}
			if again := s.draw(frame); len(again) != 0 {
				t.Fatalf("the same frame again writes %q", again)
			}
			if s.pen != "" || terminal.ScrollbackLen() != 0 {
				t.Fatalf("pen %q, scrolled by %d", s.pen, terminal.ScrollbackLen())
			}
		}
	})
}

// edit returns a frame that has much in common with the one before.
func edit(t *rapid.T, before []string) []string {
	after := append([]string(nil), before...)
	for range rapid.IntRange(0, 4).Draw(t, "edits") {
		i := rapid.IntRange(0, len(after)-1).Draw(t, "line")
		switch line := lines().Draw(t, "text"); rapid.IntRange(0, 4).Draw(t, "edit") {
		case 0:
			after[i] = line
		case 1:
			after[i] += line
		case 2:
			after[i] = line + after[i]
		case 3:
			after = append(after, line)
		case 4:
			after = append(after[:i:i], append(after[i+1:], "")...)
		}
	}
	return after
}

// Whatever a frame holds, only SGR and the drawer's own sequences get through.
func TestRenderLetsNoControlThrough(t *testing.T) {
	own := []string{frameBegin, frameEnd, "\x1b[2J", "\x1b[K"}
	rapid.Check(t, func(t *rapid.T) {
		parts := rapid.SliceOf(rapid.OneOf(
			rapid.String(), lines(),
			rapid.SampledFrom([]string{
				"\x1b", "\x1b[", "\x1b[2J", "\x1b[6n", "\x1b]52;c;aGk=\a", "\x1bP+q\x1b\\", "\x9b6n", "\u009b6n", "\r", "\t", "\b",
				"\x1b[?25h", "\x1b[>4;2m", "\xff", "e\xcc", "\x7f", "\x00",
			}),
		)).Draw(t, "parts")
		s := &screen{marks: true}
		s.resize(200, 1) // In which the drawer needs no controls of its own to move.
		written := s.draw(strings.Join(parts, ""))
		for _, sequence := range own {
			written = strings.Replace(written, sequence, "", 1)
		}
		var state byte
		for written != "" {
			sequence, _, n, next := ansi.DecodeSequence(written, state, nil)
			written, state = written[n:], next
			control := !utf8.ValidString(sequence) || strings.ContainsFunc(sequence, unicode.IsControl)
			if control && sgrLength(sequence) != len(sequence) && !isPlace(sequence) {
				t.Fatalf("%q got through", sequence)
			}
		}
	})
}

func isPlace(sequence string) bool {
	inner, csi := strings.CutPrefix(sequence, "\x1b[")
	inner, cup := strings.CutSuffix(inner, "H")
	inner, cuf := strings.CutSuffix(inner, "C")
	return csi && (cup || cuf) && strings.Trim(inner, "0123456789;") == ""
}

func TestRenderWritesLittle(t *testing.T) {
	const hidden = "\x1b[?2026"
	stripes := strings.Repeat("\x1b[38;5;212ma\x1b[mb", 10)
	tests := map[string]struct{ before, after, want string }{
		"one digit":                 {"left 12:07\nx", "left 12:06\nx", "\x1b[1;10H6"},
		"styled digit":              {"\x1b[1mleft 12:07\x1b[0m", "\x1b[1mleft 12:06\x1b[0m", "\x1b[1;10H\x1b[1m6\x1b[m"},
		"shorter":                   {"weigh the lye", "weigh", "\x1b[1;6H\x1b[K"},
		"shorter and changed":       {"weigh the lye", "pour", "\x1b[1Hpour\x1b[K"},
		"erased with a plain pen":   {"\x1b[44mabc\x1b[m", "\x1b[44mx\x1b[m", "\x1b[1H\x1b[44mx\x1b[m\x1b[K"},
		"two far apart":             {"a..........b", "x..........y", "\x1b[1Hx\x1b[10Cy"},
		"two near":                  {"a...b", "x...y", "\x1b[1Hx...y"},
		"too far to write again":    {"a.....b", "x.....y", "\x1b[1Hx\x1b[5Cy"},
		"in another style between":  {"a\x1b[7m.\x1b[mb", "x\x1b[7m.\x1b[my", "\x1b[1Hx\x1b[Cy"},
		"blanks between words":      {"", "\x1b[1ma\x1b[m b  \x1b[31mc", "\x1b[1H\x1b[1ma \x1b[mb  \x1b[31mc\x1b[m"},
		"blanks with a ground":      {"....", "\x1b[44ma\x1b[m \x1b[44mb", "\x1b[1H\x1b[44ma\x1b[m \x1b[44mb\x1b[m\x1b[K"},
		"ink that nobody sees":      {"ab", "ab\x1b[1;38;5;9m   ", ""},
		"ink of three parts":        {"ab", "ab\x1b[38;2;9;44;7m   ", ""},
		"erased with ink":           {"abc", "\x1b[31mx", "\x1b[1H\x1b[31mx\x1b[K\x1b[m"},
		"style alone":               {"ab", "a\x1b[7mb\x1b[m", "\x1b[1;2H\x1b[7mb\x1b[m"},
		"wide for two narrow":       {"ab", "海", "\x1b[1H海\x1b[1;3H"},
		"after joined runes":        {"....", "👩\u200d🚀ab", "\x1b[1H👩\u200d🚀\x1b[1;3Hab\x1b[K"},
		"erased after joined runes": {"....", "❤\ufe0f", "\x1b[1H❤\ufe0f\x1b[1;3H\x1b[K"},
		"cut in a wide one":         {"", "123456789012345678海", "\x1b[1H123456789012345678海\x1b[1;21H"},
		"cut before half of one":    {"", "1234567890123456789海", "\x1b[1H1234567890123456789"},
		"style to style":            {"ab", "\x1b[1ma\x1b[0m\x1b[7mb\x1b[0m", "\x1b[1H\x1b[1ma\x1b[0;7mb\x1b[m"},
		"more than a piece":         {"", stripes + "\n" + stripes, hidden + "h\x1b[1H" + stripes + "\x1b[2H" + stripes + hidden + "l"},
		"one above the other":       {"ab\nab", "ax\nay", "\x1b[1;2Hx\v\by"},
		"further back":              {"abcdefgh\nabcdefgh", "abcdefgx\naycdefgh", "\x1b[1;8Hx\v\x1b[7Dy"},
		"further on":                {"abcdefgh\nabcdefgh", "xbcdefgh\nabcdyfgh", "\x1b[1Hx\v\x1b[3Cy"},
		"below the last column":     {"12345678901234567890\na", "1234567890123456789x\nb", "\x1b[1;20Hx\x1b[2Hb"},
		"one colour off":            {"ab", "\x1b[1;38;5;63ma\x1b[m\x1b[1mb", "\x1b[1H\x1b[1;38;5;63ma\x1b[39mb\x1b[m"},
		"bold beside faint":         {"ab", "\x1b[1;2;4;31;44ma\x1b[m\x1b[2;4;31;44mb", "\x1b[1H\x1b[1;2;4;31;44ma\x1b[22;2mb\x1b[m"},
		"the same otherwise said":   {"ab", "\x1b[1m\x1b[31ma\x1b[m\x1b[1;31mb", "\x1b[1H\x1b[1;31mab\x1b[m"},
		"not known":                 {"ab", "\x1b[1ma\x1b[m\x1b[4:3mb", "\x1b[1H\x1b[1ma\x1b[0;4:3mb\x1b[m"},
		"nothing":                   {"a\nb", "a\nb\n", ""},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			s := &screen{marks: true}
			s.resize(20, 4)
			s.draw(tt.before)
			if got := s.draw(tt.after); got != tt.want {
				t.Errorf("%q, want %q", got, tt.want)
			}
		})
	}
}

// On a terminal to which every rune takes one column, and on one to which all
// that is not ASCII takes two, every ASCII character stands where it belongs all
// the same, however frames follow each other.
func TestRenderWhereWidthsDiffer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		wide := rapid.Bool().Draw(t, "wide")
		s := &screen{wary: wide}
		s.resize(30, 1)
		shown := make([]string, 100)
		for range rapid.IntRange(1, 4).Draw(t, "frames") {
			var frame strings.Builder
			for range rapid.IntRange(1, 6).Draw(t, "pieces") {
				frame.WriteString(rapid.SampledFrom([]string{"oil", "312.0", " ", "海", "·", "e\u0301", "👩\u200d🚀", "✂", "│", "שמן"}).Draw(t, "piece"))
			}
			written := s.draw(frame.String())
			shows(shown, written, wide)
			cells := appendCells(nil, frame.String(), 30)
			for x, c := range cells {
				if len(c.text) == 1 && c.text != " " && shown[x] != c.text {
					t.Fatalf("column %d of %q shows %q\nwritten %q", x+1, frame.String(), shown[x], written)
				}
			}
			for x := len(cells); x < 30; x++ {
				if strings.TrimSpace(shown[x]) != "" {
					t.Fatalf("column %d of %q, which is past its end, shows %q\nwritten %q", x+1, frame.String(), shown[x], written)
				}
			}
		}
	})
}

// shows puts on a row what was written to it, by rules of width of its own.
func shows(row []string, written string, wide bool) {
	x := 0
	for r := ' '; written != ""; {
		sequence, _, n, _ := ansi.DecodeSequence(written, 0, nil)
		if !strings.HasPrefix(sequence, "\x1b") {
			r, n = utf8.DecodeRuneInString(written)
		}
		written = written[n:]
		number := 1 // What CUF goes by.
		if v, err := strconv.Atoi(strings.Trim(sequence, "\x1b[C")); err == nil {
			number = v
		}
		switch last := sequence[len(sequence)-1]; {
		case !strings.HasPrefix(sequence, "\x1b"):
			row[x] = string(r)
			if x++; wide && r > 0x7f {
				row[x] = ""
				x++
			}
		case last == 'H':
			x = cup(sequence)
		case last == 'C':
			x += number
		case last == 'K':
			clear(row[x:])
		case last == 'J':
			clear(row)
		}
	}
}

// cup gives the column of a cursor position, from zero.
func cup(sequence string) int {
	_, column, found := strings.Cut(strings.TrimSuffix(sequence, "H"), ";")
	if v, err := strconv.Atoi(column); found && err == nil {
		return v - 1
	}
	return 0
}

func TestRenderWithoutMarks(t *testing.T) {
	s := &screen{}
	s.resize(20, 4)
	if got, want := s.draw("a\nb"), "\x1b[m\x1b[2J\x1b[1Ha\v\rb"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

// bench is a screen of 120 columns and 40 rows with a bar and a countdown.
func bench(bar, seconds int) string {
	var b strings.Builder
	for y := range 38 {
		row := fmt.Sprintf("[ ] %-60s %9.1f g  ±%.1f g", fmt.Sprintf("Weigh into the pot, oil number %d", y+1), 213.5+float64(y), 0.5)
		if y == bar {
			row = "\x1b[7m" + row + "\x1b[0m"
		}
		fmt.Fprintf(&b, "\x1b[38;5;245m│\x1b[0m %s\x1b[38;5;245m│\x1b[0m\n", row)
	}
	fmt.Fprintf(&b, "\x1b[1mtime left %02d:%02d\x1b[0m\n\x1b[2mj/k move   space tick   q quit\x1b[0m", seconds/60, seconds%60)
	return b.String()
}

func BenchmarkRender(b *testing.B) {
	cases := []struct {
		name       string
		one, two   string
		invalidate bool
	}{
		{"same", bench(3, 605), bench(3, 605), false},
		{"digit", bench(3, 605), bench(3, 604), false},
		{"bar", bench(3, 605), bench(4, 605), false},
		{"everything", bench(3, 605), bench(3, 605), true},
	}
	for _, c := range cases {
		b.Run(c.name, func(b *testing.B) {
			s := &screen{marks: true}
			s.resize(120, 40)
			s.draw(c.one)
			s.draw(c.two)
			b.ReportAllocs()
			written, frames := 0, []string{c.one, c.two}
			for i := 0; b.Loop(); i++ {
				if c.invalidate {
					s.invalidate()
				}
				written += len(s.draw(frames[i%2]))
			}
			b.ReportMetric(float64(written)/float64(b.N), "bytes/frame")
		})
	}
}
