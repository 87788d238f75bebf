package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"io"
	"io/fs"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"

	"github.com/ncruces/go-sqlite3"
	"golang.org/x/sys/unix"

	"bench/internal/console"
)

// notSavedThenSaved answers what is next while the store refuses, demands that
// the screen says so and that nothing is kept, and tries again once let is done.
func (m *maker) notSavedThenSaved(words string, let func()) {
	m.t.Helper()
	m.agrees()
	task, _ := m.next()
	keys, f := m.keysFor(task)
	m.Send(keys)
	title := strings.Join(strings.Fields(task.Title)[:3], " ")
	m.Sees("NOT SAVED", words, "! "+title, "not saved", "r save again")
	m.SeesNot("✓ " + title)
	m.agrees()
	m.Send("q")
	m.Sees("The last entry is not saved.")
	let()
	m.says("r", f)
	m.SeesNot("NOT SAVED")
	m.agrees()
}

// TestFullDisk fills a real disk, of one megabyte, in the middle of a batch.
func TestFullDisk(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	if err := unix.Mount("none", home, "tmpfs", 0, "size=1m"); err != nil {
		t.Skipf("no small disk can be mounted here (%v); TestFileSizeLimit goes the same way with another error", err)
	}
	t.Cleanup(func() { _ = unix.Unmount(home, unix.MNT_DETACH) })
	m := sits(t, home, dawn).begins("260302A")
	m.works("set out/moulds")
	if log := filepath.Join(home, "journal.db-wal"); os.Truncate(log, used(t, log)) != nil { // Its spare room would take some facts more.
		t.Fatal("the log cannot be cut to what is in it")
	}
	filler, err := os.Create(filepath.Join(home, "filler"))
	if err != nil {
		t.Fatal(err)
	}
	for err == nil {
		_, err = filler.Write(make([]byte, 512))
	}
	_ = filler.Close()
	m.notSavedThenSaved("The disk is full: free some space", func() {
		if err := os.Remove(filler.Name()); err != nil {
			t.Fatal(err)
		}
	})
	m.works("sea/water")
}

// used gives how much of a log is written; zeros follow.
func used(t *testing.T, log string) int64 {
	t.Helper()
	text, err := os.ReadFile(log)
	if err != nil {
		t.Fatal(err)
	}
	return int64(len(bytes.TrimRight(text, "\x00")))
}

// TestFileSizeLimit takes the program the right to let its files grow (EFBIG).
func TestFileSizeLimit(t *testing.T) {
	t.Parallel()
	m := sits(t, t.TempDir(), dawn).begins("260302A")
	m.works("set out/moulds")
	var was unix.Rlimit
	limit := func(to, old *unix.Rlimit) {
		t.Helper()
		if err := unix.Prlimit(m.PID(), unix.RLIMIT_FSIZE, to, old); err != nil {
			t.Fatal(err)
		}
	}
	limit(nil, &was)
	limit(&unix.Rlimit{Cur: uint64(used(t, filepath.Join(m.home, "journal.db-wal"))), Max: was.Max}, nil)
	m.notSavedThenSaved("file too large", func() { limit(&was, nil) })
	m.works("sea/water")
}

// TestNewerStore opens a store that a newer program has written: a number in
// the header of the database file says so (https://sqlite.org/fileformat2.html,
// user version, offset 60).
func TestNewerStore(t *testing.T) {
	t.Parallel()
	m := sits(t, t.TempDir(), dawn).begins("260302A")
	m.works("set out/scales")
	m.Send("q")
	m.Exit()
	db, err := os.OpenFile(filepath.Join(m.home, "journal.db"), os.O_WRONLY, 0)
	if err == nil {
		_, err = db.WriteAt(binary.BigEndian.AppendUint32(nil, 99), 60)
	}
	if err != nil {
		t.Fatal(err)
	}
	_ = db.Close()
	before := hashes(t, m.home)
	for _, args := range [][]string{nil, {"record"}, {"due"}} {
		c := console.Start(t, program(t, m.home, args...), 80, 24)
		if code := c.Exit(); code != exitProblems {
			t.Errorf("bench %s: exit status %d", strings.Join(args, " "), code)
		}
		said := strings.Join(strings.Fields(c.Screen()), " ")
		for _, words := range []string{"a newer program wrote this store", "version 99", "nothing was changed"} {
			if !strings.Contains(said, words) {
				t.Errorf("bench %s does not say %q: %s", strings.Join(args, " "), words, said)
			}
		}
		c.Settled()
	}
	if !maps.Equal(before, hashes(t, m.home)) {
		t.Error("the store was changed")
	}
}

// TestStoreBecomesNewer lets a newer program take the store over while this one
// is in the middle of a batch.
func TestStoreBecomesNewer(t *testing.T) {
	t.Parallel()
	m := sits(t, t.TempDir(), dawn).begins("260302A")
	m.works("set out/scales")
	db := connect(t, m.home)
	execute(t, db, "PRAGMA user_version = 99")
	task, _ := m.next()
	keys, f := m.keysFor(task)
	m.Send(keys)
	m.Sees("NOT SAVED", "A newer program wrote this store: use that one.")
	execute(t, db, "PRAGMA user_version = 3")
	m.agrees()
	m.says("r", f)
	m.agrees()
}

func connect(t *testing.T, home string) *sqlite3.Conn {
	t.Helper()
	db, err := sqlite3.Open(filepath.Join(home, "journal.db"))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = db.Close() })
	return db
}

func execute(t *testing.T, db *sqlite3.Conn, sql string) {
	t.Helper()
	if err := db.Exec(sql); err != nil {
		t.Fatal(err)
	}
}

