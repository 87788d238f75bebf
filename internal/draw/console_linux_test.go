package draw

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"bench/internal/console"
)

// terminal is a real pseudo-terminal that plays one of the programs of
// helper_linux_test.go.
type terminal struct {
	*console.Console
	t      *testing.T
	record string // record is a file in which the program leaves why it ended.
}

func start(t *testing.T, name string) terminal {
	t.Helper()
	cmd, record := play(name), filepath.Join(t.TempDir(), "record")
	cmd.Env = append(cmd.Env, "BENCH_DRAW_TEST_RECORD="+record)
	return terminal{console.Start(t, cmd, 60, 12), t, record}
}

// ends waits for the program to end with a status, and for its last words.
func (c terminal) ends(status int) {
	c.t.Helper()
	if got := c.Exit(); got != status {
		c.t.Errorf("exit status %d, want %d; screen:\n%s", got, status, c.Screen())
	}
}

func (c terminal) recorded(cause string) {
	c.t.Helper()
	got, err := os.ReadFile(c.record)
	if err != nil || !strings.Contains(string(got), cause) {
		c.t.Errorf("recorded %q, %v; want %q", got, err, cause)
	}
}
