package main

import (
	"errors"
	"fmt"
	"os/exec"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/console"
	"bench/internal/documents"
	"bench/internal/journal"
	"bench/internal/judge"
	"bench/internal/ledger"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/work"
)

// TestPourToRelease takes a batch from its last pour to the day it may be sold,
// with the clock flag: clean up, gel, unmould, cut, weigh-ins, test, release, and
// a complaint after the end.
func TestPourToRelease(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	code := poured(t, home, dawn)

	m := sits(t, home, dawn.Add(time.Hour)).reopens(code)
	m.works("clean up/leftover")
	m.tells("Weigh the leftover batter", "84"+enter, "set aside: leftover batter, 84.0 g")
	m.works("clean up/gloves")
	m.says(m.keysFor(first(m.next())))
	m.leaves()

	// A look at the gel that is late: a temperature, and what it looks like.
	m = sits(t, home, dawn.Add(3*time.Hour)).reopens(code)
	m.Sees("Look at the gel after 1 h", "enter answers")
	m.Send("74" + enter)
	m.Sees("Look at the gel after 1 h, 74 °C", "Gelling: dark in the middle", "fan on it")
	m.rests()
	m.Send(up + enter) // At that temperature the full gel is offered first.
	m.Sees("look at the gel: gelling, 74 °C")
	m.leaves()

	// Too soft on the first day, out on the second.
	m = sits(t, home, dawn.Add(26*time.Hour)).reopens(code)
	m.Sees("Unmould loaf 1", "Gloves on", "s too soft")
	m.rests()
	m.Send("s")
	m.Sees("Too soft: look again in 12 h")
	m.rests()
	m.Send(enter)
	m.Sees("too soft, look again in 12 h", "Unmould loaf 2")
	m.leaves()

	cut := dawn.Add(40 * time.Hour)
	m = sits(t, home, cut).reopens(code)
	m.cuts()
	m.leaves()
	m.dries(cut)
	m.releases(cut.Add(43 * 24 * time.Hour))
	m.complains(cut.Add(60 * 24 * time.Hour))

	record := printed(t, home, "record", code)
	for _, text := range []string{
		"loaf 2: 7 bars cut, planned 8: one end crumbled", "held: pH 11.2 (open: failed: pH 11.2)", "skin reaction: red hands after one wash (a neighbour)",
		"(asked: bar 1 weighed", "answer: the scale was drifting)", "read at last",
	} {
		if !console.Holds(record, text) {
			t.Errorf("the record does not say %q:\n%s", text, record)
		}
	}
}

// first gives a task, where there must be one.
func first(task work.Task, ok bool) work.Task {
	if !ok {
		panic("no task is next")
	}
	return task
}

// poured makes a store with a batch that has come to its clean-up, as asked.
func poured(t *testing.T, home string, at time.Time) string {
	t.Helper()
	c, problems := documents.Items(home, nil)[0].Resolve(3)
	store, err := journal.Open(home, journal.Options{})
	if err != nil || len(c.Recipe.Layers) == 0 {
		t.Fatal(err, problems)
	}
	l := ledger.Of(store, home)
	code, _, err := l.Start(c, timer.Moment{Wall: at})
	if err != nil {
		t.Fatal(err)
	}
	for n := 0; ; n++ {
		state, err := l.State(code)
		if err != nil {
			t.Fatal(err)
		}
		p := steps.Of(state)
		now := timer.Moment{Wall: at.Add(time.Duration(n) * 10 * time.Second)}
		id, _ := p.Next(now)
		task, stage, _ := p.Task(id)
		if stage.Kind == work.CleanUp {
			break
		}
		a := judge.Answer{How: batch.AtTarget}
		if number := asked(task); number != "" { // A pour takes a figure, and asks for none.
			a = judge.Answer{How: batch.Typed, Text: number}
		}
		f, err := judge.Fact(p, id, a)
		if err == nil {
			err = judge.Allows(p, f, now)
		}
		if err == nil {
			_, err = l.Append(code, f, now)
		}
		if err != nil {
			t.Fatalf("%s: %v", id, err)
		}
	}
	if err := l.Release(code); err != nil {
		t.Fatal(err)
	}
	if err := store.Close(); err != nil {
		t.Fatal(err)
	}
	return code
}

