package draw

import (
	"bufio"
	"fmt"
	"os"
	"os/exec"
	"os/signal"
	"strings"
	"syscall"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"golang.org/x/sys/unix"
)

// The test binary plays the programs that run in the pseudo-terminals.
const part = "BENCH_DRAW_TEST_PART"

func TestMain(m *testing.M) {
	switch os.Getenv(part) {
	case "program":
		os.Exit(program())
	case "shell":
		os.Exit(shell())
	}
	os.Exit(m.Run())
}

func play(name string) *exec.Cmd {
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), part+"="+name, "TERM=xterm-256color", "GOTRACEBACK=single")
	return cmd
}

// program runs a model and says how it ended once the terminal is back.
func program() int {
	fmt.Println("before")
	model, err := Run(&probe{record: os.Getenv("BENCH_DRAW_TEST_RECORD")}, Options{})
	fmt.Printf("ended: %v, %v\n", model.(*probe).end, err)
	if err != nil {
		return 1
	}
	return 0
}

// probe does by key what a program may do.
type probe struct {
	size   tea.WindowSizeMsg
	keys   string
	pasted string
	note   string
	end    string
	record string // The file that is written before quitting on request.
	inView bool
	deaf   bool // To requests to stop.
}

type (
	notedMsg    string
	recordedMsg struct{ err error }
)

func (p *probe) Init() tea.Cmd { return func() tea.Msg { return notedMsg("started") } }

func (p *probe) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		p.size = msg
	case notedMsg:
		p.note = string(msg)
	case tea.ResumeMsg:
		p.note = "resumed"
	case StopRequestedMsg:
		if p.deaf {
			return p, nil
		}
		p.end, p.note = msg.Cause.Error(), "stopping"
		record, end := p.record, p.end
		return p, func() tea.Msg {
			time.Sleep(50 * time.Millisecond) // A slow disk.
			return recordedMsg{os.WriteFile(record, []byte(end), 0o600)}
		}
	case recordedMsg:
		return p, tea.Quit
	case tea.KeyMsg:
		if msg.Paste {
			p.pasted = string(msg.Runes)
			return p, nil
		}
		p.keys += msg.String()
		return p, p.act(msg.String())
	}
	return p, nil
}

// Still is for the key w, which brings a message that ends it.
func (p *probe) Still() bool { return p.note == "waits" }

// Ahead is wrong: what is foreseen must not show.
func (p *probe) Ahead() string { return "foreseen" }

func (p *probe) act(key string) tea.Cmd {
	burst := func() tea.Msg { panic("the command burst") }
	switch key {
	case "q":
		p.end = "by key"
		return tea.Quit
	case "e":
		return Exec(exec.Command("sh", "-c", `echo "lent"; read line; echo "read $line"; exit 3`), func(err error) tea.Msg {
			return notedMsg(fmt.Sprintf("back: %v", err))
		})
	case "ctrl+z":
		return tea.Suspend
	case "w":
		p.note = "waits"
		return tea.Batch(func() tea.Msg { return nil }, func() tea.Msg { return notedMsg("overtaken") })
	case "u":
		panic("the update burst")
	case "d":
		p.deaf = true
	case "v":
		p.inView = true
	case "c":
		return burst
	case "b":
		return tea.Batch(nil, burst, func() tea.Msg { return notedMsg("other") })
	case "s":
		return tea.Sequence(func() tea.Msg { return nil }, tea.Sequence(burst))
	case "i":
		return tea.Interrupt
	}
	return nil
}

func (p *probe) View() string {
	if p.inView {
		panic("the view burst")
	}
	return fmt.Sprintf("size %dx%d\nkeys %s\npasted %s\n\x1b[1mnote %s\x1b[0m\nno \x1b]0;title\a%s",
		p.size.Width, p.size.Height, p.keys, p.pasted, p.note, strings.Repeat("\n", 3))
}

// shell starts the program as a job and continues it after each stop, as shells do.
func shell() int {
	signal.Ignore(syscall.SIGTTOU) // So that it may take the terminal back.
	cmd := play("program")
	cmd.Stdin, cmd.Stdout, cmd.Stderr = os.Stdin, os.Stdout, os.Stderr
	cmd.SysProcAttr = &syscall.SysProcAttr{Setpgid: true, Foreground: true, Ctty: 0}
	if err := cmd.Start(); err != nil {
		fmt.Println("shell:", err)
		return 1
	}
	lines := bufio.NewReader(os.Stdin)
	for {
		var status syscall.WaitStatus
		if _, err := syscall.Wait4(cmd.Process.Pid, &status, syscall.WUNTRACED, nil); err != nil {
			fmt.Println("shell:", err)
			return 1
		}
		_ = unix.IoctlSetPointerInt(0, unix.TIOCSPGRP, syscall.Getpgrp())
		if !status.Stopped() {
			fmt.Println("shell: job ended", status.ExitStatus())
			return 0
		}
		fmt.Println("shell: job stopped by", status.StopSignal())
		_, _ = lines.ReadString('\n')
		_ = unix.IoctlSetPointerInt(0, unix.TIOCSPGRP, cmd.Process.Pid)
		_ = syscall.Kill(-cmd.Process.Pid, syscall.SIGCONT)
	}
}
