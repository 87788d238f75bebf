package form

import "math"

// Section is the cross-section of a straight mould, in millimetres. The floor
// is at height 0, the left wall at 0 and the right wall at Width.
type Section struct{ Width, Height float64 }

// Layer is one pour: the height of its finished surface in mm, and the embeds
// that it holds, in their final place.
type Layer struct {
	Surface float64
	Embeds  []Outline
}

// LayerFill is what a layer takes: its batter in mm² of the cross-section, its
// finished surface, and the pour line, the height of the surface before the
// layer's own embeds go in. Embeds of earlier layers that stand up into it
// are there already.
type LayerFill struct{ Area, Surface, PourLine float64 }

// FillLayers gives each layer's batter and pour line, floor first. The areas
// and the embeds below the last surface add up to the section below it. Embeds
// are taken to lie apart and within the walls, and surfaces to rise; check
// with Overlaps, WallDistance and Cover first.
func FillLayers(s Section, layers []Layer) []LayerFill {
	var embeds []Outline
	for _, l := range layers {
		embeds = append(embeds, l.Embeds...)
	}
	fills := make([]LayerFill, len(layers))
	base, standing := 0.0, 0
	for i, l := range layers {
		area := batterArea(s, base, l.Surface, embeds)
		fills[i] = LayerFill{
			Area:     area,
			Surface:  l.Surface,
			PourLine: SurfaceAfter(s, base, area, embeds[:standing]),
		}
		base = l.Surface
		standing += len(l.Embeds)
	}
	return fills
}

// SurfaceAfter gives the height that batter reaches when so much area of it is
// poured above base round embeds that stand there already. It may pass the
// section's height, which is for the caller to see.
func SurfaceAfter(s Section, base, area float64, embeds []Outline) float64 {
	low, high := base, base+area/s.Width
	for _, e := range embeds {
		high += AreaBetween(e, base, math.Inf(1)) / s.Width
	}
	for range 60 { // each halving keeps the surface between low and high
		if mid := (low + high) / 2; batterArea(s, base, mid, embeds) < area {
			low = mid
		} else {
			high = mid
		}
	}
	return high
}

// batterArea is what is left between two heights for batter.
func batterArea(s Section, from, to float64, embeds []Outline) float64 {
	area := s.Width * (to - from)
	for _, e := range embeds {
		area -= AreaBetween(e, from, to)
	}
	return math.Max(0, area)
}

// WallDistance gives the soap between an embed and the nearer wall in mm; it
// is negative for an embed that passes through the wall.
func WallDistance(s Section, o Outline) float64 {
	left, _, right, _ := o.Box()
	return math.Min(left, s.Width-right)
}

// FloorDistance gives the soap under an embed in mm, negative through the floor.
func FloorDistance(o Outline) float64 {
	_, bottom, _, _ := o.Box()
	return bottom
}

// Cover gives the soap over an embed in mm up to a surface; it is negative for
// an embed that stands proud of it.
func Cover(o Outline, surface float64) float64 {
	_, _, _, top := o.Box()
	return surface - top
}
