package cells

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"bench/internal/scene"
)

// tones draws a cell of up to eight dots, of any kind or all of colours.
func tones(t *rapid.T) []tone {
	kinds := rapid.SampledFrom([][]kind{{filled}, {bare, inked, filled}, {bare, filled}, {bare, inked}}).Draw(t, "kinds")
	palette := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) tone {
		k := rapid.SampledFrom(kinds).Draw(t, "kind")
		if k != filled {
			return tone{kind: k}
		}
		c := scene.Colour{R: rapid.Byte().Draw(t, "r"), G: rapid.Byte().Draw(t, "g"), B: rapid.Byte().Draw(t, "b")}
		return tone{filled, c.Linear().Perceived()}
	}), 1, 4).Draw(t, "palette")
	n := rapid.SampledFrom([]int{2, 4, 6, 8}).Draw(t, "dots")
	return rapid.SliceOfN(rapid.SampledFrom(palette), n, n).Draw(t, "tones")
}

// shown is what a choice costs, dot by dot.
func shown(want []tone, mask int, fore, back tone) float64 {
	sum := 0.0
	for i, t := range want {
		if mask>>i&1 == 1 {
			sum += cost(fore, t)
		} else {
			sum += cost(back, t)
		}
	}
	return sum
}

// No two tones of the cell itself, parted in any way, come closer than the
// choice; the quick way for colours and the general one agree; and a terminal
// can show it: its ground is never in front, nor its writing's colour behind.
func TestTheBestTwoTones(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := chooser{tones: tones(t)}
		mask, fore, back := c.best()
		got := shown(c.tones, mask, fore, back)
		for _, a := range c.tones {
			for _, b := range c.tones {
				best := 0.0
				for _, want := range c.tones {
					best += math.Min(cost(a, want), cost(b, want))
				}
				if got > best+1e-9 {
					t.Fatalf("the choice costs %g; %v and %v cost %g", got, a, b, best)
				}
			}
		}
		if back.kind == inked || fore.kind == bare && mask != 0 {
			t.Fatalf("no terminal shows %v on %v", fore, back)
		}
	})
}

// A cell of two colours shows them as they are.
func TestTwoColoursAreShownAsTheyAre(t *testing.T) {
	sea, sky := scene.Colour{R: 0x2a, G: 0x6f, B: 0x7d}.Linear().Perceived(), scene.Colour{R: 0xa6, G: 0x70, B: 0x8c}.Linear().Perceived()
	c := chooser{tones: []tone{{filled, sky}, {filled, sea}, {filled, sea}, {filled, sea}}}
	mask, fore, back := c.best()
	if shown(c.tones, mask, fore, back) > 1e-12 || mask != 1 && mask != 14 {
		t.Errorf("%04b, %v on %v", mask, fore, back)
	}
}
