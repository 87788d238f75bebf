package cells

import "testing"

func TestPatternFor(t *testing.T) {
	utf8 := map[string]string{"LANG": "en_GB.UTF-8"}
	for _, c := range []struct {
		name string
		env  map[string]string
		want Pattern
	}{
		{"nothing is known", nil, Plain},
		{"another character set", map[string]string{"LANG": "de_DE.ISO-8859-1", "TERM": "xterm"}, Plain},
		{"LC_ALL goes before LANG", map[string]string{"LC_ALL": "C", "LANG": "en_GB.UTF-8"}, Plain},
		{"an empty LC_ALL does not", map[string]string{"LC_ALL": "", "LC_CTYPE": "C.utf8", "TERM": "xterm-256color"}, Quadrants},
		{"dumb", map[string]string{"TERM": "dumb"}, Plain},
		{"any terminal", map[string]string{"TERM": "xterm-256color"}, Quadrants},
		{"the console", map[string]string{"TERM": "linux"}, Halves},
		{"one that draws blocks", map[string]string{"TERM": "foot"}, Sextants},
		{"by its version", map[string]string{"TERM": "xterm-256color", "VTE_VERSION": "7006"}, Sextants},
		{"too old for them", map[string]string{"TERM": "xterm-256color", "VTE_VERSION": "5202"}, Quadrants},
		{"behind a multiplexer", map[string]string{"TERM": "tmux-256color", "VTE_VERSION": "7006"}, Quadrants},
		{"by order", map[string]string{"TERM": "dumb", "BENCH_CELLS": "octants"}, Octants},
		{"by an order that is none", map[string]string{"TERM": "xterm", "BENCH_CELLS": "pixels"}, Quadrants},
	} {
		got := PatternFor(func(name string) string {
			if v, ok := c.env[name]; ok {
				return v
			}
			if c.name == "nothing is known" {
				return ""
			}
			return utf8[name]
		})
		if got != c.want {
			t.Errorf("%s: %s, not %s", c.name, got, c.want)
		}
	}
}
