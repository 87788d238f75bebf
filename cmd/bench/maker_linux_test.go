package main

import (
	"fmt"
	"os/exec"
	"reflect"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/console"
	"bench/internal/journal"
	"bench/internal/steps"
	"bench/internal/timer"
)

// dawn is when the programs' clock begins. It runs faster than the machine's, so
// that a key has rested soon, and slowly enough that no look at a layer falls due.
var dawn = time.Date(2026, time.March, 2, 9, 0, 0, 0, time.UTC)

const (
	haste = 20.0
	rest  = 250 * time.Millisecond // rest is how long a new screen takes no answer (internal/ui/input.go).

	// neutral is a key that means nothing on the bench while nothing is typed. A
	// key pressed again after another one is not taken for one that is held.
	neutral = "\x7f"
	up      = "\x1b[A"
	enter   = "\r"
	esc     = "\x1b"
)

// maker sits at a terminal with the real program and knows, from the core alone,
// what it should show next.
type maker struct {
	*console.Console
	t     testing.TB
	home  string
	speed float64 // speed is that of the program's clock.
	code  string
	state batch.State // state is what the screen has shown as saved.
	plan  steps.Plan
}

// program is the command as it was built, with nothing of the tester's own
// environment but the path.
func program(t testing.TB, home string, args ...string) *exec.Cmd {
	t.Helper()
	path, err := exec.LookPath("bench")
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(path, args...)
	cmd.Env = []string{"HOME=" + home, "BENCH_HOME=" + home, "TERM=xterm-256color", "TZ=UTC", "GOTRACEBACK=single"}
	return cmd
}

// clocked gives the flags that set the program's clock.
func clocked(at time.Time) []string {
	return []string{"--clock", at.Format(time.RFC3339), "--clock-speed", fmt.Sprint(haste)}
}

// sits opens the program and waits for the first screen.
func sits(t testing.TB, home string, at time.Time) *maker {
	t.Helper()
	return sitsAt(t, home, program(t, home, clocked(at)...))
}

func sitsAt(t testing.TB, home string, cmd *exec.Cmd) *maker {
	t.Helper()
	m := &maker{Console: console.Start(t, cmd, 80, 24), t: t, home: home, speed: haste}
	m.Sees("Recipes", "Tide lines")
	return m
}

// begins sets the first recipe up and starts a batch under that code.
func (m *maker) begins(code string) *maker {
	m.t.Helper()
	m.Send(enter)
	m.Sees("Lighthouse at dusk", "enter start the batch")
	m.rests()
	m.Send(up + enter)
	m.Sees("batch "+code, "stage 1 of")
	m.rests()
	return m.knows(code)
}

// reopens goes on with the batch at the top of the first screen, which must be
// the one that it left.
func (m *maker) reopens(code string) *maker {
	m.t.Helper()
	m.Send(enter)
	m.Sees("batch "+code, "Where you were")
	return m.goesOn(code)
}

// goesOn confirms where the batch was.
func (m *maker) goesOn(code string) *maker {
	m.t.Helper()
	m.Send(enter)
	m.Wait("way on", func() bool { return !console.Holds(m.Screen(), "Where you were") })
	m.rests()
	return m.knows(code)
}

// rests waits until a screen that has just come up takes answers.
func (m *maker) rests() { time.Sleep(time.Duration(float64(rest)/m.speed) + time.Millisecond) }

// knows takes what the store has of the batch.
func (m *maker) knows(code string) *maker {
	m.t.Helper()
	m.code = code
	m.state = batch.Fold(kept(m.t, m.home, code))
	m.plan = steps.Of(m.state)
	return m
}

