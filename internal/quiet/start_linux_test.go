package quiet_test

import (
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/creack/pty"
)

// launch builds a program and starts it in a terminal that answers nothing.
func launch(t *testing.T, name string) *os.File {
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
	t.Cleanup(func() {
		_ = cmd.Process.Kill() // It may have ended.
		_ = cmd.Wait()
		_ = terminal.Close()
	})
	return terminal
}

// wantWritten reads as many bytes as are wanted.
func wantWritten(t *testing.T, from io.Reader, want string) {
	t.Helper()
	written := make([]byte, len(want))
	if n, err := io.ReadFull(from, written); string(written[:n]) != want {
		t.Fatalf("wrote %q, %v; want %q", written[:n], err, want)
	}
}

func TestStartAsksNothing(t *testing.T) {
	terminal := launch(t, "draws")
	wantWritten(t, terminal, "started 0 true\r\n")      // 0 is termenv.TrueColor.
	if more, _ := io.ReadAll(terminal); len(more) > 0 { // Ends with an error when the program does.
		t.Errorf("and then wrote %q", more)
	}
}

// Once Bubble Tea asks no more, this package can go.
func TestStartWithoutQuietAsks(t *testing.T) {
	wantWritten(t, launch(t, "asks"), "\x1b]11;?\x1b\\\x1b[6n")
}
