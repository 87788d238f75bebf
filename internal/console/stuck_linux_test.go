package console

import (
	"fmt"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"
)

// TestMain makes this test a program that shows something and then only waits.
func TestMain(m *testing.M) {
	if os.Getenv("CONSOLE_WAITS") != "" {
		fmt.Print("waiting")
		time.Sleep(time.Minute)
	}
	os.Exit(m.Run())
}

// TestStuck: a wait in vain tells what was shown, and where the program waits.
func TestStuck(t *testing.T) {
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(self)
	cmd.Env = append(os.Environ(), "CONSOLE_WAITS=1")
	c := Start(t, cmd, 80, 24)
	c.Sees("waiting")
	holdsEach(t, c.stuck(), "screen:\nwaiting\n", `"waiting"`, "the program runs", "thread", "goroutine 1 ", "console.TestMain")
}

// TestStuckEnded: the same of a program that has ended.
func TestStuckEnded(t *testing.T) {
	c := Start(t, exec.Command("sh", "-c", "echo gone; exit 3"), 80, 24)
	c.Sees("gone")
	c.Exit()
	holdsEach(t, c.stuck(), "gone", "the program has ended: exit status 3")
}

func holdsEach(t *testing.T, text string, words ...string) {
	t.Helper()
	for _, w := range words {
		if !strings.Contains(text, w) {
			t.Errorf("no %q in:\n%s", w, text)
		}
	}
}
