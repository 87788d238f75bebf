package draw

import (
	"errors"
	"io"
	"os"
	"os/exec"
	"os/signal"

	tea "github.com/charmbracelet/bubbletea"
)

type execMsg struct {
	cmd  *exec.Cmd
	done tea.ExecCallback
}

// Exec returns a command that lends the terminal to another program and draws
// everything again when it ends. Its result goes through done, which may be nil.
func Exec(cmd *exec.Cmd, done tea.ExecCallback) tea.Cmd {
	return func() tea.Msg { return execMsg{cmd, done} }
}

// execution is a tea.ExecCommand on the terminal's own files: given anything
// else, exec.Cmd would copy, and wait for a key that never comes.
type execution struct {
	*driver
	cmd *exec.Cmd
}

func (e *execution) Run() error {
	e.cmd.Stdin, e.cmd.Stdout, e.cmd.Stderr = e.terminal.in, e.terminal.out, e.terminal.out
	if err := e.terminal.Release(); err != nil {
		return err
	}
	err := errors.Join(e.run(), e.terminal.Acquire())
	go e.sendSize() // It may have changed, and Bubble Tea waits for us.
	return err
}

// run keeps interrupts away meanwhile: ctrl+c goes to all programs on the
// terminal but is meant for the one that has it.
func (e *execution) run() error {
	if err := e.cmd.Start(); err != nil {
		return err
	}
	signal.Ignore(os.Interrupt) // Once it runs, or it would ignore them too.
	defer signal.Notify(e.signals, os.Interrupt)
	return e.cmd.Wait()
}

func (e *execution) SetStdin(io.Reader)  {}
func (e *execution) SetStdout(io.Writer) {}
func (e *execution) SetStderr(io.Writer) {}
