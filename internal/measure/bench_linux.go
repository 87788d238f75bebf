package main

import (
	"fmt"
	"os"
	"os/exec"
	"regexp"
	"strings"
	"time"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/say"
	"bench/internal/steps"
	"bench/internal/work"
)

const (
	up, down  = "\x1b[A", "\x1b[B"
	enter     = "\r"
	backspace = "\x7f"
	// settled is how long a new screen takes no answer (internal/ui/input.go).
	settled = 300 * time.Millisecond
	// looked is how long a stage that came up by itself takes none.
	looked = 1100 * time.Millisecond
)

// companion is bench itself, with a batch under way in a data folder that is
// made anew for each launch. Its first useful frame is the one that shows the
// batch and what is next in it: enter goes on with it.
type companion struct {
	called string
	path   string
	folder string    // folder is where data folders are made.
	until  work.Kind // until is the stage that the batch stands at.

	home  string
	state batch.State // state is what bench is known to have saved.
	stage string      // stage is the one at hand.
}

func (c *companion) name() string  { return c.called }
func (c *companion) leave() string { return "q" }

func (c *companion) prepare() (cmd *exec.Cmd, ready func(string) bool, err error) {
	if err := os.RemoveAll(c.home); err != nil {
		return nil, nil, err
	}
	if c.home, err = os.MkdirTemp(c.folder, "home-"); err != nil {
		return nil, nil, err
	}
	if c.state, err = begin(c.home, c.until); err != nil {
		return nil, nil, err
	}
	cmd = exec.Command(c.path)
	cmd.Env = append(environment(), "BENCH_HOME="+c.home, "TZ=UTC")
	task, _, _ := next(steps.Of(c.state))
	return cmd, all(holds(regexp.QuoteMeta(code)), holds(regexp.QuoteMeta(opening(task.Title)))), nil
}

// enter opens the batch and confirms where it was.
func (c *companion) enter(s *session) error {
	const restated = "Where you were"
	if err := s.send(enter); err != nil {
		return err
	}
	if _, err := s.await("way into the batch", holds(restated)); err != nil {
		return err
	}
	s.rest(looked) // The same key again, for something that has just come up.
	if err := s.send(enter); err != nil {
		return err
	}
	_, err := s.await("way on", func(screen string) bool { return !strings.Contains(screen, restated) })
	s.rest(settled)
	return err
}

// keeper is the same store, opened by a program that does nothing with it.
type keeper struct{ companion }

func (k *keeper) name() string                    { return "stored" }
func (k *keeper) leave() string                   { return enter }
func (k *keeper) enter(*session) error            { return nil }
func (k *keeper) keys(int, func(key) error) error { return nil }

func (k *keeper) prepare() (*exec.Cmd, func(string) bool, error) {
	cmd, _, err := k.companion.prepare()
	if err == nil {
		cmd.Args = append(cmd.Args, k.home)
	}
	return cmd, holds("^open"), err
}

// keys moves to and fro, types figures and takes them back, and then works the
// batch on, task by task.
func (c *companion) keys(n int, press func(key) error) error {
	plan := steps.Of(c.state)
	task, stage, ok := next(plan)
	if !ok || len(stage.Tasks) < 2 {
		return fmt.Errorf("stage %q has no task to move to", stage.Title)
	}
	const typed, longer = "keep 7", "keep 71"
	for range n / 2 {
		for _, k := range []key{
			{kind: move, send: down, shown: atHand(stage.Tasks[1])},
			{kind: move, send: up, shown: atHand(task)},
			{kind: figure, send: "7", shown: holds(typed)},
			{kind: digit, send: "1", shown: holds(longer)},
			{kind: digit, send: backspace, shown: func(screen string) bool { return !strings.Contains(screen, longer) }},
			{kind: figure, send: backspace, shown: func(screen string) bool { return !strings.Contains(screen, typed) }},
		} {
			if err := press(k); err != nil {
				return err
			}
		}
	}
	for range n {
		if err := c.tick(press); err != nil {
			return err
		}
	}
	return nil
}

// tick answers the task at hand and waits until bench shows the fact as saved
// and what is next. What has to be typed is typed before.
func (c *companion) tick(press func(key) error) error {
	plan := steps.Of(c.state)
	task, stage, ok := next(plan)
	if !ok {
		return nil
	}
	text, fact, err := answer(plan, task)
	if err != nil {
		return err
	}
	typed := backspace // A key that comes again after another is not taken for a held one.
	if text != "" {
		typed = text
	}
	wait := time.Duration(0)
	if stage.ID != c.stage || task.Do == work.Confirm {
		c.stage, wait = stage.ID, looked
	}
	before := []key{{kind: unmeasured, wait: wait, send: typed}}
	if judge.DoubtNow(plan, fact, moment()) != "" { // Lye solution does not cool while one measures: it is typed twice.
		before = append(before, key{kind: unmeasured, send: enter, shown: holds("type it again")}, key{kind: unmeasured, send: typed})
	}
	for _, k := range before {
		if err := press(k); err != nil {
			return err
		}
	}
	c.state = entered(c.state, fact)
	plan = steps.Of(c.state)
	shown := []func(string) bool{saved(say.Fact(c.state.Entries[len(c.state.Entries)-1], plan, c.state))}
	if after, _, ok := next(plan); ok {
		shown = append(shown, atHand(after))
	}
	send := " "
	if text != "" || task.Do == work.Confirm {
		send = enter
	}
	return press(key{kind: tick, send: send, shown: all(shown...)})
}

// check counts: each tick that was shown is in the store, and nothing else.
func (c *companion) check() error {
	n, err := kept(c.home)
	if err == nil && n != len(c.state.Entries) {
		err = fmt.Errorf("bench showed %d facts as saved, and the store has %d", len(c.state.Entries), n)
	}
	return err
}

// atHand says that a task is the one in the middle of the bench.
func atHand(t work.Task) func(string) bool {
	return holds("│ " + regexp.QuoteMeta(opening(t.Title)))
}

// saved says that a fact is among the last at the foot of the bench.
func saved(words string) func(string) bool {
	return holds(`^ ✓ \d\d:\d\d  ` + regexp.QuoteMeta(opening(words)))
}

// opening gives the first words of a text, as many as fit for certain.
func opening(text string) string {
	const room = 40
	words := strings.Fields(text)
	n := min(1, len(words))
	for n < len(words) && len(strings.Join(words[:n+1], " ")) <= room {
		n++
	}
	return strings.Join(words[:n], " ")
}

func all(conditions ...func(string) bool) func(string) bool {
	return func(screen string) bool {
		for _, holds := range conditions {
			if !holds(screen) {
				return false
			}
		}
		return true
	}
}
