//go:build linux

package console

import (
	"fmt"
	"os"
	"strings"
	"syscall"
	"time"
)

// stuck says where things stand when what was waited for did not come: what is on
// the screen, whether the program still runs, what it wrote last and, of a Go
// program, where each goroutine waits. It ends the program: what happens once in
// ten thousand starts must tell all there and then.
func (c *Console) stuck() string {
	shown := strings.TrimRight(c.Screen(), "\n")
	written := c.Written()
	var b strings.Builder
	fmt.Fprintf(&b, "screen:\n%s\nwritten: %d bytes, the last of them %q\n", shown, len(written), last(written, 300))
	select {
	case <-c.ended:
		fmt.Fprintf(&b, "the program has ended: %s", c.cmd.ProcessState)
		return b.String()
	default:
	}
	fmt.Fprintf(&b, "the program runs:\n%s", c.threads())
	_ = c.cmd.Process.Signal(syscall.SIGABRT) // The Go runtime answers with every goroutine's trace.
	select {
	case <-c.ended:
	case <-time.After(time.Second):
		b.WriteString("it does not answer SIGABRT\n")
	}
	c.listened()
	b.WriteString("its goroutines:\n" + goroutines(c.Written()[len(written):]))
	return b.String()
}

// goroutines gives of a trace who waits where: each goroutine's state and its calls,
// without those of the runtime.
func goroutines(trace string) string {
	var b strings.Builder
	for _, part := range strings.Split(strings.ReplaceAll(trace, "\r", ""), "\n\n") {
		head, calls, _ := strings.Cut(part, "\n")
		if !strings.HasPrefix(head, "goroutine ") {
			continue
		}
		var own []string
		for line := range strings.Lines(calls) {
			name, _, isCall := strings.Cut(line, "(")
			if isCall && !strings.HasPrefix(line, "\t") && !strings.HasPrefix(name, "runtime.") {
				own = append(own, strings.TrimSpace(line))
			}
		}
		if len(own) > 0 {
			fmt.Fprintf(&b, "  %s\n    %s\n", head, strings.Join(own, "\n    "))
		}
	}
	return b.String()
}

// threads gives what the kernel says of each thread: its state, and where it waits.
func (c *Console) threads() string {
	var b strings.Builder
	dir := fmt.Sprintf("/proc/%d/task", c.PID())
	tasks, _ := os.ReadDir(dir)
	for _, task := range tasks {
		stat, _ := os.ReadFile(dir + "/" + task.Name() + "/stat")
		where, _ := os.ReadFile(dir + "/" + task.Name() + "/wchan")
		state := "gone"
		if _, after, ok := strings.Cut(string(stat), ") "); ok {
			state = after[:1]
		}
		fmt.Fprintf(&b, "  thread %s: %s %s\n", task.Name(), state, where)
	}
	return b.String()
}

// listened waits until nothing more arrives.
func (c *Console) listened() {
	for before := -1; before != len(c.written()); time.Sleep(50 * time.Millisecond) {
		before = len(c.written())
	}
}

func last(text string, bytes int) string { return text[max(0, len(text)-bytes):] }
