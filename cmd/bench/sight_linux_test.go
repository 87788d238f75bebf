package main

import (
	"errors"
	"regexp"
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/journal"
	"bench/internal/ledger"
	"bench/internal/work"
)

// reads asks a store, as another program would.
func reads(t testing.TB, home string, ask func(*ledger.Ledger) error) {
	t.Helper()
	store, err := journal.Open(home, journal.Options{ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(ask(ledger.Of(store, home)), store.Close()); err != nil {
		t.Fatal(err)
	}
}

// kept reads a batch back.
func kept(t testing.TB, home, code string) []batch.Entry {
	t.Helper()
	var state batch.State
	reads(t, home, func(l *ledger.Ledger) (err error) {
		state, err = l.State(code) // It verifies the facts.
		return err
	})
	return state.Entries
}

// facts drops the stamps.
func facts(entries []batch.Entry) []batch.Fact {
	var list []batch.Fact
	for _, e := range entries {
		list = append(list, e.Fact)
	}
	return list
}

// readBack gives how the screen begins to read a stage back that a fact has
// ended, which may stand in the place of the fact, or "".
func (m *maker) readBack(f batch.Fact) string {
	_, stage, _ := m.plan.Task(batch.Task(f))
	if stage.ReadBack == "" {
		return ""
	}
	return "✓✓ " + stage.Title + ": " + start(stage.ReadBack)
}

// seesTask waits until a task is at hand on the screen, with its figures.
func (m *maker) seesTask(t work.Task) {
	m.t.Helper()
	m.Sees("│ " + start(t.Title))
	switch {
	case t.Do == work.Weigh && t.TareKnown:
		m.Sees("tared "+t.Remaining().At(t.Reads), "not tared "+t.Untared().At(t.Reads))
	case t.Do == work.Weigh:
		m.Sees("tared " + t.Remaining().At(t.Reads))
	case t.Do == work.Portion:
		m.Sees("reads now "+t.SoFar.At(t.Reads), "portion "+t.Target.At(t.Reads), "it reads "+t.StopAt.At(t.Reads))
	}
}

// start gives the first words of a text, as many as fit on a line for certain.
func start(text string) string {
	words := strings.Fields(text)
	n := 1
	for n < len(words) && len(strings.Join(words[:n+1], " ")) <= 40 {
		n++
	}
	return strings.Join(words[:n], " ")
}

// savedLine is one of the last facts at the foot of the bench.
var savedLine = regexp.MustCompile(`^ ✓ (?:\d+ \w+ )?\d\d:\d\d  (.*)$`)

// showsSaved says that the foot of the bench shows a fact.
func showsSaved(screen, line string) bool {
	for l := range strings.Lines(screen) {
		found := savedLine.FindStringSubmatch(strings.TrimRight(l, "\n"))
		if found == nil {
			continue
		}
		text, cut := strings.CutSuffix(found[1], "…")
		if text == line || cut && strings.HasPrefix(line, text) {
			return true
		}
	}
	return false
}

// printed runs a command without a screen and gives what it printed.
func printed(t testing.TB, home string, args ...string) string {
	t.Helper()
	out, err := program(t, home, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("bench %s: %v\n%s", strings.Join(args, " "), err, out)
	}
	return string(out)
}
