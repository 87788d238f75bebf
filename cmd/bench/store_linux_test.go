package main

import (
	"encoding/json"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/console"
	"bench/internal/journal"
	"bench/internal/paper"
	"bench/internal/recipe"
)

// runs runs a command that may fail, and gives what it printed.
func runs(t testing.TB, home string, args ...string) (out string, code int) {
	t.Helper()
	cmd := program(t, home, args...)
	text, err := cmd.CombinedOutput()
	if cmd.ProcessState == nil {
		t.Fatal(err)
	}
	return string(text), cmd.ProcessState.ExitCode()
}

// TestBackupWhileAnotherWorks backs up and verifies in the middle of a batch,
// and restores after it went on.
func TestBackupWhileAnotherWorks(t *testing.T) {
	t.Parallel()
	home, file := t.TempDir(), filepath.Join(t.TempDir(), "monday.db")
	m := sits(t, home, dawn).begins("260302A")
	m.works("set out/scales")
	if out := printed(t, home, "backup", file); !strings.Contains(out, "has 1 batch with 2 facts, read back and whole") {
		t.Errorf("bench backup says %s", out)
	}
	if out, code := runs(t, home, "backup", file); code != exitProblems || !strings.Contains(out, "monday.db is there already, and was left alone: a backup takes no other's place") {
		t.Errorf("exit status %d: %s", code, out)
	}
	if out := printed(t, home, "verify"); !strings.Contains(out, `"260302A"      2 facts  whole`) || !strings.Contains(out, "everything is whole") {
		t.Errorf("bench verify says %s", out)
	}
	m.works("sea/water")
	if out, code := runs(t, home, "restore", file); code != exitProblems || !strings.Contains(out, "close the other program") {
		t.Errorf("exit status %d: %s", code, out)
	}
	m.agrees()
	m.leaves()

	out := printed(t, home, "restore", file)
	for _, words := range []string{"restored 1 batch with 2 facts", "kept/replaced.db", "only the kept one has batch 260302A: the last"} {
		if !strings.Contains(out, words) {
			t.Errorf("bench restore does not say %q: %s", words, out)
		}
	}
	if got := kept(t, home, "260302A"); len(got) != 2 {
		t.Errorf("%d facts", len(got))
	}
	printed(t, home, "restore", filepath.Join(home, "kept", "replaced.db"))
	m.agrees()
}

// TestDamagedStore holds every command to naming what is damaged, and to giving
// out the rest.
func TestDamagedStore(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	m := sits(t, home, dawn).begins("260302A")
	m.works("sea/melt")
	m.leaves()
	other := sits(t, home, dawn).begins("260302B")
	other.works("set out/scales")
	other.leaves()
	db := connect(t, home)
	execute(t, db, `DROP TRIGGER fact_update; UPDATE fact SET body = replace(body, '"Mass":', '"Mass":1') WHERE batch = '260302A' AND kind = 'weighed'`)

	out, code := runs(t, home, "verify")
	for _, words := range []string{"NOT WHOLE from fact", "its checksum does not fit", `"260302B"      2 facts  whole`, "1 NOT WHOLE", "bench restore BACKUP"} {
		if code != exitProblems || !strings.Contains(out, words) {
			t.Errorf("exit status %d, no %q: %s", code, words, out)
		}
	}
	out, _ = runs(t, home, "verify", "--json")
	var said paper.Verified
	if err := json.Unmarshal([]byte(out), &said); err != nil || said.Whole || len(said.Batches) != 2 || said.Batches[0].Whole || !said.Batches[1].Whole {
		t.Errorf("bench verify --json: %v\n%s", err, out)
	}
	out, code = runs(t, home, "record", "--all")
	for _, words := range []string{"Batch 260302A: Lighthouse", "Batch 260302B: Lighthouse", "NOT WHOLE from fact", "after the damage, as found", "weighed {", "batch 260302A is damaged"} {
		if code != exitProblems || !strings.Contains(out, words) {
			t.Errorf("exit status %d, no %q: %s", code, words, out)
		}
	}
	if out, code = runs(t, home, "backup", filepath.Join(home, "new.db")); code != exitProblems || !strings.Contains(out, "no backup was written") {
		t.Errorf("exit status %d: %s", code, out)
	}
	c := sits(t, home, dawn)
	c.Sees("260302B", "Not all could be read", "is damaged at fact")
	c.leaves()
}