// hashes gives the SHA-256 of each file in a folder.
func hashes(t *testing.T, dir string) map[string][sha256.Size]byte {
	t.Helper()
	sums := map[string][sha256.Size]byte{}
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := os.ReadFile(path)
		sums[path] = sha256.Sum256(data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return sums
}

// TestReadOnlyFolder holds a folder that may not be written to words, and to
// being read all the same.
func TestReadOnlyFolder(t *testing.T) {
	t.Parallel()
	home, someone := unprivileged(t)

	m := sitsAt(t, home, someone(clocked(dawn)...))
	chmod(t, 0o555, filepath.Join(home, "hold"))
	m.setsUp()
	m.Send(up + enter)
	m.Sees("The batch was not started: the folder is read-only: make it writable")
	chmod(t, 0o755, filepath.Join(home, "hold"))
	m.Send(up + enter)
	m.Sees("batch 260302A", "stage 1 of")
	m.Send("q")
	m.Exit()

	var all []string
	for path := range hashes(t, home) {
		all = append(all, path)
	}
	chmod(t, 0o444, all...)
	chmod(t, 0o555, home, filepath.Join(home, "hold"))
	t.Cleanup(func() { chmod(t, 0o755, home, filepath.Join(home, "hold")) })
	before := hashes(t, home)
	c := console.Start(t, someone(), 80, 24)
	if code := c.Exit(); code != exitProblems {
		t.Errorf("exit status %d", code)
	}
	c.Sees("may not be written", "make the folder and its files writable")
	if out, err := someone("record").CombinedOutput(); err != nil || !console.Holds(string(out), "batch begun: Lighthouse at dusk") {
		t.Errorf("bench record: %v\n%s", err, out)
	}
	if out, err := someone("due").CombinedOutput(); err != nil || string(out) != "no timers\n" {
		t.Errorf("bench due: %v\n%s", err, out)
	}
	if !maps.Equal(before, hashes(t, home)) {
		t.Error("the folder was changed")
	}
}

func chmod(t *testing.T, mode os.FileMode, paths ...string) {
	t.Helper()
	for _, path := range paths {
		if err := os.Chmod(path, mode); err != nil {
			t.Fatal(err)
		}
	}
}

// unprivileged gives a folder, and the program in it as someone whom the modes of
// files bind. The superuser is not; then it is run as another user, from where that
// one can read it.
func unprivileged(t *testing.T) (home string, someone func(args ...string) *exec.Cmd) {
	t.Helper()
	top := t.TempDir()
	home = filepath.Join(top, "home")
	if err := os.Mkdir(home, 0o755); err != nil {
		t.Fatal(err)
	}
	plain := func(args ...string) *exec.Cmd { return program(t, home, args...) }
	if os.Getuid() != 0 {
		return home, plain
	}
	const nobody = 65534
	chmod(t, 0o755, filepath.Dir(top), top)
	if err := os.Chown(home, nobody, nobody); err != nil {
		t.Skipf("nobody else can be played here: %v", err)
	}
	path := filepath.Join(top, "bench")
	copyProgram(t, path, plain().Path)
	as := func(args ...string) *exec.Cmd {
		cmd := plain(args...)
		cmd.Path = path
		cmd.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: nobody, Gid: nobody}}
		return cmd
	}
	if err := as("--version").Run(); err != nil {
		t.Skipf("nobody else can be played here: %v", err)
	}
	return home, as
}

func copyProgram(t *testing.T, to, from string) {
	t.Helper()
	in, err := os.Open(from)
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	out, err := os.OpenFile(to, os.O_CREATE|os.O_WRONLY, 0o755)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := io.Copy(out, in); err != nil {
		t.Fatal(err)
	}
	if err := out.Close(); err != nil {
		t.Fatal(err)
	}
}

// TestFullDiskAtBackup has no room for a backup, and none for a restore: each
// says so, leaves nothing behind and what was there as it was, and works once
// there is room.
func TestFullDiskAtBackup(t *testing.T) {
	t.Parallel()
	small, home := t.TempDir(), earlier(t, "version-2.db")
	resize := func(flags uintptr, size string) {
		if err := unix.Mount("none", small, "tmpfs", flags, "size="+size); err != nil {
			t.Skipf("no small disk can be mounted here: %v", err)
		}
	}
	resize(0, "64k")
	t.Cleanup(func() { _ = unix.Unmount(small, unix.MNT_DETACH) })
	refused := func(in string, args ...string) {
		t.Helper()
		before, disk := hashes(t, in), hashes(t, small)
		if out, code := runs(t, in, args...); code != exitProblems || !strings.Contains(out, "disk full") {
			t.Errorf("bench %v: exit status %d: %s", args, code, out)
		}
		unlocked := func(path string, _ [sha256.Size]byte) bool { return filepath.Base(filepath.Dir(path)) == "hold" }
		after, left := hashes(t, in), hashes(t, small)
		maps.DeleteFunc(after, unlocked)
		maps.DeleteFunc(left, unlocked)
		if !maps.Equal(before, after) || !maps.Equal(disk, left) {
			t.Errorf("bench %v: something was changed or left over: %v", args, slices.Collect(maps.Keys(left)))
		}
	}
	file := filepath.Join(small, "monday.db")
	refused(home, "backup", file)
	resize(unix.MS_REMOUNT, "200k") // There is room for two stores, or three.
	printed(t, home, "backup", file)
	refused(small, "restore", file)
	resize(unix.MS_REMOUNT, "1m")
	printed(t, small, "restore", file)
	refilled := printed(t, small, "verify")
	if !strings.Contains(refilled, "134 facts") || !strings.Contains(refilled, "everything is whole") {
		t.Errorf("bench verify says %s", refilled)
	}
}
