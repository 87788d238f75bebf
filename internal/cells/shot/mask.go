package shot

import (
	_ "embed"
	"fmt"
	"strings"
	"sync"

	"golang.org/x/text/unicode/runenames"
)

// blockNames are the names of Unicode's older block characters, with the dots
// of two by four that they fill.
//
//nolint:gochecknoglobals // A table.
var blockNames = map[string]int{
	"SPACE": 0, "FULL BLOCK": 0xff, "LEFT HALF BLOCK": 0x55, "RIGHT HALF BLOCK": 0xaa,
	"UPPER HALF BLOCK": 0x0f, "LOWER HALF BLOCK": 0xf0,
	"LOWER ONE QUARTER BLOCK": 0xc0, "LOWER THREE QUARTERS BLOCK": 0xfc,
	"UPPER ONE QUARTER BLOCK": 0x03, "UPPER THREE QUARTERS BLOCK": 0x3f,
	"LEFT HALF UPPER ONE QUARTER BLOCK": 0x01, "RIGHT HALF UPPER ONE QUARTER BLOCK": 0x02,
	"LEFT HALF LOWER ONE QUARTER BLOCK": 0x40, "RIGHT HALF LOWER ONE QUARTER BLOCK": 0x80,
	"MIDDLE LEFT ONE QUARTER BLOCK": 0x14, "MIDDLE RIGHT ONE QUARTER BLOCK": 0x28,
}

//go:embed unicode16.txt
var newer string

// newerNames are names that the library's tables are too old for.
//
//nolint:gochecknoglobals // A table, read once.
var newerNames = sync.OnceValue(func() map[rune]string {
	names := map[rune]string{}
	for line := range strings.Lines(newer) {
		var r rune
		if code, name, ok := strings.Cut(strings.TrimSpace(line), ";"); ok {
			if _, err := fmt.Sscanf(code, "%X", &r); err == nil {
				names[r] = name
			}
		}
	}
	return names
})

func nameOf(r rune) string {
	if name, ok := newerNames()[r]; ok {
		return name
	}
	return runenames.Name(r)
}

// maskOf reads from a character's name in Unicode which dots of its cell it
// fills, row by row from the top left. It shares nothing with cells' tables.
func maskOf(r rune) (across, down, mask int, ok bool) {
	name := nameOf(r)
	if m, ok := blockNames[name]; ok {
		return 2, 4, m, true
	}
	if places, ok := strings.CutPrefix(name, "QUADRANT "); ok {
		for i, place := range []string{"UPPER LEFT", "UPPER RIGHT", "LOWER LEFT", "LOWER RIGHT"} {
			if strings.Contains(places, place) {
				mask |= 1 << i
			}
		}
		return 2, 2, mask, true
	}
	if digits, ok := strings.CutPrefix(name, "BLOCK SEXTANT-"); ok {
		return 2, 3, numbered(digits), true
	}
	if digits, ok := strings.CutPrefix(name, "BLOCK OCTANT-"); ok {
		return 2, 4, numbered(digits), true
	}
	if digits, ok := strings.CutPrefix(name, "BRAILLE PATTERN DOTS-"); ok {
		// Braille counts down the columns.
		for _, d := range digits {
			mask |= 1 << [...]int{0, 2, 4, 1, 3, 5, 6, 7}[d-'1']
		}
		return 2, 4, mask, true
	}
	return 0, 0, 0, false
}

func numbered(digits string) int {
	mask := 0
	for _, d := range digits {
		mask |= 1 << (d - '1')
	}
	return mask
}

// Mask tells which dots a character fills, by its Unicode name.
func Mask(r rune) (across, down, mask int, ok bool) { return maskOf(r) }
