// Package recipe holds the maker's two documents, the recipe and the workshop, and
// the control recipe that they become, as types.
//
// The rule: a document is data. Reading it from a file is recipe/read's work,
// holding it to its rules recipe/check's, and what to do with it is steps'.
package recipe

import (
	"time"

	"bench/internal/calc"
	"bench/internal/quantity"
)

// Recipe is a master recipe (IEC 61512): what a design is made of, without the
// size of any one batch.
type Recipe struct {
	Name       string
	About      string
	LoafShares []int64         // LoafShares state how the loaves share each layer; empty is equally.
	Loaves     int             // Loaves is how many the maker usually makes at once.
	Mould      string          // Mould names a mould of the workshop.
	Height     quantity.Length // Height of the finished loaf, for layers by share; zero means the mould's.
	Batters    []Batter
	Layers     []Layer // Layers are listed from the floor up.
	Top        Top
	Gel        Gel
	Unmould    time.Duration // Unmould is the time from the last pour.
	Label      LabelWords    `json:",omitzero"`
	Cure       Cure          `json:",omitzero"`
	Cutting    Cutting       `json:",omitzero"` // Cutting is what differs from the workshop's.
}

// Batter is one pot: oils, alkali, water and what goes into them.
type Batter struct {
	Name      string
	Oils      []OilShare
	Premelted string        `json:",omitempty"` // Premelted names the blend that brings as much of the oils as it can; in a control recipe it stands among them.
	OilWeight quantity.Mass // OilWeight fixes the oils of all Loaves together; zero follows from the moulds.
	Superfat  quantity.Ratio
	Alkali    []AlkaliShare
	Water     calc.WaterRule
	Additives []Additive
	MixAt     quantity.Temperature
}

// OilShare is an oil, by its key in the oils table, and its share of the oils.
type OilShare struct {
	Oil   string
	Share quantity.Ratio
}

// AlkaliShare is an alkali of the workshop and the share of the alkali needed
// that it brings.
type AlkaliShare struct {
	Material string
	Share    quantity.Ratio
}

// Medium is what an ingredient is stirred into.
type Medium string

// The media, in the order in which they exist.
const (
	InLyeWater Medium = "lye water"
	InOils     Medium = "oils"
	InBatter   Medium = "batter"
)

// Additive is an ingredient that is neither oil, alkali, colour nor scent.
type Additive struct {
	Material string
	Rate     quantity.Ratio // Rate is a share of the oils.
	In       Medium
}

// Trace is how thick the batter is.
type Trace string

// The stages of trace, from thin to thick.
const (
	Emulsion Trace = "emulsion"
	Light    Trace = "light"
	MediumTr Trace = "medium"
	Thick    Trace = "thick"
)

// Traces lists the stages of trace from thin to thick.
func Traces() []Trace { return []Trace{Emulsion, Light, MediumTr, Thick} }

// Layer is one pour: what it is made of, where its surface lies, and the embeds
// that it holds.
type Layer struct {
	Name    string
	Batter  string
	Surface quantity.Length // Surface is the height of the finished surface above the floor.
	Share   quantity.Ratio  // Share of the loaf's volume, where Surface is not stated.
	Propped Propping        `json:",omitzero"`
	Trace   Trace           // Trace is what the layer wants when it is poured.
	Colours []Colour
	Scents  []Scent
	Embeds  []Embed
	// MicaLine is what is dusted on the surface before the next layer: a thin
	// line on the cut face.
	MicaLine Topping `json:",omitzero"`
}

// Propping is how much higher one side of the mould stands than the other while
// a layer is poured and sets. The zero value is a level mould.
type Propping struct {
	By   quantity.Length
	Side Side // Side is the one that stands higher, where the layer is thinner.
}

// Side is a side of the mould.
type Side string

// The sides.
const (
	LeftSide  Side = "left"
	RightSide Side = "right"
)

// Colour is a colourant and its rate on this layer's oils.
type Colour struct {
	Material string
	Rate     quantity.Ratio
	In       Medium // In is the oils (one colour a pot) or the batter (after the split).
}

// Place is where a scent is stirred in.
type Place string

// The places; the empty one leaves it to the order of things.
const (
	PlaceDerived Place = ""
	InWarmOils   Place = "oils"
	InPot        Place = "pot"
	InPortions   Place = "portions"
)

// RateOf says what a scent's rate is a share of.
type RateOf string

// What a rate is a share of.
const (
	OfOils   RateOf = "oils"
	OfBatter RateOf = "batter" // OfBatter includes the scent itself.
)

// Scent is a fragrance or essential oil and its rate.
type Scent struct {
	Material string
	Rate     quantity.Ratio
	Of       RateOf
	Where    Place // Where overrides the derived place.
}

// Embed is a stick of made soap that lies along the loaf.
type Embed struct {
	Name   string
	Shape  Shape
	Width  quantity.Length
	Height quantity.Length
	Stick  string          `json:",omitempty"` // Stick names the design that it is a piece of; empty is the embed's own name.
	Dough  string          `json:",omitempty"` // Dough is the material that it is made of, or "" where that is not stated.
	Across quantity.Length // Across is from the left wall to the middle.
	Sink   quantity.Length // Sink is how far its lowest point lies under the holding layer's finished surface.

	Corners []Corner       `json:",omitzero"` // Corners are a polygon's, and those that a path was flattened to.
	Path    string         `json:",omitzero"` // Path is the SVG path data that Corners were taken from.
	Turn    quantity.Angle `json:",omitzero"` // Turn is anticlockwise, after it was mirrored.
	Mirror  bool           `json:",omitzero"` // Mirror changes left and right over.
	Stood   bool           `json:",omitzero"` // Stood embeds are in place before their layer is poured.
	Proud   bool           `json:",omitzero"` // Proud embeds are meant to stand out of the soap.
}

// Corner is a corner of an outline: to the right of some origin, and up.
type Corner struct{ X, Y quantity.Length }

// Shape is the outline of an embed on the cut face.
type Shape string

// The shapes.
const (
	Circle    Shape = "circle"
	Ellipse   Shape = "ellipse"
	Rectangle Shape = "rectangle"
	Polygon   Shape = "polygon"
	PathShape Shape = "path" // PathShape is drawn by SVG path data.
)

// Top is what happens to the surface of the last layer.
type Top struct {
	Texture  string
	Toppings []Topping
}

// Topping is a weighed ingredient scattered on each loaf.
type Topping struct {
	Material string
	PerLoaf  quantity.Mass
}

// Gel is what the maker wants of the gel phase.
type Gel string

// What can be wanted of the gel phase.
const (
	GelForced    Gel = "forced"
	GelLeft      Gel = "left alone"
	GelPrevented Gel = "prevented"
)
