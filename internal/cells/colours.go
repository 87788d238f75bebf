package cells

import (
	"cmp"
	"math"
	"slices"

	"bench/internal/scene"
)

// sixteen are the colours of ECMA-48 and their bright twins as xterm shows them
// unless told otherwise (from memory); every terminal has its own.
//
//nolint:gochecknoglobals // A table.
var sixteen = colours(
	0x000000, 0xcd0000, 0x00cd00, 0xcdcd00, 0x0000ee, 0xcd00cd, 0x00cdcd, 0xe5e5e5,
	0x7f7f7f, 0xff0000, 0x00ff00, 0xffff00, 0x5c5cff, 0xff00ff, 0x00ffff, 0xffffff,
)

func colours(codes ...uint32) []scene.Colour {
	var list []scene.Colour
	for _, c := range codes {
		list = append(list, scene.Colour{R: uint8(c >> 16), G: uint8(c >> 8), B: uint8(c)})
	}
	return list
}

// nearest gives the number of the colour that looks most like c.
func nearest(c scene.Perceived, colours []scene.Colour) int {
	best, least := 0, math.Inf(1)
	for n, colour := range colours {
		if d := c.Apart(colour.Linear().Perceived()); d < least {
			best, least = n, d
		}
	}
	return best
}

func colourOf(c scene.Perceived) scene.Colour { return c.Linear().Colour() }

// sixteenFor gives each fill a colour of the sixteen: the most alike that none
// before it has, so that neighbours stay apart. Patterns are served in their
// order, so that a fill keeps its colour when more are added, and what has none
// comes last. Black and dark grey are left out: they are the ground of many
// terminals.
func sixteenFor(s scene.Scene) map[int]int {
	own, of, taken := map[int]int{}, map[scene.Colour]int{}, map[int]bool{0: true, 8: true}
	for _, i := range served(s) {
		shape := s.Shapes[i]
		n, ok := of[shape.Fill.Colour]
		if !ok {
			n = alike(shape.Fill.Colour, taken)
			of[shape.Fill.Colour], taken[n] = n, true
		}
		own[i] = n
	}
	return own
}

// served gives the numbers of the filled shapes in the order of their patterns.
func served(s scene.Scene) []int {
	var filled []int
	for i, shape := range s.Shapes {
		if shape.Fill.On {
			filled = append(filled, i)
		}
	}
	rank := func(i int) int {
		if pattern := s.Shapes[i].Fill.Pattern; pattern > 0 {
			return pattern
		}
		return math.MaxInt
	}
	slices.SortStableFunc(filled, func(a, b int) int { return cmp.Compare(rank(a), rank(b)) })
	return filled
}

// alike finds the free colour of the sixteen that one would call by the same
// name: the same hue first, then as light. Soap is seldom as strong in colour as
// these are, so how strong it is decides only whether it is grey.
func alike(c scene.Colour, taken map[int]bool) int {
	best, least := 7, math.Inf(1)
	want := c.Linear().Perceived()
	for n, colour := range sixteen {
		if taken[n] {
			continue
		}
		have := colour.Linear().Perceived()
		d := (want[0] - have[0]) * (want[0] - have[0])
		a, b := hue(want), hue(have)
		d += (a[0]-b[0])*(a[0]-b[0]) + (a[1]-b[1])*(a[1]-b[1])
		if d < least {
			best, least = n, d
		}
	}
	return best
}

// greyish is the strength of colour in Oklab from which a hue counts in full.
const greyish = 0.06

// hue gives the direction of a colour, shorter the greyer it is.
func hue(c scene.Perceived) [2]float64 {
	strength := math.Hypot(c[1], c[2])
	full := max(strength, greyish)
	return [2]float64{c[1] / full, c[2] / full}
}
