package recipe

import (
	"bench/internal/calc"
	"bench/internal/oils"
	"bench/internal/quantity"
)

// PlanVersion numbers the rules by which steps turns a control recipe into a
// plan. It is frozen with each batch, so that a later program knows by which
// rules the batch was begun.
//
// Version 2 weighs and wets the colours of a pot that feeds several layers before
// its lye solution meets the oils; version 1 weighed them after the split.
// Version 3 has pause points, at which what was done is read back.
// Version 4 lets a weighing wait while something else is in its vessel, and gives pots
// that are poured in turns jugs of their own; a vessel that
// is too small for what is planned for it is passed over.
// Version 5 holds dry alkali to no less than a pellet of it weighs.
const PlanVersion = 5

// Control is a control recipe (IEC 61512): a recipe scaled to its loaves, with
// every value of the workshop and of the oils table that the batch rests on. It
// is the first fact of a batch and never changes afterwards.
type Control struct {
	PlanVersion  int
	Recipe       Recipe
	Text         string // Text is the recipe document as it was read.
	Hash         string // Hash is the SHA-256 of Text, in hexadecimal.
	Loaves       int
	Mould        Mould
	Scales       []Scale
	Vessels      []Vessel
	Materials    []Material // Materials are those that the recipe uses.
	Oils         []OilUse   // Oils are those that the recipe uses.
	LeftInVessel quantity.Mass
	Room         quantity.Temperature // Room is how warm the workshop is; zero means not stated.
	Warnings     []string
	Cutting      Cutting     `json:",omitzero"`
	Extruder     Extruder    `json:",omitzero"`
	Sticks       []StickPlan `json:",omitempty"` // Sticks are planned where some are on hand, or an extruder makes them.
}

// OilUse is an oil as it stood in the table, or as the maker stated it, when
// the batch began.
type OilUse struct {
	Key         string
	Name        string
	SV          calc.Interval // SV is the saponification value, mg KOH per g.
	Own         bool          // Own says that SV is the maker's certificate value.
	SVFrom      string        // SVFrom is where the value comes from.
	Density     float64       // Density is that of the liquid oil at 20 °C, in g/mL.
	DensityFrom string        `json:",omitempty"` // DensityFrom is where that comes from, if not from the table.
	Hard        bool          // Hard oils are weighed and melted first.
	Melts       float64       // Melts is the upper end of the melting range in °C, or zero.
	Lot         string
	Blend       []OilShare `json:",omitempty"` // Blend is what premelted oils are made of; SV is then theirs together.
}

// DensityAt is the temperature of OilUse.Density in °C.
const DensityAt = 20

// GramsPerML gives the density of the liquid oil at a temperature.
func (o OilUse) GramsPerML(at quantity.Temperature) float64 {
	return o.Density + oils.Expansion*(at.Celsius()-DensityAt)
}

// Material gives the material of that name, as it was frozen.
func (c Control) Material(name string) (Material, bool) {
	for i := range c.Materials {
		if c.Materials[i].Name == name {
			return c.Materials[i], true
		}
	}
	return Material{}, false
}

// Oil gives the oil with that key, as it was frozen.
func (c Control) Oil(key string) (OilUse, bool) {
	for i := range c.Oils {
		if c.Oils[i].Key == key {
			return c.Oils[i], true
		}
	}
	return OilUse{}, false
}
