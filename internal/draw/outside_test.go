package draw

import (
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"
)

// TestNoticesFor gives a notice to terminals that are known to have one, and to
// those that are told; to no other.
func TestNoticesFor(t *testing.T) {
	for name, c := range map[string]struct {
		env  map[string]string
		want string
	}{
		"unknown":         {map[string]string{"TERM": "xterm-256color"}, ""},
		"none":            {nil, ""},
		"by its name":     {map[string]string{"TERM": "xterm-kitty"}, osc99},
		"by its program":  {map[string]string{"TERM": "xterm-256color", "TERM_PROGRAM": "iTerm.app"}, osc9},
		"within another":  {map[string]string{"TERM": "xterm-kitty", "TMUX": "/tmp/tmux-0/default,1,0"}, ""},
		"name of another": {map[string]string{"TERM": "screen-256color", "TERM_PROGRAM": "WezTerm"}, ""},
		"told":            {map[string]string{"TERM": "xterm-256color", "BENCH_NOTICES": "osc777"}, osc777},
		"told not to":     {map[string]string{"TERM": "foot", "BENCH_NOTICES": "off"}, ""},
		"told nonsense":   {map[string]string{"TERM": "foot", "BENCH_NOTICES": "loud"}, osc777},
	} {
		if got := noticesFor(func(key string) string { return c.env[key] }); got != c.want {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}

// Whatever an alarm is called, a notice is one control string with nothing in it
// that would end it or part it.
func TestNoticeText(t *testing.T) {
	for text, want := range map[string]string{
		"unmould 3 loaves (Tide lines, batch 26K25A)": "unmould 3 loaves (Tide lines, batch 26K25A)",
		"a;b\x1b\\c\ad\u009ce\nf\u202eg":              "a,b\\cdefg",
		strings.Repeat("é", 500):                      strings.Repeat("é", longestNotice),
	} {
		if got := noticeText(text); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.String().Draw(t, "text")
		if got := noticeText(text); strings.ContainsAny(got, ";\x1b\a") || strings.ContainsFunc(got, unicode.IsControl) {
			t.Fatalf("%q", got)
		}
	})
}
