package main

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"
)

func TestExitCodes(t *testing.T) {
	dir := t.TempDir()
	good, bad := filepath.Join(dir, "good.yaml"), filepath.Join(dir, "bad.yaml")
	write(t, good, "bench: 1\nrecipe: Pier\nbatters:\n  - { name: a, oils: { olive: 100 % } }\nlayers:\n  - { name: b, surface: 50 mm }\n")
	write(t, bad, "bench: 1\nrecipe: Pier\n")
	for _, c := range []struct {
		name string
		args []string
		want int
	}{
		{"clean", []string{"check", good}, exitClean},
		{"problems", []string{"check", good, bad}, exitProblems},
		{"no file named", []string{"check"}, exitUsage},
		{"a file that is not there", []string{"check", filepath.Join(dir, "none.yaml")}, exitUsage},
		{"help", []string{"--help"}, exitClean},
		{"unknown command", []string{"boil"}, exitUsage},
		{"plan of a broken recipe", []string{"plan", bad}, exitProblems},
		{"no batches yet", []string{"record"}, exitProblems},
		{"nothing due", []string{"due"}, exitClean},
		{"no terminal", []string{}, exitClean},
	} {
		t.Run(c.name, func(t *testing.T) {
			var out, complaints bytes.Buffer
			got := run(c.args, streams{out: &out, err: &complaints, getenv: func(key string) string {
				return map[string]string{"BENCH_HOME": filepath.Join(dir, "home")}[key]
			}})
			if got != c.want {
				t.Errorf("exit %d, want %d; said %q", got, c.want, complaints.String())
			}
		})
	}
}

func TestFolders(t *testing.T) {
	for _, c := range []struct {
		name string
		env  map[string]string
		want string
	}{
		{"BENCH_HOME first", map[string]string{"BENCH_HOME": "/harbour", "XDG_DATA_HOME": "/data"}, "/harbour"},
		{"then the XDG data folder", map[string]string{"XDG_DATA_HOME": "/data"}, "/data/bench"},
		{"a relative one is ignored", map[string]string{"XDG_DATA_HOME": "data"}, "/home/keeper/.local/share/bench"},
		{"then the default of the XDG specification", nil, "/home/keeper/.local/share/bench"},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Setenv("HOME", "/home/keeper")
			a := &app{streams: streams{getenv: func(key string) string { return c.env[key] }}}
			got, err := a.home()
			if err != nil || got != c.want {
				t.Errorf("home %q, %v; want %q", got, err, c.want)
			}
		})
	}
}

func write(t *testing.T, path, text string) {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
}
