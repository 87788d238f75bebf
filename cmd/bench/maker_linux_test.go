package main

import (
	"fmt"
	"os/exec"
	"reflect"
	"strconv"
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/console"
	"bench/internal/judge"
	"bench/internal/say"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/work"
)

// dawn is when the programs' clock begins. It runs faster than the machine's, so
// that a key has rested soon, and slowly enough that no look at a layer falls due.
var dawn = time.Date(2026, time.March, 2, 9, 0, 0, 0, time.UTC)

const (
	haste = 20.0
	rest  = 250 * time.Millisecond // rest is how long a new screen takes no answer (internal/ui/keys/press.go).
	look  = time.Second            // look is how long a new stage takes no tick (startle in internal/ui/keys/press.go).

	// neutral is a key that means nothing on the bench while nothing is typed. A
	// key pressed again after another one is not taken for one that is held.
	neutral = "\x7f"
	up      = "\x1b[A"
	down    = "\x1b[B"
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
	stage string      // stage is the one that was looked at last.
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

// leaves closes the program, which must end well.
func (m *maker) leaves() {
	m.t.Helper()
	m.Send("q")
	if code := m.Exit(); code != exitClean {
		m.t.Fatalf("exit status %d", code)
	}
}

// setsUp chooses the recipe and comes to where enter starts a batch.
func (m *maker) setsUp() {
	m.t.Helper()
	m.chooses("Lighthouse at dusk 3 loaves")
	m.Send(enter)
	m.Sees("Lighthouse at dusk", "enter start the batch")
	m.rests()
}

// chooses goes down the first screen to what begins with that text.
func (m *maker) chooses(text string) {
	m.t.Helper()
	for range 20 {
		at := m.atCursor()
		if console.Holds(at, "▶ "+text) {
			return
		}
		m.Send(down)
		m.Wait("the next line", func() bool { return m.atCursor() != at })
	}
	m.t.Fatalf("there is no %q:\n%s", text, m.Screen())
}

// atCursor gives the line at the cursor: the rest of a screen changes by itself.
func (m *maker) atCursor() string {
	for line := range strings.Lines(m.Screen()) {
		if strings.Contains(line, "▶") {
			return line
		}
	}
	return ""
}

// begins sets the recipe up and starts a batch under that code.
func (m *maker) begins(code string) *maker {
	m.t.Helper()
	m.setsUp()
	m.Send(up + enter)
	m.Sees("batch "+code, "stage 1 of")
	m.rests()
	return m.knows(code)
}

// reopens goes on with the batch at the top of the first screen, which must be
// the one that it left.
func (m *maker) reopens(code string) *maker {
	m.t.Helper()
	m.chooses("Lighthouse at dusk " + code)
	m.Send(enter)
	m.Sees("batch "+code, "Where you were")
	return m.goesOn(code)
}

// goesOn confirms where the batch was.
func (m *maker) goesOn(code string) *maker {
	m.t.Helper()
	m.rests()
	m.Send(neutral + enter) // The enter that opened the batch is not taken for a word about the scale.
	m.Wait("way on", func() bool { return !console.Holds(m.Screen(), "Where you were") })
	m.rests()
	return m.knows(code)
}

// rests waits until a screen that has just come up takes answers.
func (m *maker) rests() {
	m.t.Helper()
	m.waits(rest)
}

// waits lets time pass on the program's clock. It must begin after the screen is
// up that is waited for, and not merely after the keys that lead there.
func (m *maker) waits(d time.Duration) {
	m.t.Helper()
	if m.Console != nil && !m.Arrived() {
		m.t.Fatalf("nothing was waited for since the last keys:\n%s", m.Screen())
	}
	m.sleeps(d)
}

func (m *maker) sleeps(d time.Duration) {
	time.Sleep(time.Duration(float64(d)/m.speed) + time.Millisecond)
}

// looks waits at a task of another stage until it can be ticked.
func (m *maker) looks(t work.Task) {
	if _, stage, _ := m.plan.Task(t.ID); stage.ID != m.stage || t.Do == work.Confirm {
		m.stage = stage.ID
		m.waits(look)
	}
}

// knows takes what the store has of the batch.
func (m *maker) knows(code string) *maker {
	m.t.Helper()
	m.code = code
	m.state = batch.Fold(kept(m.t, m.home, code))
	m.plan = steps.Of(m.state)
	return m
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
func (m *maker) next() (work.Task, bool) {
	id, ok := m.plan.Next(timer.Moment{Wall: dawn})
	t, _, _ := m.plan.Task(id)
	return t, ok
}

// keysFor gives the keys that answer a task as asked, once it was looked at, and
// the fact that they make. Of weights that may be ticked every other one is typed.
func (m *maker) keysFor(task work.Task) (keys string, f batch.Fact) {
	m.t.Helper()
	a := judge.Answer{How: batch.Typed, Text: asked(task)}
	typed := task.MustType || task.Do == work.Gross || task.Do == work.Temperature
	if !typed && (!task.Numeric() || a.Text == "" || len(m.state.Entries)%2 == 0) {
		a = judge.Answer{How: batch.AtTarget}
	}
	f, err := judge.Fact(m.plan, task.ID, a)
	if err != nil {
		m.t.Fatal(err)
	}
	if a.Text == "" {
		m.looks(task)
		if task.Do == work.Confirm {
			return neutral + enter, f
		}
		return neutral + " ", f
	}
	return a.Text + enter, f
}

func asked(t work.Task) string {
	switch t.Do {
	case work.Weigh:
		return t.Remaining().At(t.Reads)
	case work.Portion:
		return t.StopAt.At(t.Reads)
	case work.Gross:
		return t.Target.At(t.Reads)
	case work.Temperature:
		return strconv.FormatFloat(t.Wanted.Celsius(), 'f', 0, 64)
	case work.WeighIn, work.Bars:
		return t.Target.At(t.Reads)
	default:
	}
	return ""
}

// says sends keys and waits until the screen shows the fact as saved.
func (m *maker) says(keys string, f batch.Fact) {
	m.t.Helper()
	line := m.take(f)
	readBack := m.readBack(f)
	alike := showsSaved(m.Screen(), line)
	read, warm := f.(batch.TemperatureTaken)
	m.Send(keys)
	m.Wait(fmt.Sprintf("%q as saved", line), func() bool {
		shown := m.Screen()
		if warm && console.Holds(shown, "type it again") { // No lye solution cools as fast as this maker works.
			warm = false
			m.Send(strconv.FormatFloat(read.Temperature.Celsius(), 'f', 0, 64) + enter)
		}
		return showsSaved(shown, line) || readBack != "" && console.Holds(shown, readBack)
	})
	if next, ok := m.next(); alike && ok {
		m.seesTask(next) // Facts that read alike, as those of scent cups do, are told by what follows.
	}
}

// ticked is a task that was ticked, with what it asked.
func (m *maker) ticked(task string) batch.Ticked {
	t, _, _ := m.plan.Task(task)
	return batch.Ticked{Task: task, Asked: t.Title}
}

// take adds a fact to what the maker knows, and gives its line of words.
func (m *maker) take(f batch.Fact) string {
	e := batch.Entry{Seq: len(m.state.Entries) + 1, At: timer.Moment{Wall: dawn}, Fact: f}
	m.state = m.state.Apply(e)
	m.plan = steps.Of(m.state)
	return say.Fact(e, m.plan, m.state)
}

// types answers the task at hand with what is typed.
func (m *maker) types(text string) {
	m.t.Helper()
	task, _ := m.next()
	f, err := judge.Fact(m.plan, task.ID, judge.Answer{How: batch.Typed, Text: text})
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