// tells sends keys at a task, and waits until the screen says so.
func (m *maker) tells(task, keys string, lines ...string) {
	m.t.Helper()
	m.Sees(task)
	m.waits(look)
	m.Send(keys)
	m.Sees(lines...)
	m.knows(m.code)
}

// cuts unmoulds, cuts three loaves of which one falls short, weighs bars and
// marks one.
func (m *maker) cuts() {
	m.t.Helper()
	for loaf := 1; loaf <= 3; loaf++ {
		m.tells(fmt.Sprintf("Unmould loaf %d", loaf), neutral+" ", fmt.Sprintf("unmould: Unmould loaf %d", loaf))
	}
	m.tells("Lay the loaf on its side, marked end to the stop", neutral+" ", "cut: Lay the loaf on its side")
	m.tells("Cut loaf 1 and count the bars", "8"+enter, "loaf 1: 8 bars cut")
	m.Send("7" + enter)
	m.Sees("Is that so?", "7 bars, planned 8: what became of the rest?")
	m.rests()
	m.Send("one end crumbled" + enter)
	m.Sees("loaf 2: 7 bars cut, planned 8: one end crumbled")
	m.tells("Cut loaf 3 and count the bars", neutral+" ", "loaf 3: 8 bars cut")
	m.tells("Weigh the end pieces", "363"+enter, "set aside: end piece, 363.0 g")
	m.tells("Keep one bar back", "88"+enter, "set aside: retained bar, 88.0 g")
	m.Sees("Bars cut: 23 of 24 planned.")
	m.tells("Weigh the bars of loaf 1", "87.6"+enter, "loaf 1: 1 bar: 87.6 g")
	m.Send("t")
	m.Sees("10 x 1124 is ten bars")
	m.rests()
	m.Send("7 x 612.5" + enter)
	m.Sees("loaf 1: 7 bars: 612.5 g together, 87.5 g each")
	for loaf, g := range map[int]string{2: "88"} {
		m.tells(fmt.Sprintf("Weigh the bars of loaf %d", loaf), g+enter, fmt.Sprintf("loaf %d: 1 bar: %s.0 g", loaf, g))
	}
	m.Send("2100" + enter)
	m.Sees("A bar of 2100.0 g is heavier than the loaf", "enter keep 2100")
	m.rests()
	m.Send(esc)
	m.Sees("1 of 7")
	m.rests()
	m.Send("900" + enter)
	m.Sees("Is that so?", "g are bars")
	m.rests()
	m.Send(esc)
	m.Sees("enter keep 900")
	m.rests()
	m.Send(esc) // What was typed is still there; esc clears it.
	m.Sees("1 of 7")
	m.rests()
	m.Send(" ")
	m.Sees("weigh the bars: Weigh the bars of loaf 2")
	m.tells("Weigh the bars of loaf 3", "88.4"+enter, "loaf 3: 1 bar: 88.4 g")
	m.Send(neutral + " ")
	m.tells("Mark a bar as bar 1 and weigh it", "88.4"+enter, "bar 1 weighs 88.4 g")
	m.Sees("Day 0 of the cure")
}

// dries weighs the marked bar every week. The weights are invented: 88.4 g
// that lose 10 g with a time constant of eleven days, read to 0.1 g.
func (m *maker) dries(cut time.Time) {
	m.t.Helper()
	for week, g := range []string{"83.7", "81.2", "79.9", "79.2", "78.8"} {
		at := cut.Add(time.Duration(week+1) * (7*24 + 1) * time.Hour)
		due := dueAt(m.t, m.home, at)
		if !console.Holds(due, "due later weigh bar 1") || !console.Holds(due, "cure of 23 bars over: test and release") {
			m.t.Errorf("week %d: bench due says\n%s", week+1, due)
		}
		code := m.code
		m = sits(m.t, m.home, at)
		if week == 4 {
			m.Send("r")
			m.Sees("none", "Curing rack", "day 35", "7 to go", "Weigh marked bar 1", "Comes to a loss of", "Its loss has fallen under 0.5 % a week")
			m.rests()
			m.Send(enter)
			m.Sees("Where you were")
			m.goesOn(code)
		} else {
			m.reopens(code)
		}
		m.Sees("Weigh marked bar 1")
		m.rests()
		if week == 2 {
			m.Send("84" + enter)
			m.Sees("Is that so?", "Bar 1 weighed 81.2 g before, and a bar in cure loses weight")
			m.rests()
			m.Send("the scale was drifting" + enter)
			m.Sees("bar 1 weighs 84.0 g (asked: bar 1 weighed 81.2 g before")
			m.rests()
			m.corrects2("84.0", g)
			m.leaves()
			continue
		}
		m.tells("Weigh marked bar 1", g+enter, "bar 1 weighs "+g+" g")
		m.leaves()
	}
}

