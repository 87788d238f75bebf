package journal_test

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"bench/internal/journal"
)

// changing are the system calls by which a program changes a disk.
var changing = []string{"openat", "mkdirat", "pwrite64", "write", "ftruncate", "fsync", "fdatasync", "linkat", "renameat", "unlinkat"}

// killedAtEachCall runs a job again and again, and kills it with SIGKILL when it
// makes its nth call of each kind, for every n until it gets by without. Unless
// BENCH_CALLS says all, only some of a long row are tried.
func killedAtEachCall(t *testing.T, job func(t *testing.T) *exec.Cmd, check func(t *testing.T, dir string)) {
	t.Helper()
	strace, err := exec.LookPath("strace")
	if err != nil {
		t.Skip("strace is not installed: it does the killing here")
	}
	kills := 0
	for _, call := range changing {
		for n := 1; ; n += 1 + skipped(n) {
			cmd := job(t)
			dir := cmd.Dir
			cmd.Args = append([]string{strace, "-f", "-qq", "-o", "/dev/null", "-e", fmt.Sprintf("inject=%s:signal=SIGKILL:when=%d", call, n), cmd.Path}, cmd.Args[1:]...)
			cmd.Path = strace
			out, err := cmd.CombinedOutput()
			var exit *exec.ExitError
			if err != nil && !errors.As(err, &exit) {
				t.Skipf("strace cannot be used here: %v", err)
			}
			if exit != nil && exit.Exited() && exit.ExitCode() != 137 {
				t.Skipf("strace does not kill here: %v: %s", err, out)
			}
			check(t, dir)
			if t.Failed() {
				t.Fatalf("killed at %s number %d", call, n)
			}
			if err == nil {
				break
			}
			kills++
		}
	}
	t.Logf("%d kills", kills)
	if kills < 10 {
		t.Errorf("only %d kills", kills)
	}
}

func skipped(n int) int {
	if n < 6 || os.Getenv("BENCH_CALLS") == "all" {
		return 0
	}
	return 6
}

// TestKilledWhileRestoring: what was there, or what is restored, is the store,
// whole; what was there is never lost; and the next restore does it all.
func TestKilledWhileRestoring(t *testing.T) {
	old, fresh := t.TempDir(), t.TempDir()
	filled(t, old)
	s := open(t, fresh, journal.Options{})
	add(t, holdBatch(t, s, "26K30A"), 0, 4)
	backup := filepath.Join(t.TempDir(), "monday.db")
	_, err := s.Backup(backup, nil)
	must(t, err)
	has := func(dir, path string) []string {
		s, err := journal.Open(dir, journal.Options{ReadOnly: true})
		if err != nil {
			return []string{path, err.Error()}
		}
		check, err := s.Verify(nil)
		err = errors.Join(err, check.Err(), s.Close())
		codes := []string{fmt.Sprint(check.Facts)}
		if err != nil {
			codes = append(codes, err.Error())
		}
		return codes
	}
	job := func(t *testing.T) *exec.Cmd {
		dir := t.TempDir()
		for name, text := range snapshot(t, old) {
			must(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600))
		}
		cmd := jobProcess(t, dir, "restore", backup)
		cmd.Dir = dir
		return cmd
	}
	killedAtEachCall(t, job, func(t *testing.T, dir string) {
		now := has(dir, "the store")
		if !slices.Equal(now, []string{"14"}) && !slices.Equal(now, []string{"4"}) {
			t.Errorf("the store has %q", now)
		}
		if kept, err := filepath.Glob(filepath.Join(dir, "kept", "*.db")); now[0] == "4" && (err != nil || len(kept) != 1) {
			t.Errorf("what was there before is kept in %q, %v", kept, err)
		}
		_, err := journal.Restore(dir, backup, journal.Options{}, nil)
		must(t, err)
		if again := has(dir, "the store"); !slices.Equal(again, []string{"4"}) {
			t.Errorf("restored once more, the store has %q", again)
		}
		if left, err := filepath.Glob(filepath.Join(dir, ".restore-*")); err != nil || len(left) > 0 {
			t.Errorf("left over: %q, %v", left, err)
		}
	})
}

// TestKilledWhileUpgrading: whole before and after, and upgraded in the end with
// a copy of what was there.
func TestKilledWhileUpgrading(t *testing.T) {
	for _, name := range everyVersion {
		t.Run(name, func(t *testing.T) {
			job := func(t *testing.T) *exec.Cmd {
				dir := fixture(t, name+".db")
				cmd := jobProcess(t, dir, "upgrade", "")
				cmd.Dir = dir
				return cmd
			}
			killedAtEachCall(t, job, func(t *testing.T, dir string) {
				reader := open(t, dir, journal.Options{ReadOnly: true})
				wantFixture(t, reader)
				must(t, reader.Close())
				s := open(t, dir, journal.Options{})
				wantFixture(t, s)
				must(t, s.Close())
				if kept := snapshot(t, filepath.Join(dir, "kept")); kept[name+".db"] == "" {
					t.Errorf("no copy was kept")
				}
			})
		})
	}
}

func jobProcess(t *testing.T, dir, what, file string) *exec.Cmd {
	t.Helper()
	exe, err := os.Executable()
	must(t, err)
	cmd := exec.Command(exe)
	cmd.Env = append(os.Environ(), childEnv+"="+strings.Join([]string{dir, what, file}, "\n"))
	return cmd
}
