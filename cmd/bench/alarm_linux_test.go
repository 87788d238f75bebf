package main

import (
	"regexp"
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/console"
	"bench/internal/steps"
)

// gelDue gives the moment at which the first look at the gel falls due.
func gelDue(t *testing.T, home, code string) time.Time {
	t.Helper()
	for _, x := range steps.Of(batch.Fold(kept(t, home, code))).Timers {
		if strings.HasPrefix(x.ID, "gel look/") {
			return x.Start.Wall.Add(x.After)
		}
	}
	t.Fatal("no look at the gel")
	return time.Time{}
}

func (m *maker) bells() int { return strings.Count(m.Written(), "\a") }

// TestBell counts the bells that reach a real terminal: an alarm that is not to
// wait rings every ten seconds of the program's clock until a key answers it, and
// shows one notice where the terminal is said to know how. Silence rings for none,
// and leaves no sequence that a terminal may not know.
func TestBell(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	early := gelDue(t, home, poured(t, home, dawn))
	for _, c := range []struct {
		name   string
		second int // second of the minute in which it falls due: the clock on the screen tells when to count.
		args   []string
		env    string
		rings  bool
		notice string
	}{
		{"unknown terminal", 35, nil, "BENCH_NOTICES=", true, ""},
		{"told", 35, nil, "BENCH_NOTICES=osc777", true, "\x1b]777;notify;bench;look at the gel: dark to the edge? cracks? too hot? (Lighthouse at dusk, batch 260302A)\x1b\\"},
		{"silent", 45, []string{"--silent"}, "BENCH_NOTICES=osc777", false, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			home := t.TempDir()
			shift := time.Duration(c.second-early.Second()) * time.Second
			poured(t, home, dawn.Add(shift))
			due := early.Add(shift)
			cmd := program(t, home, append([]string{"--clock", due.Add(-3 * time.Second).Format(time.RFC3339)}, c.args...)...)
			cmd.Env = append(cmd.Env, c.env)
			m := sitsAt(t, home, cmd)
			m.speed = 1
			m.SeesNot("!!!")
			if m.bells() != 0 {
				t.Error("it rang before anything was due")
			}
			m.Sees("!!! 260302A: look at the g")
			if c.rings {
				m.Wait("second bell", func() bool { return m.bells() == 2 })
			} else {
				m.Sees("silent")
			}
			m.waits(look + rest)
			m.Send("a")
			m.Sees("· 260302A: look at the g")
			rung := m.bells()
			m.Sees(due.Add(time.Minute).Truncate(time.Minute).Format("15:04"))
			if after := m.bells(); after != rung || !c.rings && after != 0 {
				t.Errorf("%d bells before it was answered, %d at the next minute", rung, after)
			}
			if got := strings.Count(m.Written(), "\x1b]"); got != strings.Count(c.notice, "\x1b]") || !strings.Contains(m.Written(), c.notice) {
				t.Errorf("%d commands to the terminal, want %q", got, c.notice)
			}
			m.leaves()
			m.Restored()
		})
	}
}

// TestAlarmsByTheProgramsClock: an alarm comes up by itself when that clock says so,
// which is three minutes in nine seconds here, and not when the machine's does: that
// would be at the next full minute, after the test has given up.
func TestAlarmsByTheProgramsClock(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	due := gelDue(t, home, poured(t, home, dawn))
	m := sitsAt(t, home, program(t, home, "--clock", due.Truncate(time.Minute).Add(-2*time.Minute).Format(time.RFC3339), "--clock-speed", "20"))
	m.SeesNot("!!!")
	soonAfter := regexp.MustCompile(`(?s)!!!.*(due now|late by (\d+ s|\d min))`)
	m.Wait("alarm that has just come up", func() bool { return soonAfter.MatchString(m.Screen()) })
	m.leaves()
	m.Restored()
}

// TestTalkRings counts the bells of a talk on a terminal: they ring on by the
// program's clock, the alarm is said once, and silence rings for none.
func TestTalkRings(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	due := gelDue(t, home, poured(t, home, dawn))
	for _, silent := range []bool{false, true} {
		args := []string{"--plain", "--clock", due.Add(-time.Minute).Format(time.RFC3339), "--clock-speed", "60"}
		if silent {
			args = append(args, "--silent")
		}
		m := &maker{Console: console.Start(t, program(t, home, args...), 80, 24), t: t, home: home, speed: 60}
		m.Sees("number of a batch or a recipe, or help>")
		if m.bells() != 0 {
			t.Error("it rang before anything was due")
		}
		m.Sees("! ALARM: 260302A: look at the gel")
		if !silent {
			m.Wait("third bell", func() bool { return m.bells() >= 3 })
		}
		m.Send("q\n")
		if code := m.Exit(); code != exitClean {
			t.Errorf("exit status %d", code)
		}
		if n := strings.Count(m.Written(), "ALARM"); n != 1 || silent && m.bells() != 0 {
			t.Errorf("silent %v: said %d times, %d bells", silent, n, m.bells())
		}
	}
}
