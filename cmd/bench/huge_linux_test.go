package main

import (
	"bytes"
	"context"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"golang.org/x/sys/unix"

	"bench/internal/console"
	"bench/internal/recipe"
	"bench/recipes"
)

const (
	huge = 100 << 20 // huge is how large a file is that nobody wrote by hand (bytes).
	// mostResident is the most memory that reading any file may take (KiB): the
	// program has 20 to 30 MB by itself, and would need 100 more to read a huge one.
	mostResident = 90 << 10
	// longest is how long that may take. It finds what hangs, not what is slow.
	longest = 2 * time.Minute
)

// hostile are the files that nobody writes by hand, by what they try.
func hostile(valid string) map[string]string {
	bomb := &strings.Builder{}
	bomb.WriteString("a0: &a0 [x,x,x,x,x,x,x,x,x,x]\n")
	for level := '1'; level <= '9'; level++ {
		before := "*a" + string(level-1)
		bomb.WriteString("a" + string(level) + ": &a" + string(level) + " [" + strings.Repeat(before+",", 9) + before + "]\n")
	}
	return map[string]string{
		"alias bomb":              valid + bomb.String(),
		"aliases of aliases":      valid + "x: &x {y: *x}\n",
		"deep lists":              valid + "x: " + strings.Repeat("[", 100_000) + "\n",
		"deep maps":               valid + "x: " + strings.Repeat("{a: ", 50_000) + "\n",
		"deep blocks":             valid + strings.Repeat("- ", 100_000) + "x\n",
		"many values":             valid + "x: [" + strings.Repeat("1,", 120_000) + "1]\n",
		"as large as may be":      valid + "x: " + strings.Repeat("\n - a", 51_000) + "\n",
		"one long line":           valid + "about: " + strings.Repeat("sea ", 60_000) + "\n",
		"NUL":                     valid + "x: a\x00b\n",
		"invalid UTF-8":           valid + "x: \xff\xfe\xc3\x28\n",
		"escapes, raw":            valid + "x: \x1b]52;c;aGFyYm91cg==\x07\u009b2J\u202e\n",
		"escapes in a key":        valid + `"\e]52;c;aGFyYm91cg==\a\u009b2J\u202e": 1` + "\n",
		"tags":                    valid + "x: !!binary aGFyYm91cg==\n" + strings.Repeat("y: !!set {}\n", 9000),
		"many documents":          valid + strings.Repeat("---\nx: 1\n", 20_000),
		"two encodings":           "\xff\xfe" + valid,
		"nothing but white space": strings.Repeat(" \n", 120_000),
	}
}

// bounded runs a command and holds it to its bounds. It gives what was printed.
func bounded(t *testing.T, what string, cmd *exec.Cmd) string {
	t.Helper()
	out := &bytes.Buffer{}
	cmd.Stdout, cmd.Stderr = out, out
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithTimeout(t.Context(), longest)
	defer cancel()
	stop := context.AfterFunc(ctx, func() { _ = cmd.Process.Kill() })
	used := waited(cmd)
	if !stop() {
		t.Errorf("%s: still at work after %s", what, longest)
	}
	if used > mostResident {
		t.Errorf("%s: %d KiB of memory, more than %d", what, used, mostResident)
	}
	if code := cmd.ProcessState.ExitCode(); code != exitProblems && code != exitUsage {
		t.Errorf("%s: exit status %d", what, code)
	}
	text := out.String()
	if at := strings.IndexFunc(strings.NewReplacer("\n", "", "\t", "").Replace(text), recipe.Unsafe); at >= 0 {
		t.Errorf("%s: prints control characters: %.300q", what, text)
	}
	if len(text) == 0 || len(text) > 64<<10 {
		t.Errorf("%s: prints %d bytes", what, len(text))
	}
	if strings.Contains(text, "goroutine ") {
		t.Errorf("%s: %.2000s", what, text)
	}
	return text
}

