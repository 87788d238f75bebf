package main

import (
	"math/rand/v2"
	"os/exec"
	"strings"
	"syscall"
	"testing"
	"time"

	"bench/internal/console"
)

// pressedAgain is sooner than a held key can be told from one that is pressed again
// without a look at what follows.
const pressedAgain = 500 * time.Millisecond

// TestMuteTerminal runs on a terminal that answers nothing: there must be no
// waiting for an answer, and before the screen not one control sequence.
func TestMuteTerminal(t *testing.T) {
	t.Parallel()
	c := console.Start(t, program(t, t.TempDir(), "--version"), 80, 24)
	if code := c.Exit(); code != exitClean || !strings.HasPrefix(c.Written(), "bench ") || strings.Contains(c.Written(), "\x1b") {
		t.Errorf("exit status %d, wrote %q", code, c.Written())
	}
	for _, term := range []string{"xterm-256color", "linux", "screen", ""} {
		home := t.TempDir()
		cmd := program(t, home)
		cmd.Env = append(cmd.Env, "TERM="+term)
		m := sitsAt(t, home, cmd)
		m.AskedNothing()
		m.Send("q")
		if code := m.Exit(); code != exitClean {
			t.Errorf("TERM=%s: exit status %d", term, code)
		}
		m.Restored()
	}
}

// TestColours holds NO_COLOR to no colour in any byte, and other terminals to some.
func TestColours(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		env     string
		colours bool
	}{
		{"TERM=xterm-256color", true},
		{"NO_COLOR=1", false},
	} {
		home := t.TempDir()
		cmd := program(t, home, clocked(dawn)...)
		cmd.Env = append(cmd.Env, c.env)
		m := sitsAt(t, home, cmd).begins("260302A")
		m.works("sea/water")
		m.Send("1")
		m.Sees("typed", "to go")
		m.Kill()
		if found := m.Colours(); (len(found) > 0) != c.colours {
			t.Errorf("%s: colours %q", c.env, found)
		}
		if len(m.Styles()) == 0 {
			t.Errorf("%s: nothing is bold", c.env)
		}
	}
}

// TestKeysTogether sends keys in one piece: they are separate keys, and pasted
// ones are none.
func TestKeysTogether(t *testing.T) {
	t.Parallel()
	m := sits(t, t.TempDir(), dawn).begins("260302A")
	for _, text := range []string{" ", "q", "312\r", "\r"} {
		m.Send("\x1b[200~" + text + "\x1b[201~")
	}
	m.says("jj ", m.ticked("set out/moulds"))
	m.Send("k")
	m.Send(esc)
	m.Sees("│ Gloves, goggles and long sleeves on")
	m.works("sea/water")
	m.types("216.0")
	m.agrees()
}

// TestHeldKey holds a key that is held down to one tick, and one that is pressed
// again to another. The clock runs at its true speed here, and the repeats come all
// at once.
func TestHeldKey(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	m := sits(t, home, dawn).begins("260302A")
	m.Send("q")
	m.Exit()
	m = sitsAt(t, home, program(t, home, "--clock", dawn.Add(time.Minute).Format(time.RFC3339)))
	m.speed = 1
	m.reopens("260302A")
	m.says(strings.Repeat(" ", 60), m.ticked("set out/protection"))
	for _, id := range []string{"set out/scales", "set out/moulds"} {
		m.waits(pressedAgain)
		m.says(" ", m.ticked(id))
	}
	m.Send("5q")
	if code := m.Exit(); code != exitClean {
		t.Errorf("exit status %d", code)
	}
	m.agrees()
}

