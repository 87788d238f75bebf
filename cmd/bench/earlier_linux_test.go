package main

import (
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"bench/internal/journal"
)

// earlier puts a store that an earlier program wrote into a new folder.
func earlier(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("../../testdata/stores", name))
	if err != nil {
		t.Fatal(err)
	}
	home := t.TempDir()
	if err := os.WriteFile(filepath.Join(home, "journal.db"), text, 0o600); err != nil {
		t.Fatal(err)
	}
	return home
}

// TestEarlierStores has every command that reads say the same of a store of any
// earlier version as it says once that is upgraded, and change nothing in it.
func TestEarlierStores(t *testing.T) {
	t.Parallel()
	stores, err := filepath.Glob("../../testdata/stores/*.db")
	if err != nil || len(stores) < 2 {
		t.Fatalf("%d stores, %v", len(stores), err)
	}
	varies := regexp.MustCompile(`, [0-9.]+ MB, in [0-9.]+ s|"(bytes|seconds)": [0-9.]+|DTSTAMP:\S+`)
	for _, store := range stores {
		t.Run(filepath.Base(store), func(t *testing.T) {
			t.Parallel()
			home, upgraded := earlier(t, filepath.Base(store)), earlier(t, filepath.Base(store))
			s, err := journal.Open(upgraded, journal.Options{})
			if err == nil {
				err = s.Close()
			}
			if err != nil {
				t.Fatal(err)
			}
			before := hashes(t, home)
			out := map[string]string{home: t.TempDir(), upgraded: t.TempDir()}
			for _, command := range []string{
				"record", "record 260302A", "record 260302A --format json", "record --format markdown", "record --all",
				"find", "find --recipe light", "find --material olive --json", "find --lot oo-1180", "find --note x", "find --to 2026-03-02",
				"due", "due --json", "label 260302A", "plan --batch 260303A", "face 260303A", "calendar OUT/days.ics",
				"verify", "verify --json", "backup OUT/monday.db",
			} {
				said := map[string]string{}
				var codes []int
				for _, in := range []string{home, upgraded} {
					// At a standing clock, so that both run at the same moment.
					args := append([]string{"--clock", "2026-03-09T09:00:00Z", "--clock-speed", "1e-6"}, strings.Fields(strings.ReplaceAll(command, "OUT", out[in]))...)
					text, code := runs(t, in, args...)
					said[in] = strings.ReplaceAll(varies.ReplaceAllString(text, "…"), out[in], "OUT")
					codes = append(codes, code)
				}
				if said[home] != said[upgraded] || codes[0] != codes[1] || codes[0] == exitUsage {
					t.Errorf("bench %s: exit status %d, and once upgraded %d\n%s\n%s", command, codes[0], codes[1], said[home], said[upgraded])
				}
			}
			if !maps.Equal(before, hashes(t, home)) {
				t.Error("the store was changed")
			}
			printed(t, home, "restore", filepath.Join(out[home], "monday.db"))
			if text := printed(t, home, "verify"); !strings.Contains(text, "2 batches, 134 facts") || !strings.Contains(text, "everything is whole") {
				t.Errorf("once restored: %s", text)
			}
		})
	}
}

// TestEarlierStoreReadOnly reads them where nothing may be written, and says so
// where that is asked.
func TestEarlierStoreReadOnly(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"version-1.db", "version-2.db"} {
		home, someone := unprivileged(t)
		store := filepath.Join(home, "journal.db")
		if err := os.Rename(filepath.Join(earlier(t, name), "journal.db"), store); err != nil {
			t.Fatal(err)
		}
		chmod(t, 0o444, store)
		chmod(t, 0o555, home)
		t.Cleanup(func() { chmod(t, 0o755, home) })
		for command, words := range map[string]string{"record 260302A": "batch closed", "find": "lighthouse at dusk", "verify": "everything is whole", "due": ""} {
			if out, err := someone(strings.Fields(command)...).CombinedOutput(); !strings.Contains(string(out), words) || strings.Contains(string(out), "bench:") {
				t.Errorf("%s: bench %s: %v\n%s", name, command, err, out)
			}
		}
	}
}