// kept reads a batch back, as another program would.
func kept(t testing.TB, home, code string) []batch.Entry {
	t.Helper()
	store, err := journal.Open(home, journal.Options{ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	defer store.Close()
	records, err := store.Records(code) // It verifies them.
	if err != nil {
		t.Fatal(err)
	}
	entries, err := entriesOf(records)
	if err != nil {
		t.Fatal(err)
	}
	return entries
}

// facts drops the stamps.
func facts(entries []batch.Entry) []batch.Fact {
	var list []batch.Fact
	for _, e := range entries {
		list = append(list, e.Fact)
	}
	return list
}

// agrees demands that the store holds what the screen has shown, and no more.
func (m *maker) agrees() {
	m.t.Helper()
	got, want := facts(kept(m.t, m.home, m.code)), facts(m.state.Entries)
	if !reflect.DeepEqual(got, want) {
		m.t.Fatalf("the store holds %d facts and the screen has shown %d:\n%+v\n%+v", len(got), len(want), got, want)
	}
}

// next gives the task that is next, or false.
func (m *maker) next() (steps.Task, bool) {
	id, ok := m.plan.Next(timer.Moment{Wall: dawn})
	t, _, _ := m.plan.Task(id)
	return t, ok
}

// keysFor gives the keys that answer a task as asked, and the fact that they
// make. Of weights that may be ticked every other one is typed.
func (m *maker) keysFor(task steps.Task) (keys string, f batch.Fact) {
	m.t.Helper()
	a := steps.Answer{How: batch.Typed, Text: asked(task)}
	typed := task.MustType || task.Do == steps.Gross || task.Do == steps.Temperature
	if !typed && (!task.Numeric() || len(m.state.Entries)%2 == 0) {
		a = steps.Answer{How: batch.AtTarget}
	}
	f, err := m.plan.Answer(task.ID, a)
	if err != nil {
		m.t.Fatal(err)
	}
	if a.Text == "" {
		return neutral + " ", f
	}
	return a.Text + enter, f
}

func asked(t steps.Task) string {
	switch t.Do {
	case steps.Weigh:
		return t.Remaining().At(t.Reads)
	case steps.Portion:
		return t.StopAt.At(t.Reads)
	case steps.Gross:
		return t.Target.At(t.Reads)
	case steps.Temperature:
		return strconv.FormatFloat(t.Wanted.Celsius(), 'f', 0, 64)
	case steps.Tick, steps.Look:
	}
	return ""
}

// says sends keys and waits until the screen shows the fact as saved.
func (m *maker) says(keys string, f batch.Fact) {
	m.t.Helper()
	line := m.take(f)
	alike := showsSaved(m.Screen(), line)
	m.Send(keys)
	m.Wait(fmt.Sprintf("%q as saved", line), func() bool { return showsSaved(m.Screen(), line) })
	if next, ok := m.next(); alike && ok {
		m.seesTask(next) // Facts that read alike, as those of scent cups do, are told by what follows.
	}
}

// take adds a fact to what the maker knows, and gives its line of words.
func (m *maker) take(f batch.Fact) string {
	e := batch.Entry{Seq: len(m.state.Entries) + 1, At: timer.Moment{Wall: dawn}, Fact: f}
	m.state = m.state.Apply(e)
	m.plan = steps.Of(m.state)
	return m.plan.Say(e, m.state)
}

// types answers the task at hand with what is typed.
func (m *maker) types(text string) {
	m.t.Helper()
	task, _ := m.next()
	f, err := m.plan.Answer(task.ID, steps.Answer{How: batch.Typed, Text: text})
	if err != nil {
		m.t.Fatal(err)
	}
	m.says(text+enter, f)
}

// works does task after task as asked until that one is at hand; "" is until
// there is nothing to do. Each is looked for on the screen first.
func (m *maker) works(until string) {
	m.t.Helper()
	for {
		task, ok := m.next()
		switch {
		case !ok && until != "":
			m.t.Fatalf("%q never came up", until)
		case !ok:
			return
		}
		m.seesTask(task)
		if task.ID == until {
			return
		}
		m.says(m.keysFor(task))
	}
}

// seesTask waits until a task is at hand on the screen, with its figures.
func (m *maker) seesTask(t steps.Task) {
	m.t.Helper()
	m.Sees("│ " + start(t.Title))
	switch {
	case t.Do == steps.Weigh && t.TareKnown:
		m.Sees("tared "+t.Remaining().At(t.Reads), "not tared "+t.Untared().At(t.Reads))
	case t.Do == steps.Weigh:
		m.Sees("tared " + t.Remaining().At(t.Reads))
	case t.Do == steps.Portion:
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

// bench runs a command without a screen and gives what it printed.
func printed(t testing.TB, home string, args ...string) string {
	t.Helper()
	out, err := program(t, home, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("bench %s: %v\n%s", strings.Join(args, " "), err, out)
	}
	return string(out)
}
