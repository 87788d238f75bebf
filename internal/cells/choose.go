package cells

import (
	"math"
	"math/bits"

	"bench/internal/scene"
)

// tone is what a dot should look like.
type tone struct {
	kind   kind
	colour scene.Perceived
}

type kind uint8

// A dot is bare, so that the terminal's own ground shows; in the colour of its
// writing; or in a colour.
const (
	bare kind = iota
	inked
	filled
)

// What it costs to show a dot as another kind: more than any two colours of
// soap are apart (white to black is 1 in Oklab, squared).
const (
	lostFill = 2.0
	lostInk  = 1.2
)

// cost gives how wrong it is to show t where a dot wants to be want.
func cost(t, want tone) float64 {
	switch {
	case t.kind == filled && want.kind == filled:
		return t.colour.Apart(want.colour)
	case t.kind == want.kind:
		return 0
	case want.kind == filled:
		return lostFill
	}
	return lostInk
}

// chooser finds the two tones of a cell, and which dots have the first.
type chooser struct {
	tones []tone
	sums  [256]sum // sums are those of each set of dots, for cells that are all filled.
}

// sum adds up the colours of a set of dots, and their squares.
type sum struct {
	colour  scene.Perceived
	squares float64
	n       float64
}

// best tries every way to part the dots in two: at most 128, and only in cells
// that an edge runs through.
func (c *chooser) best() (mask int, fore, back tone) {
	first, same, solid := c.tones[0], true, true
	for _, t := range c.tones {
		same = same && t == first
		solid = solid && t.kind == filled
	}
	switch {
	case same:
		return c.whole(first)
	case solid:
		return c.bestFilled()
	}
	least := -1.0
	for m := range 1 << (len(c.tones) - 1) { // The last dot is always in the back.
		f, atFore := c.side(m, 1)
		b, atBack := c.side(m, 0)
		if sum := atFore + atBack; least < 0 || sum < least-1e-12 {
			least, mask, fore, back = sum, m, f, b
		}
	}
	return c.ordered(mask, fore, back)
}

// bestFilled is best where all dots have colours: what a side costs is then the
// sum of its squares less n times its mean's, which a table gives for any side.
func (c *chooser) bestFilled() (mask int, fore, back tone) {
	all := 1<<len(c.tones) - 1
	for m := 1; m <= all; m++ {
		low := bits.TrailingZeros(uint(m))
		s, t := c.sums[m&(m-1)], c.tones[low].colour
		for k := range t {
			s.colour[k] += t[k]
			s.squares += t[k] * t[k]
		}
		s.n++
		c.sums[m] = s
	}
	least := math.Inf(1)
	for m := range 1 << (len(c.tones) - 1) {
		if cost := c.sums[m].spread() + c.sums[all-m].spread(); cost < least-1e-12 {
			least, mask = cost, m
		}
	}
	return c.ordered(mask, c.sums[mask].mean(), c.sums[all-mask].mean())
}

func (s sum) spread() float64 {
	if s.n == 0 {
		return 0
	}
	square := 0.0
	for _, v := range s.colour {
		square += v * v
	}
	return s.squares - square/s.n
}

func (s sum) mean() tone {
	for k := range s.colour {
		s.colour[k] /= max(1, s.n)
	}
	return tone{filled, s.colour}
}

// whole shows a cell of one tone.
func (c *chooser) whole(t tone) (mask int, fore, back tone) {
	if t.kind == inked {
		return 1<<len(c.tones) - 1, t, tone{}
	}
	return 0, tone{}, t
}

// side gives the tone that suits the dots of one side best, and what it costs.
func (c *chooser) side(mask, bit int) (tone, float64) {
	var mean tone
	counts := [3]int{}
	for i, t := range c.tones {
		if mask>>i&1 != bit {
			continue
		}
		counts[t.kind]++
		if t.kind == filled {
			for k := range mean.colour {
				mean.colour[k] += t.colour[k]
			}
		}
	}
	for k := range mean.colour {
		mean.colour[k] /= float64(max(1, counts[filled]))
	}
	best, least := tone{}, -1.0
	for k, n := range counts {
		if n == 0 && !(k == int(bare) && least < 0) {
			continue
		}
		t := tone{kind: kind(k)}
		if t.kind == filled {
			t.colour = mean.colour
		}
		if sum := c.price(t, mask, bit); least < 0 || sum < least {
			best, least = t, sum
		}
	}
	return best, least
}

func (c *chooser) price(t tone, mask, bit int) float64 {
	sum := 0.0
	for i, want := range c.tones {
		if mask>>i&1 == bit {
			sum += cost(t, want)
		}
	}
	return sum
}

// ordered turns a cell over where it must be: the ground can only be behind,
// and the writing's colour only in front.
func (c *chooser) ordered(mask int, fore, back tone) (int, tone, tone) {
	if fore.kind == bare && back.kind != bare || back.kind == inked && fore.kind != inked {
		return 1<<len(c.tones) - 1 - mask, back, fore
	}
	if fore == back {
		return c.whole(fore)
	}
	return mask, fore, back
}
