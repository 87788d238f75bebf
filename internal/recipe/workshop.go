package recipe

import (
	"bench/internal/calc"
	"bench/internal/quantity"
	"bench/internal/timer"
)

// Workshop is what the maker owns: scales, vessels, moulds and materials.
type Workshop struct {
	Name         string
	Scales       []Scale
	Vessels      []Vessel
	Moulds       []Mould
	Materials    []Material
	LeftInVessel quantity.Mass        // LeftInVessel stays in each vessel that batter is poured out of.
	Room         quantity.Temperature // Room is how warm it is; zero means not stated.
	Cutting      Cutting
	Extruder     Extruder
	Sticks       []Stick    // Sticks are those on hand.
	Used         []StickUse // Used are those that batches took, which no file says.
	Responsible  []string   // Responsible is name and address of who answers for the soap, line by line.
	Manner       Manner
}

// Manner is how the screen behaves towards the maker. No batch rests on it.
type Manner struct {
	Quiet timer.Hours // Quiet is when only alarms of the first kind sound.
	Sound Switch      // Sound is whether alarms sound at all: they do, unless it is off.
	// Notices is whether alarms that sound make a notice on the desktop, too: by
	// day they do.
	Notices Switch
	Mouse   Switch // Mouse is whether the mouse works: it does not, unless it is on.
}

// Switch is on, off, off for a part of the day, or not stated.
type Switch string

// The positions of a switch.
const (
	On  Switch = "on"
	Off Switch = "off"

	OffInQuietHours Switch = "off in quiet hours" // OffInQuietHours is for notices only.
)

// Scale is a weighing instrument. Reads and Max are d and Max of OIML R 76.
type Scale struct {
	Name  string
	Reads quantity.Mass
	Max   quantity.Mass
}

// VesselKind is what a vessel is used for.
type VesselKind string

// The kinds of vessel.
const (
	Pot    VesselKind = "pot"     // Pot takes the oils and the batter.
	LyeJug VesselKind = "lye jug" // LyeJug takes lye solution and nothing else.
	Jug    VesselKind = "jug"     // Jug takes a portion of batter.
	Cup    VesselKind = "cup"     // Cup takes a scent, a colour or dry alkali.
)

// Vessel is a container with its weight when empty and dry.
type Vessel struct {
	Name string
	Kind VesselKind
	Tare quantity.Mass
	Brim quantity.Volume `json:",omitempty"` // Brim is what it holds to the brim; zero means not stated.
}

// MaterialKind is what a material is.
type MaterialKind string

// The kinds of material.
const (
	OilMaterial       MaterialKind = "oil"
	AlkaliMaterial    MaterialKind = "alkali"
	WaterMaterial     MaterialKind = "water"
	ColourMaterial    MaterialKind = "colourant"
	FragranceMaterial MaterialKind = "fragrance"
	EssentialMaterial MaterialKind = "essential oil"
	AdditiveMaterial  MaterialKind = "additive"
	ToppingMaterial   MaterialKind = "topping"
	DoughMaterial     MaterialKind = "soap dough"     // DoughMaterial is made soap that embeds are formed of.
	PremeltedMaterial MaterialKind = "premelted oils" // PremeltedMaterial is a blend of oils in fixed shares, weighed as one.
)

// Behaviour is what a scent does to raw batter.
type Behaviour string

// What a scent may do.
const (
	Behaves     Behaviour = "behaves"
	Accelerates Behaviour = "accelerates"
	Rices       Behaviour = "rices"
	Seizes      Behaviour = "seizes"
	Separates   Behaviour = "separates"
	Heats       Behaviour = "heats"
	Discolours  Behaviour = "discolours"
)

// Stability is whether a colour survives raw soap.
type Stability string

// The stabilities in high pH.
const (
	Stable   Stability = "yes"
	Unstable Stability = "no"
	Untested Stability = "untested"
)

// Material is something the maker weighs out, with what is known of it.
type Material struct {
	Name     string
	Kind     MaterialKind
	OilShare quantity.Ratio       // OilShare is what an additive holds of Oil.
	Oil      string               // Oil is the key in the oils table that an oil stands for.
	SV       calc.Interval        // SV is an oil's certificate value in mg KOH per g; zero means not stated.
	Density  float64              `json:",omitempty"` // Density of an oil in g/mL at 20 °C; zero means the table's.
	Melts    quantity.Temperature `json:",omitempty"` // Melts is where an oil is clear; zero means the table's, or liquid.
	Lot      string               // Lot is the supplier's, of the container in use.
	Purity   quantity.Ratio       // Purity of an alkali; zero means not stated.
	Stock    quantity.Ratio       // Stock is the strength of an alkali that is a solution; zero is dry.
	Made     string               // Made says when a stock solution, or a blend of oils, was made.
	Water    quantity.Ratio       // Water is what an additive holds of it.
	Acid     quantity.Ratio       // Acid is mg KOH used up per g of an acid additive, as a ratio of masses.
	Does     []Behaviour          // Does is what a scent does to raw batter.
	Becomes  string               // Becomes is the colour a scent discolours to.
	Limit    quantity.Ratio       // Limit is the most of a scent in the finished product; zero means not stated.
	HighPH   Stability            // HighPH is whether a colour is stable in raw soap.
	Looks    string               // Looks is the shade in soap of a colour, or that of a dough, as sRGB, "#1f3a5f", or empty.
	INCI     string
	SoapINCI string `json:",omitempty"` // SoapINCI is the name of an oil's sodium soap.
	// Allergens are what a scent holds of each, from the supplier's declaration.
	Allergens []Part `json:",omitempty"`
	Contains  []Part `json:",omitempty"` // Contains is what a soap dough, or a blend of oils, was made of.
}
