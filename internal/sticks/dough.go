package sticks

import (
	"cmp"
	"math"

	"bench/internal/quantity"
	"bench/internal/recipe"
)

// Dough is the soap dough of one colour for the sticks still to be made.
type Dough struct {
	Name   string // Name is the dough's, or the stick's where the recipe names no dough.
	Lot    string // Lot is that of the dough in use, or empty.
	Looks  string // Looks is its shade as sRGB, or empty.
	Sticks []NewStick
	Trims  quantity.Mass // Trims are cut off the new sticks.
	Stays  quantity.Mass // Stays in the extruder.
	Mass   quantity.Mass // Mass is all that is needed.
	Loads  int           // Loads of the extruder; 0 where its capacity is not known.
}

// NewStick is the sticks of one design that are still to be made.
type NewStick struct {
	Name   string
	Count  int
	Length quantity.Length
	Area   float64 // Area is that of its outline, in mm².
	Mass   quantity.Mass
}

// dough sums up by dough what new sticks take: area × length × density × number,
// the trims, and once what stays in the extruder, which is cleaned between two
// colours.
func dough(c recipe.Control) []Dough {
	var list []Dough
	for _, plan := range c.Sticks {
		if plan.Plan.Fresh == 0 {
			continue
		}
		e, ok := embed(c, plan)
		if !ok {
			continue
		}
		d := find(&list, c, cmp.Or(e.Dough, plan.Stick))
		s := NewStick{Name: plan.Stick, Count: plan.Plan.Fresh, Length: c.Extruder.Stick, Area: e.Area()}
		count := quantity.Length(s.Count)
		s.Mass = Weigh(c, e, count*s.Length)
		trims := Weigh(c, e, count*c.Extruder.Trim)
		d.Sticks = append(d.Sticks, s)
		d.Trims += trims
		d.Mass += s.Mass + trims
	}
	for i := range list {
		d := &list[i]
		d.Mass += d.Stays
		if capacity := c.Extruder.Capacity; capacity > 0 {
			d.Loads = int(math.Ceil(d.Mass.Grams() / capacity.Grams()))
		}
	}
	return list
}

// Weigh gives what so much stick of an embed's outline weighs.
func Weigh(c recipe.Control, e recipe.Embed, length quantity.Length) quantity.Mass {
	return quantity.FromGrams(e.Area() * length.Millimetres() * density(c) / 1000)
}

func find(list *[]Dough, c recipe.Control, name string) *Dough {
	for i := range *list {
		if (*list)[i].Name == name {
			return &(*list)[i]
		}
	}
	m, _ := c.Material(name)
	*list = append(*list, Dough{Name: name, Lot: m.Lot, Looks: m.Looks, Stays: c.Extruder.Stays})
	return &(*list)[len(*list)-1]
}

// embed gives the first embed that a plan's sticks are for.
func embed(c recipe.Control, plan recipe.StickPlan) (recipe.Embed, bool) {
	for _, l := range c.Recipe.Layers {
		for _, e := range l.Embeds {
			if plan.Row(l.Name, e.Name) > 0 {
				return e, true
			}
		}
	}
	return recipe.Embed{}, false
}
