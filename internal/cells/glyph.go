package cells

import "slices"

// A mask has a bit for each dot of a cell, row by row from the top left, the
// first dot in the lowest bit.

// quadrants are the characters of two by two dots (Unicode, Block Elements).
var quadrants = []rune(" ▘▝▀▖▌▞▛▗▚▐▜▄▙▟█") //nolint:gochecknoglobals // A table.

// glyphOf gives the character that shows the mask in the foreground's colour.
func glyphOf(p Pattern, mask int) rune {
	switch p {
	case Halves:
		return quadrants[mask&1*3+mask>>1*12]
	case Quadrants:
		return quadrants[mask]
	case Sextants:
		return sextant(mask)
	case Octants:
		return octant(mask)
	case Braille:
		return brailleOf(mask)
	case Plain:
	}
	return ' '
}

// sextant gives a character of two by three dots. Unicode 13 lists them by their
// mask (Symbols for Legacy Computing), less four that were there before.
func sextant(mask int) rune {
	switch mask {
	case 0:
		return ' '
	case 0b010101:
		return '▌'
	case 0b101010:
		return '▐'
	case 0b111111:
		return '█'
	}
	r := rune(0x1fb00 + mask - 1)
	if mask > 0b010101 {
		r--
	}
	if mask > 0b101010 {
		r--
	}
	return r
}

// older are the masks of two by four dots that had a character before Unicode
// 16, in rising order, and oldRunes their characters: quarters and quadrants.
//
//nolint:gochecknoglobals // Tables.
var (
	older = []int{
		0x00, 0x01, 0x02, 0x03, 0x05, 0x0a, 0x0f, 0x14, 0x28, 0x3f, 0x40, 0x50, 0x55,
		0x5a, 0x5f, 0x80, 0xa0, 0xa5, 0xaa, 0xaf, 0xc0, 0xf0, 0xf5, 0xfa, 0xfc, 0xff,
	}
	oldRunes = []rune{
		' ', 0x1cea8, 0x1ceab, 0x1fb82, '▘', '▝', '▀', 0x1fbe6, 0x1fbe7, 0x1fb85, 0x1cea3, '▖', '▌',
		'▞', '▛', 0x1cea0, '▗', '▚', '▐', '▜', '▂', '▄', '▙', '▟', '▆', '█',
	}
)

// octant gives a character of two by four dots. Unicode 16 lists them by their
// mask (Symbols for Legacy Computing Supplement), less the older ones.
func octant(mask int) rune {
	at, old := slices.BinarySearch(older, mask)
	if old {
		return oldRunes[at]
	}
	return rune(0x1cd00 + mask - at)
}

// brailleOf gives a pattern of eight dots. Unicode numbers the bits down the
// left column, down the right one, and then along the last row.
func brailleOf(mask int) rune {
	r := rune(0x2800)
	for dot, bit := range [8]rune{0x01, 0x08, 0x02, 0x10, 0x04, 0x20, 0x40, 0x80} {
		if mask>>dot&1 == 1 {
			r |= bit
		}
	}
	return r
}