// TestLeavingWaits ends the program in every way while another program keeps
// the disk busy: the fact that is being saved is kept, the terminal is given
// back, and the process is gone.
func TestLeavingWaits(t *testing.T) {
	t.Parallel()
	signal := func(sig syscall.Signal) func(*maker) {
		return func(m *maker) { m.Signal(sig) }
	}
	for _, c := range []struct {
		name string
		gone bool // gone says that there is no terminal left to look at.
		end  func(*maker)
	}{
		{"q", false, func(m *maker) { m.Send("q") }},
		{"ctrl+c", false, func(m *maker) { m.Send("\x03") }},
		{"SIGINT", false, signal(syscall.SIGINT)},
		{"SIGTERM", false, signal(syscall.SIGTERM)},
		{"SIGHUP", false, signal(syscall.SIGHUP)},
		{"SIGQUIT", false, signal(syscall.SIGQUIT)},
		{"no terminal", true, func(m *maker) { m.HangUp() }},
		{"no terminal, SIGHUP ignored", true, func(m *maker) { m.HangUp() }},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			home := t.TempDir()
			cmd := program(t, home, clocked(dawn)...)
			if strings.Contains(c.name, "ignored") {
				cmd = deaf(t, cmd)
			}
			m := sitsAt(t, home, cmd).begins("260302A")
			db := connect(t, home)
			execute(t, db, "BEGIN IMMEDIATE")
			m.Send(neutral + " ")
			m.Sees("… saving", "… Gloves")
			c.end(m)
			if !c.gone {
				m.Sees("Leaving: still saving the last entry.")
			}
			execute(t, db, "ROLLBACK")
			code := m.Exit()
			if !c.gone {
				m.Restored()
			}
			if !c.gone && code != exitClean {
				t.Errorf("exit status %d", code)
			}
			m.take(m.ticked("set out/protection"))
			m.agrees()
		})
	}
}

// deaf makes a command that ignores SIGHUP, as nohup does.
func deaf(t *testing.T, cmd *exec.Cmd) *exec.Cmd {
	t.Helper()
	shell := exec.Command("sh", append([]string{"-c", `trap "" HUP; exec "$0" "$@"`, cmd.Path}, cmd.Args[1:]...)...)
	shell.Env = cmd.Env
	return shell
}

// TestResize works on a batch while the window goes through all kinds of sizes,
// in the middle of numbers, too. No key is taken that could only be pressed
// blind; where keys are taken the order is in sight.
func TestResize(t *testing.T) {
	t.Parallel()
	m := sits(t, t.TempDir(), dawn).begins("260302A")
	chance := rand.New(rand.NewPCG(killSeed, 1))
	m.works("sea/water")
	sizes := [][2]int{{1, 1}, {2, 200}, {200, 2}, {79, 24}, {80, 23}, {400, 100}}
	for range 30 {
		sizes = append(sizes, [2]int{1 + chance.IntN(200), 1 + chance.IntN(60)})
	}
	for _, size := range sizes {
		task, _ := m.next()
		keys, f := m.keysFor(task)
		last := len(keys) - 1
		m.Send(keys[:last])
		if task.Numeric() && last > 1 {
			m.Sees("keep " + keys[:last])
		}
		m.Resize(size[0], size[1])
		if size[0] < 80 || size[1] < 24 {
			m.Wait("word on the size, or the order", func() bool { return m.blind() || m.small(task.Title) })
			if m.blind() {
				m.pressesBlind(" " + enter + "9")
			}
		} else {
			m.Sees("batch 260302A")
		}
		m.Resize(80, 24)
		m.Sees("│ " + start(task.Title))
		if task.Numeric() && last > 1 {
			m.Sees("keep " + keys[:last])
		}
		m.says(keys[last:], f)
	}
	m.agrees()
	m.leaves()
	m.Restored()
}

// pressesBlind presses keys in a window that is too small to see anything. That
// they have arrived shows by first aid, which is there in any window.
func (m *maker) pressesBlind(keys string) {
	m.t.Helper()
	m.Send(keys + "\x1bOP")
	m.Wait("first aid", func() bool { return !m.blind() })
	m.rests()
	m.Send("x")
	m.Wait("word on the size", m.blind)
	m.rests()
}

// blind says that the window is too small for keys.
func (m *maker) blind() bool { return strings.HasPrefix(m.Screen(), "!") }

// small says that a window too small for the bench shows an order whole.
func (m *maker) small(order string) bool {
	shown := m.Screen()
	return !strings.Contains(shown, "batch 260302A") && strings.HasPrefix(strings.Join(strings.Fields(shown), " "), order)
}

func (m *maker) blank() bool { return strings.TrimSpace(m.Screen()) == "" }

// TestSpoiltScreen holds a window that reports a change of size, and has the
// same size again by the time it is asked, to being drawn anew: what it showed
// is gone all the same.
func TestSpoiltScreen(t *testing.T) {
	t.Parallel()
	m := sits(t, t.TempDir(), dawn).begins("260302A")
	m.Spoil()
	m.Wait("empty screen", m.blank)
	m.Signal(syscall.SIGWINCH)
	m.Sees("Lighthouse at dusk 3 loaves batch 260302A stage 1 of 35", "space done")
	m.seesTask(m.plan.Stages[0].Tasks[0])
}