// TestUnreadableStore is one whose first page is gone: the words lead to the
// copies, and a restore keeps what was there.
func TestUnreadableStore(t *testing.T) {
	t.Parallel()
	home, file := t.TempDir(), filepath.Join(t.TempDir(), "monday.db")
	m := sits(t, home, dawn).begins("260302A")
	m.works("sea/water")
	m.leaves()
	printed(t, home, "backup", file)
	path := filepath.Join(home, "journal.db")
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for i := 100; i < 4096; i++ {
		data[i] = 0xA5
	}
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	for _, command := range []string{"verify", "record --all", "due"} {
		out, code := runs(t, home, strings.Fields(command)...)
		if code != exitProblems || !strings.Contains(out, "damaged") {
			t.Errorf("bench %s: exit status %d: %s", command, code, out)
		}
	}
	out := printed(t, home, "restore", file)
	copied, err := os.ReadFile(filepath.Join(home, "kept", "replaced.db"))
	if err != nil || string(copied) != string(data) {
		t.Errorf("what was there is not kept: %v\n%s", err, out)
	}
	m.agrees()
}

// TestNewerPlan opens a batch that was begun under rules this program does not
// know: it is named, and nothing is worked out for it.
func TestNewerPlan(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	m := sits(t, home, dawn).begins("260302A")
	m.leaves()
	begun := kept(t, home, "260302A")[0].Fact.(batch.Started)
	begun.Control.PlanVersion = recipe.PlanVersion + 1
	kind, body, err := batch.Encode(begun)
	if err != nil {
		t.Fatal(err)
	}
	store, err := journal.Open(home, journal.Options{})
	if err != nil {
		t.Fatal(err)
	}
	w, err := store.Hold("260302B", journal.Stamp{Wall: dawn})
	if err == nil {
		_, err = w.Append(kind, body, nil, journal.Stamp{Wall: dawn})
	}
	if err != nil {
		t.Fatal(err)
	}
	if err := store.Close(); err != nil {
		t.Fatal(err)
	}
	const words = "it was begun with a newer bench (rules"
	if out, code := runs(t, home, "record", "260302B"); code != exitProblems || !strings.Contains(out, words) {
		t.Errorf("exit status %d: %s", code, out)
	}
	if out, code := runs(t, home, "record", "--all"); code != exitProblems || !strings.Contains(out, words) || !strings.Contains(out, "Batch 260302A: Lighthouse") {
		t.Errorf("exit status %d: %s", code, out)
	}
	m = sits(t, home, dawn)
	m.Sees("260302A", "Not all could be read", "newer bench (rules")
	m.begins("260302C") // The code B is taken.
	m.works("set out/scales")
	m.agrees()
}

// TestPrivate holds all that the program makes to being its owner's alone.
func TestPrivate(t *testing.T) {
	t.Parallel()
	for _, mask := range []string{"000", "022", "777"} {
		t.Run("umask "+mask, func(t *testing.T) { private077(t, mask) })
	}
}

