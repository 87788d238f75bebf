package main

import (
	"os"
	"strings"
	"syscall"
	"testing"
	"time"
	"unicode"

	"bench/internal/batch"
	"bench/internal/console"
	"bench/internal/judge"
)

// TestDumbTerminal talks a batch through on a terminal that can do nothing but
// print: the same facts as on the screen, and not one escape code.
func TestDumbTerminal(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	cmd := program(t, home, clocked(dawn)...)
	cmd.Env = append(cmd.Env, "TERM=dumb")
	m := &maker{Console: console.Start(t, cmd, 80, 24), t: t, home: home, speed: haste}
	m.Sees("number of a batch or a recipe, or help>")
	m.Send("1\n")
	m.Sees("3 loaves: start, another number of loaves")
	m.Send("start\n")
	m.Sees("window open, done?>")
	m.knows("260302A")
	doubts := 0
	for {
		task, ok := m.next()
		if !ok {
			break
		}
		text, a := "=", judge.Answer{How: batch.AtTarget}
		if number := asked(task); number != "" {
			text, a = number, judge.Answer{How: batch.Typed, Text: number}
		}
		f, err := judge.Fact(m.plan, task.ID, a)
		if err != nil {
			t.Fatal(err)
		}
		m.take(f)
		m.Send(text + "\n")
		said := len(m.state.Entries) - 1
		m.Wait("fact as kept", func() bool {
			if strings.Count(m.Written(), "type it again") > doubts { // No lye solution cools as fast as this maker works.
				doubts++
				m.Send(text + "\n")
			}
			return strings.Count(m.Written(), "Kept: ") == said
		})
	}
	m.Sees("nothing to do just now, or help>")
	m.agrees()
	m.Send("q\n")
	if code := m.Exit(); code != 0 {
		t.Errorf("exit status %d", code)
	}
	for _, r := range strings.ReplaceAll(m.Written(), "\r\n", "\n") {
		if r != '\n' && !unicode.IsPrint(r) {
			t.Fatalf("%U was written", r)
		}
	}
}

// TestPracticeLeavesNoTrace practises beside a store with a batch of its own, ends
// by a key and by a signal, and holds every byte of the maker's folder to being
// what it was.
func TestPracticeLeavesNoTrace(t *testing.T) {
	t.Parallel()
	home, tmp := t.TempDir(), t.TempDir()
	m := sits(t, home, dawn).begins("260302A")
	m.works("set out/scales")
	m.leaves()
	before := hashes(t, home)
	if len(before) == 0 {
		t.Fatal("there is nothing to leave alone")
	}

	practises := func(args ...string) *maker {
		cmd := program(t, home, append(args, clocked(dawn)...)...)
		cmd.Env = append(cmd.Env, "TMPDIR="+tmp)
		m := sitsAt(t, home, cmd)
		m.Sees("PRACTICE", "clock 20 times as fast", "no batch; choose a recipe")
		time.Sleep(rest) // The hand's time, not that of the clock.
		m.chooses("Lighthouse at dusk 3 loaves")
		m.Send(enter)
		m.Sees("PRACTICE", "enter start the batch")
		time.Sleep(rest)
		m.Send(up + enter)
		m.Sees("PRACTICE", "batch 260302A", "stage 1 of")
		time.Sleep(rest + look)
		m.Send(" ")
		m.Sees("set out 1/17", "PRACTICE")
		return m
	}
	m = practises("--practice")
	m.Send("v")
	m.Sees("clock 60 times as fast")
	m.leaves()
	m.Restored()
	if !strings.Contains(m.Written(), "Practice is over: nothing of it is kept.") {
		t.Error("the end does not say that nothing is kept")
	}
	m = practises("--practice")
	m.Signal(syscall.SIGTERM)
	m.Exit()
	m.Restored()

	if left, err := os.ReadDir(tmp); err != nil || len(left) > 0 {
		t.Errorf("%v; left behind: %v", err, left)
	}
	after := hashes(t, home)
	for path := range after {
		if after[path] != before[path] {
			t.Errorf("%s has changed", path)
		}
	}
	if len(after) != len(before) {
		t.Errorf("%d files became %d", len(before), len(after))
	}
}
