package paper_test

import (
	"bytes"
	"fmt"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	ics "github.com/arran4/golang-ical"

	"bench/internal/agenda"
	"bench/internal/paper"
)

// readBack has a library read a calendar that was written by hand.
func readBack(t *testing.T, data []byte) map[string]*ics.VEvent {
	t.Helper()
	c, err := ics.ParseCalendar(bytes.NewReader(data))
	if err != nil {
		t.Fatalf("%v\n%s", err, data)
	}
	found := map[string]*ics.VEvent{}
	for _, e := range c.Events() {
		found[e.Id()] = e
	}
	return found
}

func value(e *ics.VEvent, p ics.ComponentProperty) string {
	if v := e.GetProperty(p); v != nil {
		return v.Value
	}
	return ""
}

func TestCalendarIsReadBack(t *testing.T) {
	helsinki := time.FixedZone("", 2*60*60)
	at := time.Date(2026, 3, 2, 23, 30, 0, 0, time.UTC) // The third of March there.
	nasty := `cut 3; loaves, "hot" \ and ` + strings.Repeat("Öl灯🧼", 40) + "\nBEGIN:VEVENT"
	data := paper.Calendar([]agenda.Event{
		{ID: "unmould.260302A.x@bench", Batch: "260302A", Step: "unmould", Label: nasty, At: at, Known: true, Sequence: 2, Revised: at},
		{ID: "ready.260302A.x@bench", Batch: "260302A", Step: "ready", Label: "ready", At: at, Revised: at},
		{ID: "weigh-in/1.260302A.x@bench", Batch: "260302A", Step: "weigh-in/1", Label: "weigh", At: at, Gone: true, Sequence: 1, Revised: at},
	}, helsinki)
	found := readBack(t, data)
	if len(found) != 3 {
		t.Fatalf("%d events", len(found))
	}
	unmould := found["unmould.260302A.x@bench"]
	if start, err := unmould.GetStartAt(); err != nil || !start.Equal(at) {
		t.Errorf("unmould at %v, %v", start, err)
	}
	if got := value(unmould, ics.ComponentPropertySummary); got != "260302A: "+nasty {
		t.Errorf("the label came back as %q", got)
	}
	if got := value(unmould, ics.ComponentPropertySequence); got != "2" {
		t.Errorf("sequence %s", got)
	}
	if len(unmould.Alarms()) != 1 {
		t.Errorf("%d alarms", len(unmould.Alarms()))
	}
	ready := found["ready.260302A.x@bench"]
	if day, err := ready.GetAllDayStartAt(); err != nil || day.Format(time.DateOnly) != "2026-03-03" {
		t.Errorf("ready on %v, %v: the day is that of the maker's zone", day, err)
	}
	for id, want := range map[string]string{"unmould.260302A.x@bench": "CONFIRMED", "ready.260302A.x@bench": "TENTATIVE", "weigh-in/1.260302A.x@bench": "CANCELLED"} {
		if got := value(found[id], ics.ComponentPropertyStatus); got != want {
			t.Errorf("%s is %s, want %s", id, got, want)
		}
	}
	lines(t, data)
}

// RFC 5545, 3.1: lines end with CRLF, are 75 octets at most, and are whole
// characters.
func lines(t *testing.T, data []byte) {
	t.Helper()
	if !bytes.HasSuffix(data, []byte("END:VCALENDAR\r\n")) {
		t.Error("the end is missing")
	}
	folded := false
	for line := range strings.SplitSeq(strings.TrimSuffix(string(data), "\r\n"), "\r\n") {
		folded = folded || strings.HasPrefix(line, " ")
		if len(line) > 75 || strings.ContainsAny(line, "\r\n") || !utf8.ValidString(line) {
			t.Errorf("%d octets: %q", len(line), line)
		}
	}
	if !folded {
		t.Error("no line was folded: the test tests nothing")
	}
}

// Every length around the fold comes back whole.
func TestFolding(t *testing.T) {
	for n := range 200 {
		for _, r := range []string{"a", "ö", "灯", "🧼"} {
			label := strings.Repeat("x", n) + r + r
			e := agenda.Event{ID: fmt.Sprint("e", n), Batch: "b", Step: "cut", Label: label, At: time.Unix(0, 0), Revised: time.Unix(0, 0)}
			data := paper.Calendar([]agenda.Event{e}, time.UTC)
			for line := range strings.SplitSeq(string(data), "\r\n") {
				if len(line) > 75 {
					t.Fatalf("%d octets: %q", len(line), line)
				}
			}
			got := value(readBack(t, data)[e.ID], ics.ComponentPropertySummary)
			if got != "b: "+label {
				t.Fatalf("%d: %q", n, got)
			}
		}
	}
}