// waited waits for the end of a command and gives the most memory that it had
// (KiB). The kernel's own account of a child (getrusage) begins with its parent's.
func waited(cmd *exec.Cmd) (used int64) {
	ended := make(chan struct{})
	go func() {
		defer close(ended)
		_ = cmd.Wait() // How it ended is looked at later.
	}()
	for {
		select {
		case <-ended:
			return used
		case <-time.After(time.Millisecond):
			used = max(used, peak(cmd.Process.Pid))
		}
	}
}

// TestHostileRecipes checks each hostile text as a recipe and as a workshop.
func TestHostileRecipes(t *testing.T) {
	t.Parallel()
	for name, file := range map[string]string{"recipe": "tide-lines.yaml", "workshop": recipes.WorkshopFile} {
		valid, err := fs.ReadFile(recipes.FS(), file)
		if err != nil {
			t.Fatal(err)
		}
		home := t.TempDir()
		for what, text := range hostile(string(valid)) {
			path := filepath.Join(home, "x.yaml")
			write(t, path, text)
			args := []string{"check", path}
			if name == "workshop" {
				write(t, filepath.Join(home, recipes.WorkshopFile), text)
				args = []string{"plan", "tide-lines"}
			}
			bounded(t, name+", "+what, program(t, home, args...))
		}
	}
}

// TestHugeFiles gives files of a hundred megabytes, pipes and devices where
// documents and drawings belong: each is refused in words, unread.
func TestHugeFiles(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	folder := filepath.Join(home, "recipes")
	if err := os.MkdirAll(folder, 0o700); err != nil {
		t.Fatal(err)
	}
	mole, err := fs.ReadFile(recipes.FS(), "wind-over-the-mole.yaml")
	if err != nil {
		t.Fatal(err)
	}
	drawn := filepath.Join(folder, "mole.yaml")
	write(t, drawn, string(mole))
	svg, doc, shop := filepath.Join(folder, "gull.svg"), filepath.Join(folder, "x.yaml"), filepath.Join(home, "workshop.yaml")
	for what, put := range map[string]func(path string){
		"huge":        func(path string) { sparse(t, path) },
		"a pipe":      func(path string) { must(t, unix.Mkfifo(path, 0o600)) },
		"a device":    func(path string) { must(t, os.Symlink("/dev/zero", path)) },
		"a folder":    func(path string) { must(t, os.Mkdir(path, 0o700)) },
		"its own end": func(path string) { must(t, os.Symlink(path, path)) },
	} {
		for path, args := range map[string][]string{svg: {"check", drawn}, doc: {"check", doc}, shop: {"plan", "tide-lines"}} {
			put(path)
			said := bounded(t, filepath.Base(path)+", "+what, program(t, home, args...))
			if !strings.Contains(said, filepath.Base(path)) {
				t.Errorf("%s, %s: it is not named: %s", filepath.Base(path), what, said)
			}
			must(t, os.Remove(path))
		}
		put(svg) // All at once, on the screen.
		put(doc)
		put(shop)
		c := console.Start(t, program(t, home, clocked(dawn)...), 80, 24)
		c.Sees("your workshop", "x.yaml")
		if used := peak(c.PID()); used > mostResident {
			t.Errorf("the screen, %s: %d KiB of memory", what, used)
		}
		c.Kill()
		for _, path := range []string{svg, doc, shop} {
			must(t, os.Remove(path))
		}
	}
}

// peak gives the most memory that a process has had (VmHWM of proc(5), KiB), 0
// once it has ended.
func peak(pid int) (used int64) {
	status, _ := os.ReadFile(fmt.Sprintf("/proc/%d/status", pid))
	_, after, _ := strings.Cut(string(status), "VmHWM:")
	_, _ = fmt.Sscan(after, &used)
	return used
}

// sparse makes a huge file that takes no room on the disk.
func sparse(t *testing.T, path string) {
	t.Helper()
	write(t, path, "bench: 1\n")
	must(t, os.Truncate(path, huge))
}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}
