package form

import "math"

// Layer is one pour: its finished surface, and the embeds that it holds.
type Layer struct {
	Surface Line
	Embeds  []Embed
}

// Embed is an outline in its final place. One that Stands is there before its
// layer is poured; others are pressed in after. One that is Out was left out: its
// place is known, and it takes no room.
type Embed struct {
	Outline
	Stands, Out bool
}

// Moved shifts the embed.
func (e Embed) Moved(dx, dy float64) Outline { return Embed{e.Outline.Moved(dx, dy), e.Stands, e.Out} }

// LayerFill is what a layer takes: its batter, as area of the cross-section in
// mm² and as volume in mm³, its finished surface, and the pour line, the
// surface before the layer's own embeds are pressed in. Embeds of earlier
// layers that stand up into it are there already.
type LayerFill struct {
	Area, Volume      float64
	Surface, PourLine Line
}

// FillLayers gives each layer's batter and pour line, floor first. The areas
// and the embeds below the last surface add up to the section below it. Embeds
// are taken to lie apart and within the walls, and each surface above the one
// before; check with Overlaps, WallDistance and Cover first.
func FillLayers(s Section, layers []Layer) []LayerFill {
	var embeds, standing []Embed
	for _, l := range layers {
		embeds = append(embeds, l.Embeds...)
	}
	fills := make([]LayerFill, len(layers))
	base, inside := Level(0), s.Outline()
	below := s.free(inside, base, embeds)
	for i, l := range layers {
		before, after := l.parted()
		standing = append(standing, before...)
		whole := s.free(inside, l.Surface, embeds)
		part := whole.Less(below)
		fill := LayerFill{Area: math.Max(0, part.Area), Volume: math.Max(0, s.Volume(part)), Surface: l.Surface}
		fill.PourLine = s.surfaceAfter(inside, base, l.Surface.Slope, fill.Volume, standing)
		fills[i] = fill
		standing = append(standing, after...)
		base, below = l.Surface, whole
	}
	return fills
}

// parted gives the embeds that are there before the pour, and those that
// follow; one that was left out is neither.
func (l Layer) parted() (before, after []Embed) {
	for _, e := range l.Embeds {
		switch {
		case e.Out:
		case e.Stands:
			before = append(before, e)
		default:
			after = append(after, e)
		}
	}
	return before, after
}

// SurfaceAfter gives the surface, of that slope, that batter reaches when so
// many mm³ of it are poured above base round embeds that are there already.
// Surfaces that cross between the walls count as less where the new one is
// lower. Over the rim the walls are taken to go straight up: whether it may lie
// there is for the caller to see.
func SurfaceAfter(s Section, base Line, slope, volume float64, embeds []Embed) Line {
	return s.surfaceAfter(s.Outline(), base, slope, volume, embeds)
}

func (s Section) surfaceAfter(inside Outline, base Line, slope, volume float64, embeds []Embed) Line {
	width := s.Width()
	below := s.free(inside, base, embeds)
	at := func(y float64) Line { return Through(Point{width / 2, y}, slope) }
	over := func(y float64) float64 { return s.Volume(s.free(inside, at(y), embeds).Less(below)) - volume }
	low := base.Height(width/2) - math.Abs(base.Slope-slope)*width/2
	high := s.Height + math.Abs(slope)*width/2
	if missing := -over(high); missing >= 0 || low >= high {
		return at(math.Max(low, high) + math.Max(0, missing)/(width*(s.Long+s.Lean*s.Height)))
	}
	return at(rootOf(over, low, high))
}

// rootOf finds where a rising function passes zero between two places: regula
// falsi, with the end that stays put halved (the Illinois rule; M. Dowell and
// P. Jarratt, BIT 11, 1971), and with halvings in between so that a step in the
// function cannot hold it up.
func rootOf(f func(float64) float64, low, high float64) float64 {
	const near = 1e-10 // mm
	fLow, fHigh := f(low), f(high)
	if fLow >= 0 {
		return low
	}
	for i := 0; high-low > near && i < 200; i++ {
		middle := (low + high) / 2
		if i%3 != 2 {
			middle = math.Max(low+near/4, math.Min(high-near/4, high-fHigh*(high-low)/(fHigh-fLow)))
		}
		switch v := f(middle); {
		case v == 0:
			return middle
		case v < 0:
			low, fLow, fHigh = middle, v, fHigh/2
		default:
			high, fHigh, fLow = middle, v, fLow/2
		}
	}
	return high
}

// free is what embeds leave of the inside of a mould under a surface.
func (s Section) free(inside Outline, under Line, embeds []Embed) Part {
	under = s.capped(under)
	left := inside.Under(under)
	for _, e := range embeds {
		left = left.Less(e.Under(under))
	}
	return left
}

// capped lowers a level surface to the rim, so that what stands proud of the
// mould displaces nothing in it.
func (s Section) capped(l Line) Line {
	if l.Slope == 0 {
		return Level(math.Min(l.At, s.Height))
	}
	return l
}
