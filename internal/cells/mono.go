package cells

import "bench/internal/scene"

// hatches tell fills apart by where their dots stand, in dots from the top left:
// neighbours differ in direction and in darkness. The first is for what is blank.
//
//nolint:gochecknoglobals // A table.
var hatches = []func(x, y int) bool{
	func(int, int) bool { return false },
	func(x, y int) bool { return (x+y)%2 == 0 },
	func(x, y int) bool { return x%4 == 0 && y%4 == 0 || x%4 == 2 && y%4 == 2 },
	func(x, y int) bool { return (x+y)%4 == 0 },
	func(_, y int) bool { return y%2 == 0 },
	func(x, y int) bool { return (x-y)&3 == 0 },
	func(x, _ int) bool { return x%2 == 0 },
}

// hatchLetters do the same where a cell is one character.
const hatchLetters = " #.=:o%"

// hatchOf gives the number of the pattern that a shape is filled with.
func hatchOf(s scene.Scene, shape int) int {
	if shape < 0 || s.Shapes[shape].Fill.Pattern <= 0 {
		return 0
	}
	return 1 + (s.Shapes[shape].Fill.Pattern-1)%(len(hatches)-1)
}

// braille gives the cell at a dot: hatched fills and solid lines.
func braille(s scene.Scene, dots *scene.Dots, x, y int) rune {
	return brailleWhere(x, y, func(x, y int) bool { return raised(s, dots, x, y) })
}

// thinLines gives the cell at a dot with its lines only, to stand beside blocks.
func thinLines(dots *scene.Dots, x, y int) rune {
	return brailleWhere(x, y, func(x, y int) bool { return dots.At(x, y).Drawn })
}

// brailleWhere gives the cell of two by four dots that begins at a dot.
func brailleWhere(x, y int, raised func(x, y int) bool) rune {
	mask := 0
	for i := range 8 {
		if raised(x+i%2, y+i/2) {
			mask |= 1 << i
		}
	}
	if mask == 0 {
		return ' '
	}
	return brailleOf(mask)
}

// raised says that a dot shows: as part of a line, or of a hatch that keeps clear
// of lines.
func raised(s scene.Scene, dots *scene.Dots, x, y int) bool {
	d := dots.At(x, y)
	if d.Drawn || !hatches[hatchOf(s, d.Top)](x, y) {
		return d.Drawn
	}
	return !drawn(dots, x-1, y) && !drawn(dots, x+1, y) && !drawn(dots, x, y-1) && !drawn(dots, x, y+1)
}

func drawn(dots *scene.Dots, x, y int) bool {
	return x >= 0 && y >= 0 && x < dots.W && y < dots.H && dots.At(x, y).Drawn
}

// plain gives the cell at a dot as one of ASCII's characters. A line goes the way
// it comes from: across, upright, or else a corner.
func plain(s scene.Scene, dots *scene.Dots, x, y int) rune {
	d := dots.At(x, y)
	across, upright := drawn(dots, x-1, y) || drawn(dots, x+1, y), drawn(dots, x, y-1) || drawn(dots, x, y+1)
	switch {
	case !d.Drawn:
		return rune(hatchLetters[hatchOf(s, d.Top)])
	case across && !upright:
		return '-'
	case upright && !across:
		return '|'
	}
	return '+'
}
