package quiet_test

import (
	"bytes"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"github.com/creack/pty"
)

// launch builds a program, runs it in a terminal that answers nothing, and
// returns what it wrote within two seconds and whether it was done by then.
func launch(t *testing.T, name string) (written string, done bool) {
	t.Helper()
	binary := filepath.Join(t.TempDir(), name)
	if out, err := exec.Command("go", "build", "-o", binary, "./testdata/"+name).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	cmd := exec.Command(binary)
	cmd.Env = []string{"TERM=xterm-256color", "COLORTERM=truecolor"}
	terminal, err := pty.Start(cmd)
	if err != nil {
		t.Fatal(err)
	}
	output := make(chan string, 1)
	go func() {
		var all bytes.Buffer
		_, _ = all.ReadFrom(terminal) // Ends with an error when the program does.
		output <- all.String()
	}()
	select {
	case written = <-output:
		done = true
	case <-time.After(2 * time.Second):
		_ = cmd.Process.Kill()
		written = <-output
	}
	_ = cmd.Wait()
	_ = terminal.Close()
	return written, done
}

func TestStartAsksNothing(t *testing.T) {
	written, done := launch(t, "draws")
	if want := "started 0 true\r\n"; written != want || !done { // 0 is termenv.TrueColor.
		t.Errorf("wrote %q, done %v; want %q at once", written, done, want)
	}
}

// Once Bubble Tea asks no more, this package can go.
func TestStartWithoutQuietAsks(t *testing.T) {
	written, done := launch(t, "asks")
	if want := "\x1b]11;?\x1b\\\x1b[6n"; written != want || done {
		t.Errorf("wrote %q, done %v; want %q and a long wait", written, done, want)
	}
}
