package main

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/journal"
	"bench/internal/ledger"
	"bench/internal/sample"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/work"
)

// TestCalendarOfAnEndedBatch: while days lie ahead of a batch they are in the calendar;
// once it has ended they are the same events, cancelled, with a higher sequence
// (RFC 5545); and when they are over the calendar is empty and says so.
func TestCalendarOfAnEndedBatch(t *testing.T) {
	home := t.TempDir()
	store, err := journal.Open(home, journal.Options{})
	if err != nil {
		t.Fatal(err)
	}
	at := time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)
	books := ledger.Of(store, home)
	control := sample.Control(t, "tide-lines.yaml", 1)
	code, _, err := books.Start(control, timer.Moment{Wall: at})
	if err != nil {
		t.Fatal(err)
	}
	say := func(f batch.Fact) {
		if _, err := books.Append(code, f, timer.Moment{Wall: at}); err != nil {
			t.Fatal(err)
		}
	}
	calendar := func(now string) (text, said string) {
		var complaints bytes.Buffer
		file := filepath.Join(t.TempDir(), "days.ics")
		run([]string{"--clock", now, "calendar", file}, streams{out: &complaints, err: &complaints, getenv: func(key string) string {
			return map[string]string{"BENCH_HOME": home}[key]
		}})
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		return string(data), complaints.String()
	}

	for _, st := range steps.Of(batch.State{Control: control}).Stages {
		for _, task := range st.Tasks {
			if st.Kind == work.Pour && task.Do == work.Tick {
				say(batch.Ticked{Task: task.ID})
			}
		}
	}
	days, said := calendar("2026-03-02T12:00:00Z")
	if !strings.Contains(days, "UID:unmould.260302A.") || strings.Contains(days, "CANCELLED") || said != "" {
		t.Fatalf("%q and %s", said, days)
	}
	at = at.Add(4 * time.Hour)
	say(batch.Closed{Reason: "given away"})
	if err := errors.Join(books.Release(code), store.Close()); err != nil {
		t.Fatal(err)
	}

	ended, said := calendar("2026-03-02T14:00:00Z")
	for _, line := range strings.Split(days, "\r\n") {
		if strings.HasPrefix(line, "UID:") && !strings.Contains(ended, line) {
			t.Errorf("%s is not cancelled", line)
		}
	}
	events := strings.Count(ended, "BEGIN:VEVENT")
	if events == 0 || strings.Count(ended, "STATUS:CANCELLED") != events || strings.Count(ended, "SEQUENCE:1") != events {
		t.Errorf("%d events in %s", events, ended)
	}
	if !strings.Contains(said, "no day lies ahead of any batch; the calendar only cancels") {
		t.Errorf("%q", said)
	}
	over, said := calendar("2026-12-02T14:00:00Z")
	if strings.Contains(over, "VEVENT") || !strings.Contains(said, "so the calendar is empty") {
		t.Errorf("%q and %s", said, over)
	}
}
