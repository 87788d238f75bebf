package recipe

import (
	"math"

	"bench/internal/form"
	"bench/internal/quantity"
)

// MouldKind is the shape of a mould.
type MouldKind string

// The kinds of mould. The empty one is a loaf.
const (
	LoafMould     MouldKind = "loaf"           // LoafMould lies, and is cut across.
	SlabMould     MouldKind = "slab"           // SlabMould is flat, and is cut both ways.
	CylinderMould MouldKind = "cylinder"       // CylinderMould stands upright.
	LyingMould    MouldKind = "lying cylinder" // LyingMould is a cylinder on its side, open along the top.
	CavityMould   MouldKind = "cavities"       // CavityMould is known by its volume alone.
)

// Mould is a mould by its inner measures, and how many of it there are. In a
// batch any liner is taken off already and a diameter is the width.
type Mould struct {
	Name   string
	Length quantity.Length // Length at the rim; zero for what does not lie.
	Width  quantity.Length // Width at the rim.
	Height quantity.Length
	Count  int

	Kind        MouldKind       `json:",omitzero"`
	FloorWidth  quantity.Length `json:",omitzero"` // FloorWidth where the walls lean; zero is that of the rim.
	FloorLength quantity.Length `json:",omitzero"` // FloorLength where the ends lean; zero is that of the rim.
	Diameter    quantity.Length `json:",omitzero"` // Diameter of a cylinder, at its rim.
	Liner       quantity.Length `json:",omitzero"` // Liner is its thickness, where the measures are without it.
	Cavities    int             `json:",omitzero"` // Cavities of a mould known by volume; zero is one.
	Volume      quantity.Volume `json:",omitzero"` // Volume of one cavity.
	HoldsWater  quantity.Mass   `json:",omitzero"` // HoldsWater fills all cavities together.
}

// waterDensity is that of water at 20 °C in g/mL (CRC Handbook of Chemistry and
// Physics, from memory).
const waterDensity = 0.9982

// notional is the height that a mould of unknown shape counts as, in mm: a
// height in it is a percentage and nothing to measure.
const notional = 100

// HasHeights tells whether heights in the mould mean anything. In one known by
// its volume they do not, and there is no cut face.
func (m Mould) HasHeights() bool { return m.Kind != CavityMould }

// Lies tells whether sticks can lie along the mould.
func (m Mould) Lies() bool { return m.HasHeights() && m.Kind != CylinderMould }

// Along gives what bars are cut from: the length, or the height of a standing
// cylinder; zero for cavities.
func (m Mould) Along() quantity.Length {
	if m.Kind == CylinderMould {
		return m.Height
	}
	return m.Length
}

// CavityCount gives how many cavities are filled one by one, at least 1.
func (m Mould) CavityCount() int { return max(1, m.Cavities) }

// Section gives the inside of the mould.
func (m Mould) Section() form.Section {
	width, height, length := m.Width.Millimetres(), m.Height.Millimetres(), m.Length.Millimetres()
	floor, floorLength := width, length
	if m.FloorWidth > 0 {
		floor = m.FloorWidth.Millimetres()
	}
	if m.FloorLength > 0 {
		floorLength = m.FloorLength.Millimetres()
	}
	switch m.Kind {
	case CavityMould:
		return form.Straight(notional, notional, m.volume()/(notional*notional))
	case CylinderMould:
		return form.Upright(floor, width, height)
	case LyingMould:
		return form.Lying(width, height, length)
	case LoafMould, SlabMould:
	}
	return form.Leaning(floor, width, height, floorLength, length)
}

// volume gives what a mould of unknown shape holds, in mm³.
func (m Mould) volume() float64 {
	if m.HoldsWater > 0 {
		return 1000 * m.HoldsWater.Grams() / waterDensity
	}
	return 1000 * m.Volume.Millilitres() * float64(m.CavityCount())
}

// Capacity gives the volume of the mould filled to the rim.
func (m Mould) Capacity() quantity.Volume {
	return quantity.FromMillilitres(m.Section().Capacity() / 1000)
}

// Inside gives the mould as a batch has it: with a diameter as its width, the
// liner taken off, and a height even where there is none to measure.
func (m Mould) Inside() Mould {
	if m.Diameter > 0 {
		m.Width, m.Diameter = m.Diameter, 0
		if m.Kind == LyingMould && m.Height == 0 {
			m.Height = m.Width
		}
	}
	if m.Kind == CavityMould {
		m.Height = notional * quantity.Millimetre
		return m
	}
	t := m.Liner
	if t == 0 {
		return m
	}
	m.Liner = 0
	if m.Kind == LyingMould {
		m.Width, m.Height, m.Length = m.Width-2*t, min(m.Height-t, m.Width-2*t), m.Length-2*t
		return m
	}
	m.Width, m.FloorWidth = lined(m.Width, m.FloorWidth, m.Height, t)
	if m.Length > 0 {
		m.Length, m.FloorLength = lined(m.Length, m.FloorLength, m.Height, t)
	}
	m.Height -= t
	return m
}

// lined gives the widths at the rim and at the floor inside a liner, which
// stands square on leaning walls and lies on the floor.
func lined(rim, floor, height, t quantity.Length) (newRim, newFloor quantity.Length) {
	if floor == 0 || floor == rim {
		return rim - 2*t, 0
	}
	lean := float64(rim-floor) / 2 / float64(height)
	level := quantity.Length(math.Round(2 * float64(t) * math.Hypot(1, lean)))
	raised := quantity.Length(math.Round(2 * lean * float64(t)))
	return rim - level, floor + raised - level
}

// slope gives how a surface that was level while the mould was propped lies in
// the mould, in mm up for each mm to the right. The floor is the long side of
// the wedge under it.
func (m Mould) slope(p Propping) float64 {
	across := m.Width
	if m.FloorWidth > 0 {
		across = m.FloorWidth
	}
	if p.By <= 0 || p.By >= across {
		return 0
	}
	s := math.Tan(math.Asin(float64(p.By) / float64(across)))
	if p.Side == RightSide {
		return -s
	}
	return s
}
