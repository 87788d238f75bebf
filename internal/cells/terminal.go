package cells

import (
	"slices"
	"strconv"
	"strings"
)

// PatternFor gives the finest pattern that is sure to show, as the environment
// tells: the terminal is never asked. BENCH_CELLS, if it names a pattern, says it
// all. Which terminals draw the newer characters is from memory; any other gets
// quadrants, which every font has had for thirty years.
func PatternFor(getenv func(string) string) Pattern {
	if own := Pattern(getenv("BENCH_CELLS")); slices.Contains(Patterns(), own) {
		return own
	}
	term := getenv("TERM")
	switch {
	case term == "dumb" || !speaksUTF8(getenv):
		return Plain
	case term == "linux":
		return Halves // Its font has 512 characters at most.
	case drawsSextants(term, getenv):
		return Sextants
	}
	return Quadrants
}

// speaksUTF8 reads the locale as POSIX ranks it (IEEE 1003.1, 8.2).
func speaksUTF8(getenv func(string) string) bool {
	for _, name := range []string{"LC_ALL", "LC_CTYPE", "LANG"} {
		if locale := getenv(name); locale != "" {
			set := strings.ToLower(strings.ReplaceAll(locale, "-", ""))
			return strings.Contains(set, "utf8")
		}
	}
	return false
}

// drawsSextants knows entries of the terminfo database whose terminals draw
// Unicode 13's blocks themselves, so that no font needs to have them. Within a
// multiplexer the terminal is unknown.
func drawsSextants(term string, getenv func(string) string) bool {
	if strings.HasPrefix(term, "tmux") || strings.HasPrefix(term, "screen") {
		return false
	}
	vte, _ := strconv.Atoi(getenv("VTE_VERSION"))
	return vte >= 6400 || strings.HasPrefix(term, "foot") || term == "xterm-kitty" || term == "xterm-ghostty"
}
