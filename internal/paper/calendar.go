package paper

import (
	"fmt"
	"strings"
	"time"
	"unicode/utf8"

	"bench/internal/agenda"
)

// Calendar writes events as an iCalendar object (RFC 5545) with the days as
// they are in the given zone. It is written by hand: sixteen kinds of line need
// no library; a test has one read it back.
func Calendar(events []agenda.Event, in *time.Location) []byte {
	var c calendar
	c.line("BEGIN", "VCALENDAR")
	c.line("VERSION", "2.0")
	c.line("PRODID", "-//bench//bench//EN")
	c.line("CALSCALE", "GREGORIAN")
	for _, e := range events {
		c.event(e, in)
	}
	c.line("END", "VCALENDAR")
	return []byte(c.String())
}

type calendar struct{ strings.Builder }

// utc is a date with UTC time (3.3.5).
const utc = "20060102T150405Z"

func (c *calendar) event(e agenda.Event, in *time.Location) {
	c.line("BEGIN", "VEVENT")
	c.line("UID", escapedText(e.ID))
	c.line("DTSTAMP", e.Revised.UTC().Format(utc)) // Without a METHOD it says when the event was revised (3.8.7.2).
	c.line("LAST-MODIFIED", e.Revised.UTC().Format(utc))
	c.line("SEQUENCE", fmt.Sprint(e.Sequence))
	if wholeDay(e) {
		day := e.At.In(in)
		c.line("DTSTART;VALUE=DATE", day.Format("20060102"))
		c.line("DTEND;VALUE=DATE", day.AddDate(0, 0, 1).Format("20060102"))
	} else {
		c.line("DTSTART", e.At.UTC().Format(utc))
		c.line("DURATION", "PT30M")
	}
	c.line("SUMMARY", escapedText(e.Batch+": "+e.Label))
	c.line("STATUS", status(e))
	c.line("TRANSP", "TRANSPARENT")
	if !e.Gone && !wholeDay(e) {
		c.line("BEGIN", "VALARM")
		c.line("ACTION", "DISPLAY")
		c.line("DESCRIPTION", escapedText(e.Batch+": "+e.Label))
		c.line("TRIGGER", "PT0S")
		c.line("END", "VALARM")
	}
	c.line("END", "VEVENT")
}

// wholeDay says that an event is a day, not a moment: what is weeks ahead has no
// hour.
func wholeDay(e agenda.Event) bool {
	return e.Step == "ready" || strings.HasPrefix(e.Step, "weigh-in/")
}

func status(e agenda.Event) string {
	switch {
	case e.Gone:
		return "CANCELLED"
	case e.Known:
		return "CONFIRMED"
	}
	return "TENTATIVE"
}

// escapedText is a TEXT value (3.3.11).
func escapedText(words string) string {
	return strings.NewReplacer(`\`, `\\`, ";", `\;`, ",", `\,`, "\r\n", `\n`, "\n", `\n`, "\r", `\n`).Replace(words)
}

// line writes a content line, folded to 75 octets with its line end left out
// and never inside a character (3.1).
func (c *calendar) line(name, value string) {
	rest := name + ":" + value
	for room := 75; len(rest) > room; room = 74 { // The space counts.
		cut := room
		for !utf8.RuneStart(rest[cut]) {
			cut--
		}
		c.WriteString(rest[:cut] + "\r\n ")
		rest = rest[cut:]
	}
	c.WriteString(rest + "\r\n")
}
