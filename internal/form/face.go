package form

import "slices"

// Face is the cut face of one loaf: the inside of its mould and what lies in
// it, floor first.
type Face struct {
	Section Section
	Layers  []FaceLayer
}

// FaceLayer is a layer on the cut face: its finished surface, the pour line
// before its own embeds are pressed in, and the embeds where they come to lie,
// in the order in which they are listed.
type FaceLayer struct {
	Surface, PourLine Line
	Embeds            []Embed
}

// Pour follows a loaf up through its layers, by what is poured into it. The zero
// value, with its Section, is an empty mould.
type Pour struct {
	Section  Section
	inside   Outline
	base     Line
	standing []Embed
}

// Next pours so many mm³ for a layer drawn as l, and gives where things really
// come to lie. Embeds keep their distance to the surface that they are pressed
// into; one that stands keeps it to the surface that it stands on.
func (p *Pour) Next(l Layer, drawnOn Line, volume float64) FaceLayer {
	if p.inside == nil {
		p.inside = p.Section.Outline()
	}
	middle := p.Section.Width() / 2
	before, after := l.parted()
	face := FaceLayer{Embeds: make([]Embed, len(l.Embeds))}
	up := p.base.Height(middle) - drawnOn.Height(middle)
	p.standing = append(p.standing, moved(before, up)...)
	face.PourLine = p.Section.surfaceAfter(p.inside, p.base, l.Surface.Slope, volume, p.standing)
	face.Surface = face.PourLine
	if len(after) > 0 {
		displaced := Part{}
		for _, e := range after {
			displaced = displaced.plus(e.Under(l.Surface))
		}
		face.Surface = p.Section.surfaceAfter(p.inside, p.base, l.Surface.Slope, volume+p.Section.Volume(displaced), p.standing)
	}
	sunk := face.Surface.At - l.Surface.At
	p.standing = append(p.standing, moved(after, sunk)...)
	for i, e := range l.Embeds {
		dy := sunk
		if e.Stands {
			dy = up
		}
		face.Embeds[i] = moved([]Embed{e}, dy)[0]
	}
	p.base = face.Surface
	return face
}

// Needs gives how many mm³ bring the next layer to the surface that it is drawn
// with: poured with Next, they end there.
func (p *Pour) Needs(l Layer, drawnOn Line) float64 {
	inside, middle := p.Section.Outline(), p.Section.Width()/2
	before, after := l.parted()
	standing := append(slices.Clone(p.standing), moved(before, p.base.Height(middle)-drawnOn.Height(middle))...)
	need := p.Section.Volume(p.Section.free(inside, l.Surface, standing).Less(p.Section.free(inside, p.base, standing)))
	for _, e := range after {
		need -= p.Section.Volume(e.Under(l.Surface))
	}
	return max(0, need)
}

func moved(embeds []Embed, dy float64) []Embed {
	out := make([]Embed, len(embeds))
	for i, e := range embeds {
		out[i] = Embed{e.Outline.Moved(0, dy), e.Stands, e.Out}
	}
	return out
}
