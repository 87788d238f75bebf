package recipe

import (
	"cmp"
	"slices"

	"bench/internal/cut"
	"bench/internal/quantity"
)

// Cutting is how loaves and sticks are cut. What is nil is not stated.
type Cutting struct {
	Bar       *quantity.Length `json:",omitempty"` // Bar is how thick a bar is cut.
	Near      *quantity.Length `json:",omitempty"` // Near is the end trim at the cutter's stop.
	Far       *quantity.Length `json:",omitempty"` // Far is the least end trim at the other end.
	Wire      *quantity.Length `json:",omitempty"` // Wire is the width that the cutter takes.
	Knife     *quantity.Length `json:",omitempty"` // Knife is the width that cutting a stick takes.
	Tolerance *quantity.Length `json:",omitempty"` // Tolerance is how far from its cut line a join may lie.
	Minimum   *quantity.Length `json:",omitempty"` // Minimum is the shortest piece of stick.
	First     CutFirst         `json:",omitempty"`
}

// CutFirst is what a plan of sticks has fewest of before all else.
type CutFirst string

// What may come first.
const (
	FewestSticks CutFirst = "fewest sticks"
	FewestJoins  CutFirst = "fewest joins"
)

// Stick is sticks of one design, lot and measured length that are on hand.
type Stick struct {
	Name   string
	Lot    string // Lot is that of the dough.
	Length quantity.Length
	Count  int
	Made   string // Made is the day, as 2026-11-03, or empty.
}

// Extruder is what new sticks are pressed with. Zero is not stated.
type Extruder struct {
	Capacity quantity.Mass   `json:",omitempty"` // Capacity is the dough that one load holds.
	Stays    quantity.Mass   `json:",omitempty"` // Stays is the dough that stays in it in the end.
	Stick    quantity.Length `json:",omitempty"` // Stick is how long a stick it makes, trimmed.
	Trim     quantity.Length `json:",omitempty"` // Trim is what is cut off each stick for that.
	Density  float64         `json:",omitempty"` // Density of the dough in g/mL.
}

// DefaultDoughDensity is in g/mL: common practice, no source.
const DefaultDoughDensity = 1.05

// StickPlan is how the sticks of one design are cut and laid in a batch. It is
// frozen with the control recipe, so that a batch keeps its placing list.
type StickPlan struct {
	Stick  string
	Embeds []StickEmbed // Embeds are the rows of a loaf, in the order of the rows.
	Plan   cut.Plan
	// Stock are the sticks on hand as they were listed, and as other batches left them.
	Stock []StickStock `json:",omitempty"`
}

// StickEmbed is an embed by the layer that holds it.
type StickEmbed struct{ Layer, Embed string }

// Row gives the row, counted from 1, in which an embed lies, or 0.
func (s StickPlan) Row(layer, embed string) int {
	return 1 + slices.Index(s.Embeds, StickEmbed{layer, embed})
}

// Over lays what c states over another.
func (c Cutting) Over(base Cutting) Cutting {
	return Cutting{
		Bar: cmp.Or(c.Bar, base.Bar), Near: cmp.Or(c.Near, base.Near), Far: cmp.Or(c.Far, base.Far),
		Wire: cmp.Or(c.Wire, base.Wire), Knife: cmp.Or(c.Knife, base.Knife), Tolerance: cmp.Or(c.Tolerance, base.Tolerance),
		Minimum: cmp.Or(c.Minimum, base.Minimum), First: cmp.Or(c.First, base.First),
	}
}

// Order turns what is stated into an order for so many loaves of a length, with
// the defaults for the rest.
func (c Cutting) Order(length quantity.Length, loaves, rows int) cut.Order {
	or := func(stated *quantity.Length, otherwise quantity.Length) quantity.Length {
		if stated == nil {
			return otherwise
		}
		return *stated
	}
	near := or(c.Near, defaultEndTrim)
	return cut.Order{
		Loaf: cut.Loaf{
			Length: length, Bar: or(c.Bar, defaultBarThickness), Near: near, Far: or(c.Far, near), Wire: or(c.Wire, 0),
		},
		Loaves: loaves, Rows: rows, Knife: or(c.Knife, 0), Tolerance: or(c.Tolerance, cut.DefaultTolerance),
		Minimum: or(c.Minimum, 0), JoinsFirst: c.First == FewestJoins,
	}
}

// Loaf gives how the batch's loaves are cut.
func (c Control) Loaf() cut.Loaf { return c.Cutting.Order(c.Mould.Along(), 1, 1).Loaf }

// StickName gives the name of the stick that an embed is a piece of.
func (e Embed) StickName() string { return cmp.Or(e.Stick, e.Name) }

// SticksOf gives the sticks on hand of one design, oldest first; those without a
// day come last, and otherwise the list's order holds.
func (w Workshop) SticksOf(name string) []cut.Stick {
	var own []Stick
	for _, s := range w.Sticks {
		if Fold(s.Name) == Fold(name) {
			own = append(own, s)
		}
	}
	slices.SortStableFunc(own, func(a, b Stick) int {
		return cmp.Compare(cmp.Or(a.Made, "9999"), cmp.Or(b.Made, "9999"))
	})
	var sticks []cut.Stick
	for _, s := range own {
		sticks = append(sticks, cut.Stick{Lot: s.Lot, Length: s.Length, Count: s.Count})
	}
	return sticks
}
