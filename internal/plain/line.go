package plain

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"
	"unicode"

	"bench/internal/recipe"
	"bench/internal/timer"

	"github.com/charmbracelet/x/ansi"
)

// maxLine is the most that a line may hold, in bytes: far more than any answer.
const maxLine = 4096

// line is what was typed up to the end of a line.
type line struct {
	text string
	long bool // long says that it was too long to be taken.
}

// linesOf gives the lines of the input until it ends. A last line without its end
// is dropped: whoever was typing it may not have been done.
func linesOf(in io.Reader) <-chan line {
	lines := make(chan line)
	go func() {
		defer close(lines)
		for r := bufio.NewReaderSize(in, maxLine); ; {
			text, err := r.ReadSlice('\n')
			l := line{text: string(text)}
			for errors.Is(err, bufio.ErrBufferFull) {
				l = line{long: true}
				_, err = r.ReadSlice('\n')
			}
			if err != nil {
				return
			}
			lines <- l
		}
	}()
	return lines
}

// writer lets printable text and ends of lines through, and nothing else. It
// remembers the first error: a talk that nobody can read must end.
type writer struct {
	to  io.Writer
	err error
}

func (w *writer) print(text string) {
	if w.err != nil {
		return
	}
	_, w.err = io.WriteString(w.to, printable(text))
}

// printable is recipe.Clean for text of many lines.
func printable(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n':
			return r
		case r == '\t' || unicode.IsSpace(r):
			return ' '
		case recipe.Unsafe(r) || !unicode.IsPrint(r):
			return unicode.ReplacementChar
		}
		return r
	}, strings.ToValidUTF8(text, string(unicode.ReplacementChar)))
}

// say writes a paragraph, on lines of its own that break between words where a
// terminal would break them anywhere.
func (s *session) say(text string) {
	text = recipe.Clean(text)
	if s.Width > 0 {
		text = ansi.Wrap(text, s.Width, "")
	}
	s.out.print(text + "\n")
}

func (s *session) sayf(format string, args ...any) { s.say(fmt.Sprintf(format, args...)) }

// warn is say for what must not be overlooked.
func (s *session) warn(text string) { s.say("! " + text) }

// text writes a printout as it is.
func (s *session) text(text string) { s.out.print(strings.TrimRight(text, "\n") + "\n") }

func (s *session) now() timer.Moment {
	now := s.Now()
	now.Wall = now.Wall.In(s.Location) // A day is one of the place where the bench stands.
	return now
}

// ask writes the prompt and gives the next line, or false at the end. What falls
// due meanwhile is said, and the prompt comes again.
func (s *session) ask(prompt string) (string, bool) { return s.askUntil(prompt, nil) }

// askUntil gives an empty line as soon as there is enough said without one. A bell
// that rings again leaves the prompt as it is.
func (s *session) askUntil(prompt string, enough func() bool) (string, bool) {
	for asked := false; !s.over; {
		due, over := s.untold(), enough != nil && enough()
		if asked && (len(due) > 0 || over) {
			s.out.print("\n") // The prompt stays behind, as everything does.
			asked = false
		}
		s.tell(due)
		s.ring()
		if over {
			return "", true
		}
		if !asked {
			s.prompt(prompt)
			asked = true
		}
		if s.out.err != nil {
			s.over = true // Nobody reads it any more.
			break
		}
		select {
		case l, ok := <-s.lines:
			text, taken := s.took(l, ok)
			if taken {
				return text, !s.over
			}
			asked = false
		case <-s.nextAlarm():
		case <-s.Stop:
			s.out.print("\n")
			s.over = true
		}
	}
	return "", false
}

func (s *session) prompt(text string) {
	if s.Practice.On() {
		text = "practice, " + text
	}
	s.out.print(recipe.Clean(text) + "> ")
}

// took takes a line, unless it asks for first aid, which is there at any prompt.
func (s *session) took(l line, ok bool) (text string, taken bool) {
	if !ok {
		s.out.print("\n")
		s.over = true
		return "", true
	}
	text = strings.TrimSpace(recipe.Clean(strings.TrimRight(l.text, "\r\n")))
	if s.Echo {
		s.say(text)
	}
	switch {
	case l.long:
		s.warn("That line is too long; nothing of it was taken.")
		return "", false
	case text == "!":
		s.firstAid()
		return "", false
	}
	return text, true
}

// nextAlarm tells when the next timer falls due, or the bell rings again.
func (s *session) nextAlarm() <-chan time.Time {
	const never = 1e6 * time.Hour // Seconds and minutes are not watched here.
	var all []timer.Timer
	now := s.now()
	if len(s.untold()) > 0 {
		return s.Wait(0) // It fell due since the prompt was written.
	}
	for _, t := range s.board().Timers(now) {
		if t.State(now) != timer.Due && !t.CountsUp() {
			all = append(all, t.Timer)
		}
	}
	d, some := timer.NextChange(all, now, never)
	if next, rings := s.ear.Next(now); rings && (!some || next < d) {
		d, some = next, true
	}
	if !some {
		return nil
	}
	return s.Wait(d)
}
