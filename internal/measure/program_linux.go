package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"time"

	"bench/internal/measure/list"
)

// program is one of those that are measured.
type program interface {
	name() string
	// prepare makes ready what a launch needs, and gives the command, and what
	// says that its first useful frame is on the screen.
	prepare() (cmd *exec.Cmd, ready func(screen string) bool, err error)
	// enter goes to where keys and rest are measured.
	enter(s *session) error
	// keys gives the keys to measure, one at a time, until it has no more.
	keys(n int, press func(key) error) error
	// leave are the keys that end it.
	leave() string
	// check looks, after the end, whether all was really done.
	check() error
}

// key is one key press: what it is, and what shows that it was answered.
type key struct {
	kind  kind
	wait  time.Duration // wait is how long to wait before it.
	send  string
	shown func(screen string) bool
}

// kind is what a key does.
type kind int

const (
	unmeasured kind = iota // unmeasured keys show nothing by themselves.
	move                   // move goes to another row or task.
	figure                 // figure types the first digit of a number, or takes it back.
	digit                  // digit types one more, or takes it back.
	tick                   // tick says that something is done; bench saves it first.
)

// listed is a program with rows to move over and tick. None of them saves.
type listed struct {
	called  string
	args    []string
	env     []string
	folder  string
	first   string // first is in the last row to be drawn.
	down    string
	up      string
	moved   [2]string // moved are patterns of the screen after down and up.
	on, off string    // on and off are keys that tick and untick.
	ticked  [2]string
	quit    string
}

func (l listed) name() string { return l.called }

func (l listed) prepare() (*exec.Cmd, func(string) bool, error) {
	cmd := exec.Command(l.args[0], l.args[1:]...)
	cmd.Dir, cmd.Env = l.folder, append(environment(), l.env...)
	return cmd, holds(regexp.QuoteMeta(l.first)), nil
}

func (l listed) enter(*session) error { return nil }
func (l listed) check() error         { return nil }
func (l listed) leave() string        { return l.quit }

func (l listed) keys(n int, press func(key) error) error {
	for range n / 2 {
		for _, k := range []key{
			{kind: move, send: l.down, shown: holds(l.moved[0])},
			{kind: move, send: l.up, shown: holds(l.moved[1])},
			{kind: tick, send: l.on, shown: holds(l.ticked[0])},
			{kind: tick, send: l.off, shown: holds(l.ticked[1])},
		} {
			if err := press(k); err != nil {
				return err
			}
		}
	}
	return nil
}

// holds says whether a screen shows a pattern; ^ and $ are ends of a line.
func holds(pattern string) func(string) bool {
	return regexp.MustCompile("(?m)" + pattern).MatchString
}

// ours is the list that is built here.
func ours(name, path string) listed {
	return listed{
		called: name, args: []string{path}, first: "j k move", down: "j", up: "k", on: " ", off: " ", quit: "q",
		moved:  [2]string{`^> \[.\] step 2 `, `^> \[.\] step 1 `},
		ticked: [2]string{`^> \[x\] step 1 `, `^> \[ \] step 1 `},
	}
}

// others are programs of the machine that people know, as far as they are
// installed: with the same rows, and without a countdown.
func others(folder string) ([]program, error) {
	var text strings.Builder
	for i := range list.Rows {
		fmt.Fprintf(&text, "[ ] step %d of %d\n", i+1, list.Rows)
	}
	const rows = "rows.txt"
	if err := os.WriteFile(filepath.Join(folder, rows), []byte(text.String()), 0o600); err != nil {
		return nil, err
	}
	last := "step " + strconv.Itoa(list.Rows)
	all := []listed{
		{
			called: "vim", args: []string{"vim", "-u", "NONE", "-i", "NONE", "-n", "-c", "set ruler", rows}, first: "1,1",
			down: "j", up: "k", moved: [2]string{`2,1  `, `1,1  `}, on: "0lrx0", off: "0lr 0",
			ticked: [2]string{`^\[x\] step 1 `, `^\[ \] step 1 `}, quit: ":q!\r",
		},
		{
			called: "fzf", args: []string{"fzf", "--multi", "--bind", "space:toggle"}, first: last,
			env:  []string{"FZF_DEFAULT_COMMAND=cat " + rows, "FZF_DEFAULT_OPTS=", "SHELL=/bin/sh"},
			down: "\x1b[A", up: "\x1b[B", moved: [2]string{`^[>▌].*step 2 `, `^[>▌].*step 1 `}, on: " ", off: " ",
			ticked: [2]string{`\(1\)`, `\(0\)`}, quit: "\x1b",
		},
	}
	var found []program
	for _, l := range all {
		if path, err := exec.LookPath(l.called); err == nil {
			l.args[0], l.folder = path, folder
			found = append(found, l)
		}
	}
	return found, nil
}

// environment is the same for all, whatever the shell of the day has set.
func environment() []string {
	return []string{
		"TERM=xterm-256color", "COLORTERM=truecolor", "LANG=C.UTF-8", "PATH=" + os.Getenv("PATH"), "HOME=" + os.TempDir(),
	}
}
