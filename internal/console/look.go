//go:build linux

package console

import (
	"fmt"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"time"

	"github.com/charmbracelet/x/term"
)

// Screen gives the text on the screen, line by line, without blanks at the ends.
func (c *Console) Screen() string {
	c.mu.Lock()
	defer c.mu.Unlock()
	lines := strings.Split(c.screen.String(), "\n")
	for i, l := range lines {
		lines[i] = strings.TrimRight(l, " \r")
	}
	return strings.Join(lines, "\n")
}

func (c *Console) written() string {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.raw.String()
}

var marks = regexp.MustCompile(`\x1b_drained \d+\x1b\\`)

// Written gives every byte that reached the terminal.
func (c *Console) Written() string { return marks.ReplaceAllString(c.written(), "") }

// Sees waits for texts to be on the screen together, each on one line, blanks
// aside. After keys at least one of them must be new: what has stood there all
// along does not tell that the keys arrived.
func (c *Console) Sees(texts ...string) {
	c.tb.Helper()
	if c.asked != nil && holdsAll(*c.asked, texts) {
		c.tb.Fatalf("%q stood on the screen before the keys, so nothing is waited for:\n%s", texts, *c.asked)
	}
	c.Wait(fmt.Sprintf("%q on the screen", texts), func() bool { return holdsAll(c.Screen(), texts) })
}

func holdsAll(screen string, texts []string) bool {
	return !slices.ContainsFunc(texts, func(text string) bool { return !Holds(screen, text) })
}

// Arrived says whether the effect of the last keys was waited for.
func (c *Console) Arrived() bool { return c.asked == nil }

// SeesNot demands that texts are not on the screen now.
func (c *Console) SeesNot(texts ...string) {
	c.tb.Helper()
	for _, text := range texts {
		if shown := c.Screen(); Holds(shown, text) {
			c.tb.Fatalf("%q is on the screen:\n%s", text, shown)
		}
	}
}

// Holds says whether a screen shows a text on one line, blanks aside.
func Holds(screen, text string) bool {
	want := strings.Join(strings.Fields(text), " ")
	for line := range strings.Lines(screen) {
		if strings.Contains(strings.Join(strings.Fields(line), " "), want) {
			return true
		}
	}
	return false
}

// Wait waits until something holds; it is asked anew at each change of the
// screen, and now and then for what does not show there.
func (c *Console) Wait(what string, holds func() bool) {
	c.tb.Helper()
	deadline := time.Now().Add(patience)
	for {
		c.mu.Lock()
		changed := c.changed
		c.mu.Unlock()
		if holds() {
			c.asked = nil
			return
		}
		if time.Now().After(deadline) {
			c.tb.Fatalf("no %s; %s", what, c.stuck())
		}
		select {
		case <-changed:
		case <-time.After(10 * time.Millisecond):
		}
	}
}

// Settled checks that the terminal's settings are as they were.
func (c *Console) Settled() {
	c.tb.Helper()
	modes, err := term.GetState(c.tty.Fd())
	if err != nil {
		c.tb.Fatal(err)
	}
	if !reflect.DeepEqual(modes, c.modes) {
		c.tb.Errorf("terminal settings %+v, want %+v", modes, c.modes)
	}
}

// Restored checks that the terminal is as it was: its settings, and every mode
// that was switched is switched back, as often and last. The modes are those of
// the alternate screen, the cursor, marked pastes and wrapping (DEC private
// modes 1049, 25, 2004 and 7), of the order of text (ECMA-48, BDSM), and of a
// frame (2026).
func (c *Console) Restored() {
	c.tb.Helper()
	c.Settled()
	written := c.Written()
	for _, pair := range [][2]string{
		{"\x1b[?1049h", "\x1b[?1049l"},
		{"\x1b[?25l", "\x1b[?25h"},
		{"\x1b[?2004h", "\x1b[?2004l"},
		{"\x1b[?7l", "\x1b[?7h"},
		{"\x1b[8l", "\x1b[8h"},
	} {
		on, off := strings.Count(written, pair[0]), strings.Count(written, pair[1])
		if on == 0 || on != off || strings.LastIndex(written, pair[0]) > strings.LastIndex(written, pair[1]) {
			c.tb.Errorf("%q was written %d times, %q %d times", pair[0], on, pair[1], off)
		}
	}
	if strings.LastIndex(written, "\x1b[?2026h") > strings.LastIndex(written, "\x1b[?2026l") {
		c.tb.Error("it left within a frame")
	}
}

// AskedNothing checks that no query went out (DA, DSR, OSC and DCS requests).
func (c *Console) AskedNothing() {
	c.tb.Helper()
	written := c.Written()
	for _, query := range []string{"\x1b]", "\x1bP", "\x1b[c", "\x1b[0c", "\x1b[>c", "\x1b[5n", "\x1b[6n", "$p", "\x1b[>q"} {
		if strings.Contains(written, query) {
			c.tb.Errorf("the terminal was sent %q", query)
		}
	}
}

// Colours gives the SGR sequences that set a colour (ECMA-48, 8.3.117:
// parameters 30 to 49, and 90 to 107 by common extension).
func (c *Console) Colours() []string { return colour.FindAllString(c.Written(), -1) }

// Styles gives the SGR sequences that set anything, colours included.
func (c *Console) Styles() []string { return style.FindAllString(c.Written(), -1) }

var (
	colour = regexp.MustCompile(`\x1b\[(?:[\d;:]*[;:])?(?:3\d|4\d|9\d|10[0-7])(?:[;:][\d;:]*)?m`)
	style  = regexp.MustCompile(`\x1b\[[\d;:]*[1-9][\d;:]*m`)
)
