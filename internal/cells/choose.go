package cells

import "bench/internal/scene"

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
type chooser struct{ tones []tone }

// best tries every way to part the dots in two: at most 128, and only in cells
// that an edge runs through.
func (c *chooser) best() (mask int, fore, back tone) {
	first, same := c.tones[0], true
	for _, t := range c.tones[1:] {
		same = same && t == first
	}
	if same {
		return c.whole(first)
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
		if sum := c.sum(t, mask, bit); least < 0 || sum < least {
			best, least = t, sum
		}
	}
	return best, least
}

func (c *chooser) sum(t tone, mask, bit int) float64 {
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
