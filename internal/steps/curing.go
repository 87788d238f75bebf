package steps

import (
	"bench/internal/batch"
	"bench/internal/curing"
)

// Curing gives what is known of the batch after the pour.
func (p Plan) Curing() curing.Curing {
	if p.planner == nil {
		return curing.Curing{}
	}
	return curing.Of(p.planner.s)
}

// Water gives how much of the fresh soap is water, a fraction: no bar loses
// more.
func (p Plan) Water() float64 {
	water, all := 0.0, 0.0
	for _, b := range p.Batters {
		water += b.Water.Mass.Grams()
		all += b.Mass.Grams()
		if p.planner == nil {
			continue
		}
		for _, a := range b.Additives {
			m, _ := p.planner.c.Material(a.Name)
			water += a.Mass.Grams() * m.Water.Fraction()
		}
	}
	if all <= 0 {
		return 0
	}
	return water / all
}

// Drying fits the drying curve of the marked bars, or says in words why there
// is none.
func (p Plan) Drying() (curing.Drying, error) { return p.Curing().Drying(p.Water()) }

// Spreads gives how the bars differ, fresh and cured.
func (p Plan) Spreads() (fresh, cured curing.Spread) {
	if p.planner == nil {
		return fresh, cured
	}
	all := batch.All[batch.BarsWeighed](p.planner.s)
	return curing.SpreadOf(all, func(id string) bool { return id != weightTest }),
		curing.SpreadOf(all, func(id string) bool { return id == weightTest })
}