// dueAt gives what bench due prints; its exit status says whether anything is
// due, and a weigh-in is.
func dueAt(t testing.TB, home string, at time.Time) string {
	t.Helper()
	out, err := program(t, home, "due", "--clock", at.Format(time.RFC3339)).Output()
	var exit *exec.ExitError
	if !errors.As(err, &exit) || exit.ExitCode() != 3 {
		t.Errorf("bench due, with something due: %v\n%s", err, out)
	}
	return string(out)
}

// corrects2 gives the last weigh-in another value.
func (m *maker) corrects2(from, to string) {
	m.t.Helper()
	m.Send("u")
	m.Sees("Record of batch", "bar 1 weighs "+from)
	m.rests()
	m.Send(enter + to + enter)
	m.Sees("new value "+to, "enter keep the correction")
	m.Send("read at last" + enter)
	m.Sees("corrected no.")
	m.rests()
}

// releases tests the bars, holds them for a failed test, tests again and releases
// them.
func (m *maker) releases(at time.Time) {
	m.t.Helper()
	code := m.code
	m = sits(m.t, m.home, at).reopens(code)
	m.Send("78.6" + enter)
	m.Sees("bar 1 weighs 78.6 g")
	m.tells("The cure is over: on to the release test", neutral+" ", "cure: The cure is over")
	m.tells("pH, or free alkali", "11.2"+enter, "pH 11.2, failed")
	m.waits(look)
	m.Send(enter)
	m.Sees("Sound: even all through")
	m.rests()
	m.Send(neutral + enter)
	m.Sees("look: sound, passed")
	m.tells("Weigh the cured bars", "78.5"+enter, "1 bar: 78.5 g")
	m.rests()
	m.Send(neutral + " ")
	m.Sees("Release the bars, or hold them", "! failed: pH 11.2")
	m.waits(look)
	m.Send(enter)
	m.Sees("Release all the same: 1 warning is open", "▶ Hold")
	m.rests()
	m.Send(up + enter)
	m.Sees("Say why they are released all the same")
	m.rests()
	m.Send(neutral + enter)
	m.Sees("Say it in a few words")
	m.Send(esc)
	m.Sees("Release the bars, or hold them", "35 of 35")
	m.rests()
	m.Send(enter)
	m.Sees("Hold: they stay here")
	m.rests()
	m.Send(neutral + enter)
	m.Sees("Say why they are held")
	m.rests()
	m.Send("pH 11.2" + enter)
	m.Sees("held: pH 11.2 (open: failed: pH 11.2)")
	m.leaves()

	m = sits(m.t, m.home, at.Add(7*24*time.Hour)).reopens(code)
	m.Send("\x1b[D") // The stage before: the test is made again.
	m.Sees("pH, or free alkali")
	m.rests()
	m.Send("9.7" + enter)
	m.Sees("pH 9.7, passed", "Release the bars, or hold them")
	m.waits(look)
	m.Send(enter)
	m.Sees("No warning is open.", "enter take this answer")
	m.rests()
	m.Send(neutral + enter)
	m.Sees("released", "Everything is done")
	m.rests()
	m.Send("e")
	m.Sees("Close this batch?")
	m.rests()
	m.Send("close" + enter)
	m.Sees("This batch is closed")
	m.knows(code)
	m.leaves()
}

// complains records a skin reaction against a batch that is closed.
func (m *maker) complains(at time.Time) {
	m.t.Helper()
	code := m.code
	m = sits(m.t, m.home, at)
	m.Send("r")
	m.Sees("Closed", code, "released, closed 2026-04-23")
	m.rests()
	m.Send(enter)
	m.Sees("This batch is closed", "c complaint")
	m.rests()
	m.knows(code)
	m.Send("c")
	m.Sees("Complaint", "Skin reaction", "Where bars went", "Hold what is left")
	m.rests()
	m.Send(down + enter)
	m.Sees("what was said")
	m.rests()
	m.Send("red hands after one wash / a neighbour" + enter)
	m.Sees("skin reaction: red hands after one wash (a neighbour)")
	m.leaves()
}
