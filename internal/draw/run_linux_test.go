package draw

import (
	"errors"
	"io"
	"os"
	"strings"
	"syscall"
	"testing"
	"time"
)

func TestRunFromStartToQuit(t *testing.T) {
	c := start(t, "program")
	c.sees("size 60x12", "note started", "no \ufffd]0;title\ufffd")
	c.send("k")
	c.sees("keys k")
	c.send("\x1b[200~two words\x1b[201~")
	c.sees("pasted two words", "keys k")
	c.setSize(50, 8)
	c.sees("size 50x8")
	c.send("q")
	c.ends(0)
	c.sees("before", "ended: by key, <nil>")
	c.restored()
	c.askedNothing()
	if first, _, _ := strings.Cut(c.written(), "\x1b"); first != "before\r\n" {
		t.Errorf("%q before Open", first)
	}
}

// One key that changes one character costs a few bytes and one write.
func TestRunWritesTheChangeAlone(t *testing.T) {
	c := start(t, "program")
	c.sees("note started")
	before := len(c.written())
	c.send("k")
	c.sees("keys k")
	if got, want := c.written()[before:], "\x1b[2;6Hk"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

func TestRunRestoresAfterPanic(t *testing.T) {
	for key, text := range map[string]string{
		"u": "the update burst", "v": "the view burst",
		"c": "the command burst", "b": "the command burst", "s": "the command burst",
	} {
		t.Run(text+" "+key, func(t *testing.T) {
			c := start(t, "program")
			c.setSize(100, 60) // Room for the trace.
			c.sees("size 100x60", "note started")
			c.send(key)
			c.ends(2)
			c.wait("trace", func() bool {
				_, after, _ := strings.Cut(c.written(), "\x1b[?1049l")
				return strings.Contains(after, "panic: "+text) && strings.Contains(after, "goroutine")
			})
			c.restored()
		})
	}
}

func TestRunReturnsTheProgramsError(t *testing.T) {
	c := start(t, "program")
	c.sees("note started")
	c.send("i")
	c.ends(1)
	c.sees("before", "interrupted")
	c.restored()
}

// A signal lets the model finish what it writes.
func TestRunStopsOnSignals(t *testing.T) {
	for _, sig := range []syscall.Signal{syscall.SIGINT, syscall.SIGTERM, syscall.SIGHUP} {
		t.Run(sig.String(), func(t *testing.T) {
			c := start(t, "program")
			c.sees("note started")
			if err := c.cmd.Process.Signal(sig); err != nil {
				t.Fatal(err)
			}
			c.ends(0)
			c.sees("before", "ended: "+sig.String())
			c.restored()
			c.recorded(sig.String())
		})
	}
}

// A model that does not listen is ended all the same.
func TestRunEndsADeafModel(t *testing.T) {
	t.Parallel() // It takes all the patience.
	c := start(t, "program")
	c.sees("note started")
	c.send("d")
	c.sees("keys d")
	if err := c.cmd.Process.Signal(syscall.SIGTERM); err != nil {
		t.Fatal(err)
	}
	c.ends(1)
	c.sees("before", "ended: , the program did not stop in time")
	c.restored()
}

// A terminal that goes away ends the program, after it has finished its write.
func TestRunStopsWhenTheTerminalGoes(t *testing.T) {
	c := start(t, "program")
	c.sees("note started")
	c.hangUp()
	c.ends(1) // The terminal could not be restored.
	c.recorded("")
}

func (c *console) recorded(cause string) {
	c.t.Helper()
	got, err := os.ReadFile(c.record)
	if err != nil || !strings.Contains(string(got), cause) {
		c.t.Errorf("recorded %q, %v; want %q", got, err, cause)
	}
}

// Suspended by key or by signal, the terminal is the shell's; continued, all is
// drawn again at the size of then.
func TestRunSuspends(t *testing.T) {
	c := start(t, "shell")
	c.sees("size 60x12", "note started")
	c.send("\x1a")
	c.sees("before", "shell: job stopped by stopped")
	c.restored()
	c.setSize(40, 10)
	c.send("fg\r")
	c.sees("size 40x10", "keys ctrl+z", "note resumed")
	c.send("k")
	c.sees("keys ctrl+zk")
	c.send("q")
	c.sees("shell: job ended 0")
	c.ends(0)
	c.restored()
	c.askedNothing()
}

// Stopped without notice, it takes the terminal again when it is continued.
func TestRunTakesTheTerminalAgainAfterAStop(t *testing.T) {
	c := start(t, "program")
	c.sees("note started")
	pid := c.cmd.Process.Pid
	_ = syscall.Kill(pid, syscall.SIGSTOP)
	if _, err := c.tty.WriteString("\x1b[2J\x1b[Hfrom outside"); err != nil {
		t.Fatal(err)
	}
	c.sees("from outside")
	_ = syscall.Kill(pid, syscall.SIGCONT)
	c.sees("size 60x12", "note resumed")
	c.send("q")
	c.ends(0)
	c.settled()
}

// Where no shell could continue it, a wish to suspend does not hang.
func TestRunDoesNotSuspendWithoutAShell(t *testing.T) {
	c := start(t, "program")
	c.sees("note started")
	c.send("\x1a")
	c.sees("note resumed", "keys ctrl+z")
	c.send("q")
	c.ends(0)
	c.restored()
}

func TestExecLendsTheTerminal(t *testing.T) {
	c := start(t, "program")
	c.sees("note started")
	c.send("e")
	c.sees("before", "lent")
	c.restored()
	c.setSize(44, 9)
	c.send("cure\r")
	c.sees("size 44x9", "keys e", "note back: exit status 3")
	c.send("k")
	c.sees("keys ek")
	c.send("q")
	c.ends(0)
	c.wait("what the other program wrote", func() bool { return strings.Contains(c.written(), "read cure") })
	c.restored()
}

// Ctrl+c in a program that has the terminal is not meant for us; an interrupt
// afterwards is.
func TestExecKeepsInterruptsApart(t *testing.T) {
	c := start(t, "program")
	c.sees("note started")
	c.send("e")
	c.sees("before", "lent")
	c.send("\x03")
	c.sees("keys e", "note back: signal: interrupt")
	time.Sleep(30 * time.Millisecond) // A late request to stop would come now.
	c.send("k")
	c.sees("keys ek", "note back: signal: interrupt")
	if err := c.cmd.Process.Signal(syscall.SIGINT); err != nil {
		t.Fatal(err)
	}
	c.ends(0)
	c.sees("before", "ended: interrupt")
	c.restored()
}

// The end of the input is a reason to stop even where no signal tells.
func TestInputTellsItsEnd(t *testing.T) {
	reader, writer, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	defer reader.Close()
	gone := 0
	in := input{reader, func() { gone++ }}
	if _, err := writer.WriteString("k"); err != nil {
		t.Fatal(err)
	}
	buf := make([]byte, 8)
	if n, err := in.Read(buf); n != 1 || err != nil || gone != 0 {
		t.Errorf("read %d, %v, gone %d", n, err, gone)
	}
	_ = writer.Close()
	if n, err := in.Read(buf); n != 0 || !errors.Is(err, io.EOF) || gone != 1 {
		t.Errorf("at the end read %d, %v, gone %d", n, err, gone)
	}
}

func TestOpenNeedsATerminal(t *testing.T) {
	file, err := os.Create(t.TempDir() + "/screen.txt")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	_, err = Open(Options{In: file, Out: file})
	if !errors.Is(err, ErrNotTerminal) || !strings.Contains(err.Error(), "screen.txt") {
		t.Errorf("%v", err)
	}
	if info, err := file.Stat(); err != nil || info.Size() != 0 {
		t.Errorf("wrote %d bytes to what is no terminal", info.Size())
	}
}