func private077(t *testing.T, mask string) {
	t.Parallel()
	home := filepath.Join(t.TempDir(), "harbour")
	masked := func(args ...string) *exec.Cmd {
		cmd := program(t, home, args...)
		shell := exec.Command("sh", append([]string{"-c", "umask " + mask + `; exec "$0" "$@"`, cmd.Path}, cmd.Args[1:]...)...)
		shell.Env = cmd.Env
		return shell
	}
	does := func(args ...string) {
		if out, err := masked(args...).CombinedOutput(); err != nil {
			t.Fatalf("bench %v: %v\n%s", args, err, out)
		}
	}
	m := sitsAt(t, home, masked(clocked(dawn)...)).begins("260302A")
	m.works("sea/melt")
	does("backup", filepath.Join(home, "monday.db"))
	does("calendar", filepath.Join(home, "days.ics"))
	does("record", "--output", filepath.Join(home, "record.txt"))
	seen := map[string]bool{}
	check := func() {
		err := filepath.WalkDir(home, func(path string, d fs.DirEntry, err error) error {
			if err != nil {
				return err
			}
			want := os.FileMode(0o600)
			if d.IsDir() {
				want = 0o700
			}
			if info, err := d.Info(); err != nil || info.Mode().Perm() != want {
				t.Errorf("%s has mode %v, %v", path, info.Mode(), err)
			}
			seen[d.Name()] = true
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	check()
	m.leaves()
	does("restore", filepath.Join(home, "monday.db"))
	check()
	for _, name := range []string{"journal.db", "journal.db-wal", "journal.db-shm", "260302A.lock", "260302A.txt", "monday.db", "replaced.db", "days.ics", "record.txt"} {
		if !seen[name] {
			t.Errorf("%s was never seen", name)
		}
	}
}

// TestNothingIsSent watches the system calls of whole sessions: no socket is
// opened, and none is written to. The network's package is linked in (flags can
// be addresses), so that only the calls can show it.
func TestNothingIsSent(t *testing.T) {
	t.Parallel()
	strace, err := exec.LookPath("strace")
	if err != nil {
		t.Skip("strace is not installed")
	}
	home, trace := t.TempDir(), filepath.Join(t.TempDir(), "trace")
	traced := func(args ...string) *exec.Cmd {
		cmd := program(t, home, args...)
		cmd.Args = append([]string{strace, "-f", "-o", trace, "-e", "trace=%network,execve,write", "-e", "signal=none", cmd.Path}, cmd.Args[1:]...)
		cmd.Path = strace
		return cmd
	}
	m := sitsAt(t, home, traced(clocked(dawn)...)).begins("260302A")
	m.works("sea/water")
	m.leaves()
	watched(t, trace)
	for _, args := range [][]string{{"verify"}, {"backup", filepath.Join(home, "b.db")}, {"record", "--all"}, {"due"}, {"check", "no such recipe"}, {"plan", "tide-lines"}} {
		if out, err := traced(args...).CombinedOutput(); err != nil && args[0] != "check" {
			t.Fatalf("bench %v: %v\n%s", args, err, out)
		}
		watched(t, trace)
	}
}

// watched reads a trace: it must show the program at work, and no socket.
func watched(t *testing.T, trace string) {
	t.Helper()
	text, err := os.ReadFile(trace)
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(text), "write(") || strings.Count(string(text), "execve(") != 1 {
		t.Fatalf("the trace does not show one program at work:\n%.2000s", text)
	}
	for _, call := range []string{"socket(", "socketpair(", "connect(", "sendto(", "sendmsg(", "bind(", "listen("} {
		if strings.Contains(string(text), call) {
			t.Errorf("the program calls %s", call)
		}
	}
}

// TestFolderTurnsReadOnly takes away the right to write into the folder in the
// middle of a batch. The files that are open go on, so that no fact is lost; what
// needs a new file says so.
func TestFolderTurnsReadOnly(t *testing.T) {
	t.Parallel()
	home, someone := unprivileged(t)
	m := sitsAt(t, home, someone(clocked(dawn)...)).begins("260302A")
	m.works("set out/moulds")
	locked := []string{home, filepath.Join(home, "hold")}
	chmod(t, 0o555, locked...)
	t.Cleanup(func() { chmod(t, 0o755, locked...) })
	m.works("sea/water") // Past the end of a stage, whose copy cannot be written.
	// The copy is made on the side; the next fact after it failed says so.
	for !console.Holds(m.Screen(), "Saved; the copy in records/ is not: permission denied. See bench verify.") {
		task, _ := m.next()
		if task.ID == "sea/melt" {
			t.Fatalf("nothing says that the copy is not written:\n%s", m.Screen())
		}
		m.seesTask(task)
		m.says(m.keysFor(task))
	}
	m.works("sea/melt")
	m.SeesNot("the copy in records/") // Once is enough.
	m.agrees()
	m.leaves()
	m.agrees()
	at := kept(t, home, "260302A")[len(m.state.Entries)-1].At.Wall
	m = sitsAt(t, home, someone(clocked(at.Add(time.Second))...))
	m.reopens("260302A").works("sea/olive")
	m.agrees()
	m.leaves()
	m = sitsAt(t, home, someone(clocked(at.Add(time.Minute))...))
	m.setsUp()
	m.Send(up + enter)
	m.Sees("The batch was not started: the folder is read-only: make it writable")
	m.leaves()
	if out, err := someone("verify").CombinedOutput(); err != nil || !strings.Contains(string(out), "everything is whole") {
		t.Errorf("bench verify: %v\n%s", err, out)
	}
}
