package steps

import (
	"fmt"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/rest"
)

// Balance is where a batch's batter went: In is Loaves, Colours, Leftover and Rest.
type Balance struct {
	In       quantity.Mass // In is all that was weighed into the batters.
	Loaves   quantity.Mass // Loaves is what reached the moulds.
	Colours  quantity.Mass // Colours is what pots lacked after colours were wetted with their oil, and went into the loaves with them.
	Leftover quantity.Mass // Leftover was set aside and weighed, a sample bar included.
	Rest     quantity.Mass // Rest is in the vessels, or went nobody knows where.
	Planned  quantity.Mass // Planned is what the vessels are expected to keep.
	Vessels  int           // Vessels is how often one is expected to keep some.
	Each     quantity.Mass // Each is how much it keeps.
	Weighed  int           // Weighed is how many loaves were, out of their moulds; the others count as poured.
	Poured   bool          // Poured says that nothing is poured any more.
}

// The least rest beyond what is planned that is worth asking about, one part in so
// many of the batter: common practice, no source.
const unaccounted = 100

// balance follows the batter of all pots. What was poured into a mould is its
// portion, less what a vessel is expected to keep.
func (p *planner) balance(batters []Batter) Balance {
	b := Balance{Each: p.c.LeftInVessel, Poured: true}
	for _, pot := range batters {
		b.In += pot.Mass
	}
	for _, k := range p.pots {
		if len(k.parts) > 0 {
			b.Vessels++
		}
	}
	for _, r := range p.pours {
		b.Vessels++
		if len(r.portions) > 0 {
			b.Vessels += len(r.portions)
		}
		for loaf, l := range r.layer.Loaves {
			b.Poured = b.Poured && p.ticked(r.pourIDs[loaf])
			b.Loaves += l.Mass
		}
	}
	for loaf, m := range p.loaves {
		if d, _ := p.s.Done(rest.UnmouldID(loaf)); d.Mass > 0 {
			b.Weighed++
			b.Loaves += m - p.asPoured[loaf] - p.onTop(loaf)
		}
	}
	for _, piece := range batch.All[batch.SetAside](p.s) {
		if piece.Fact.Piece == batch.LeftoverBatter || piece.Fact.Piece == batch.SampleBar {
			b.Leftover += piece.Fact.Mass
		}
	}
	b.Planned = b.Each * quantity.Mass(b.Vessels)
	if n := len(p.loaves); n > 0 { // A loaf that was weighed has it.
		b.Colours = p.wentWithColours() * quantity.Mass(n-b.Weighed) / quantity.Mass(n)
	}
	b.Rest = b.In - b.Loaves - b.Colours - b.Leftover
	return b
}

// Beyond gives how much more is missing than the vessels are expected to keep; below
// zero more came out than went in. Zero is nothing worth asking about.
func (b Balance) Beyond() quantity.Mass {
	most := b.In / unaccounted
	switch over := b.Rest - b.Planned; {
	case !b.Poured:
		return 0
	case over > most:
		return over
	case b.Rest < -most:
		return b.Rest
	}
	return 0
}

// String says the balance in one line.
func (b Balance) String() string {
	words := fmt.Sprintf("weighed in %s g; in the loaves %s g", b.In.At(tenthOfGram), b.Loaves.At(tenthOfGram))
	if b.Weighed > 0 {
		words += fmt.Sprintf(" (%s weighed out of the mould)", quantity.Count(b.Weighed, "loaf", "loaves"))
	}
	if b.Colours > 0 {
		words += fmt.Sprintf("; about %s g of oil went with the colours", b.Colours.At(quantity.Gram))
	}
	if b.Leftover > 0 {
		words += fmt.Sprintf("; set aside %s g", b.Leftover.At(tenthOfGram))
	}
	percent := 0.0
	if b.In > 0 {
		percent = 100 * b.Rest.Grams() / b.In.Grams()
	}
	return words + fmt.Sprintf("; in vessels %s g (%.1f %%), expected %d times %s", b.Rest.At(tenthOfGram), percent, b.Vessels, b.Each)
}

const tenthOfGram = quantity.Gram / 10
