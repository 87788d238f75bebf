package quiet_test

import (
	"testing"

	"github.com/muesli/termenv"

	"bench/internal/quiet"
)

// NO_COLOR is as no-color.org has it (any value but an empty one), CLICOLOR as
// bixense.com/clicolors has it; both read in termenv's documentation.
func TestProfile(t *testing.T) {
	tests := []struct {
		name string
		env  map[string]string
		want termenv.Profile
	}{
		{"nothing known of the terminal", map[string]string{}, termenv.Ascii},
		{"many colours", map[string]string{"TERM": "xterm-256color"}, termenv.ANSI256},
		{"all colours", map[string]string{"TERM": "xterm-256color", "COLORTERM": "truecolor"}, termenv.TrueColor},
		{"console", map[string]string{"TERM": "linux"}, termenv.ANSI},
		{"no colour wished", map[string]string{"TERM": "xterm-256color", "COLORTERM": "truecolor", "NO_COLOR": "1"}, termenv.Ascii},
		{"an empty wish is none", map[string]string{"TERM": "xterm-256color", "NO_COLOR": ""}, termenv.ANSI256},
		{"no colour by the older wish", map[string]string{"TERM": "xterm-256color", "CLICOLOR": "0"}, termenv.Ascii},
		{"dumb", map[string]string{"TERM": "dumb"}, termenv.Ascii},
		{"dumb within a better one", map[string]string{"TERM": "dumb", "COLORTERM": "truecolor"}, termenv.Ascii},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := quiet.Profile(func(key string) string { return tt.env[key] }); got != tt.want {
				t.Errorf("%v, want %v", got.Name(), tt.want.Name())
			}
		})
	}
}
