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
	c.Sees("size 60x12", "note started", "no \ufffd]0;title\ufffd")
	c.Send("k")
	c.Sees("keys k")
	c.Send("\x1b[200~two words\x1b[201~")
	c.Sees("pasted two words", "keys k")
	c.Resize(50, 8)
	c.Sees("size 50x8")
	c.Send("q")
	c.ends(0)
	c.Sees("before", "ended: by key, <nil>")
	c.Restored()
	c.AskedNothing()
	if first, _, _ := strings.Cut(c.Written(), "\x1b"); first != "before\r\n" {
		t.Errorf("%q before Open", first)
	}
}

// One key that changes one character costs a few bytes and one write.
func TestRunWritesTheChangeAlone(t *testing.T) {
	c := start(t, "program")
	c.Sees("note started")
	before := len(c.Written())
	c.Send("k")
	c.Sees("keys k")
	if got, want := c.Written()[before:], "\x1b[2;6Hk"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

// What a model says is about to be overtaken is not drawn.
func TestRunLeavesAStillModelAlone(t *testing.T) {
	c := start(t, "program")
	c.Sees("note started")
	c.Send("w")
	c.Sees("keys w", "note overtaken")
	if strings.Contains(c.Written(), "waits") {
		t.Error("a frame was drawn that the model had called off")
	}
}

func TestRunRestoresAfterPanic(t *testing.T) {
	for key, text := range map[string]string{
		"u": "the update burst", "v": "the view burst",
		"c": "the command burst", "b": "the command burst", "s": "the command burst",
	} {
		t.Run(text+" "+key, func(t *testing.T) {
			c := start(t, "program")
			c.Resize(100, 60) // Room for the trace.
			c.Sees("size 100x60", "note started")
			c.Send(key)
			c.ends(2)
			c.Wait("trace", func() bool {
				_, after, _ := strings.Cut(c.Written(), "\x1b[?1049l")
				return strings.Contains(after, "panic: "+text) && strings.Contains(after, "goroutine")
			})
			c.Restored()
		})
	}
}

func TestRunReturnsTheProgramsError(t *testing.T) {
	c := start(t, "program")
	c.Sees("note started")
	c.Send("i")
	c.ends(1)
	c.Sees("before", "interrupted")
	c.Restored()
}

// A signal lets the model finish what it writes.
func TestRunStopsOnSignals(t *testing.T) {
	for _, sig := range []syscall.Signal{syscall.SIGINT, syscall.SIGTERM, syscall.SIGHUP} {
		t.Run(sig.String(), func(t *testing.T) {
			c := start(t, "program")
			c.Sees("note started")
			c.Signal(sig)
			c.ends(0)
			c.Sees("before", "ended: "+sig.String())
			c.Restored()
			c.recorded(sig.String())
		})
	}
}

// A model that does not listen is ended all the same.
func TestRunEndsADeafModel(t *testing.T) {
	t.Parallel() // It takes all the patience.
	c := start(t, "program")
	c.Sees("note started")
	c.Send("d")
	c.Sees("keys d")
	c.Signal(syscall.SIGTERM)
	c.ends(1)
	c.Sees("before", "ended: , the program did not stop in time")
	c.Restored()
}

// A terminal that goes away ends the program, after it has finished its write.
func TestRunStopsWhenTheTerminalGoes(t *testing.T) {
	c := start(t, "program")
	c.Sees("note started")
	c.HangUp()
	c.ends(1) // The terminal could not be restored.
	c.recorded("")
}

// Suspended by key or by signal, the terminal is the shell's; continued, all is
// drawn again at the size of then.
func TestRunSuspends(t *testing.T) {
	c := start(t, "shell")
	c.Sees("size 60x12", "note started")
	c.Send("\x1a")
	c.Sees("before", "shell: job stopped by stopped")
	c.Restored()
	c.Resize(40, 10)
	c.Send("fg\r")
	c.Sees("size 40x10", "keys ctrl+z", "note resumed")
	c.Send("k")
	c.Sees("keys ctrl+zk")
	c.Send("q")
	c.Sees("shell: job ended 0")
	c.ends(0)
	c.Restored()
	c.AskedNothing()
}

// Stopped without notice, it takes the terminal again when it is continued.
func TestRunTakesTheTerminalAgainAfterAStop(t *testing.T) {
	c := start(t, "program")
	c.Sees("note started")
	pid := c.PID()
	_ = syscall.Kill(pid, syscall.SIGSTOP)
	c.Spoil()
	c.Wait("empty screen", func() bool { return !strings.Contains(c.Screen(), "size 60x12") })
	_ = syscall.Kill(pid, syscall.SIGCONT)
	c.Sees("size 60x12", "note resumed")
	c.Send("q")
	c.ends(0)
	c.Settled()
}

// Where no shell could continue it, a wish to suspend does not hang.
func TestRunDoesNotSuspendWithoutAShell(t *testing.T) {
	c := start(t, "program")
	c.Sees("note started")
	c.Send("\x1a")
	c.Sees("note resumed", "keys ctrl+z")
	c.Send("q")
	c.ends(0)
	c.Restored()
}

func TestExecLendsTheTerminal(t *testing.T) {
	c := start(t, "program")
	c.Sees("note started")
	c.Send("e")
	c.Sees("before", "lent")
	c.Restored()
	c.Resize(44, 9)
	c.Send("cure\r")
	c.Sees("size 44x9", "keys e", "note back: exit status 3")
	c.Send("k")
	c.Sees("keys ek")
	c.Send("q")
	c.ends(0)
	c.Wait("what the other program wrote", func() bool { return strings.Contains(c.Written(), "read cure") })
	c.Restored()
}

// Ctrl+c in a program that has the terminal is not meant for us; an interrupt
// afterwards is.
func TestExecKeepsInterruptsApart(t *testing.T) {
	c := start(t, "program")
	c.Sees("note started")
	c.Send("e")
	c.Sees("before", "lent")
	c.Send("\x03")
	c.Sees("keys e", "note back: signal: interrupt")
	time.Sleep(30 * time.Millisecond) // A late request to stop would come now.
	c.Send("k")
	c.Sees("keys ek", "note back: signal: interrupt")
	c.Signal(syscall.SIGINT)
	c.ends(0)
	c.Sees("before", "ended: interrupt")
	c.Restored()
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
