package steps

import (
	"bench/internal/batch"
	"bench/internal/curing"
	"bench/internal/quantity"
	"bench/internal/rest"
	"bench/internal/timer"
	"bench/internal/work"
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

// Bars counts the bars that were cut, less what was kept back.
func (p Plan) Bars() int {
	n := 0
	for _, st := range p.Stages {
		for _, t := range st.Tasks {
			switch {
			case t.Do == work.Count && t.Skipped == "":
				n += t.Counted
			case t.Do == work.Aside && t.Material == string(batch.RetainedBar) && t.Counted > 0:
				n -= t.Counted
			}
		}
	}
	return max(0, n)
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
	return curing.SpreadOf(all, func(id string) bool { return id != rest.WeightTest }),
		curing.SpreadOf(all, func(id string) bool { return id == rest.WeightTest })
}

// GelSaid gives what a loaf, counted from 1, looked like by a look at the gel; "" is not
// said yet.
func (p Plan) GelSaid(task string, loaf int) batch.GelLook {
	if p.planner == nil {
		return ""
	}
	return p.planner.after.GelSaid(task, loaf)
}

// GelUnseen gives the loaves of which a look at the gel has said nothing yet, counted from 1.
func (p Plan) GelUnseen(task string) []int {
	if p.planner == nil {
		return nil
	}
	return p.planner.after.GelUnseen(task)
}

// Poured is what the moulds hold.
type Poured struct {
	All    quantity.Mass   // All is everything that left the pots.
	Loaves []quantity.Mass // Loaves are what each mould holds.
	Bar    quantity.Mass   // Bar is what a fresh bar of the first loaf should weigh.
	Bars   []quantity.Mass // Bars are what one of each loaf should.
	Last   timer.Moment    // Last is when the last layer was poured; zero is not yet.
}

// Poured gives what the moulds hold, as poured or else as planned.
func (p Plan) Poured() Poured {
	if p.planner == nil {
		return Poured{}
	}
	pl := p.planner
	made := Poured{Loaves: pl.loaves, Bar: pl.after.BarMass(0), Last: pl.after.Poured}
	for loaf, m := range pl.loaves {
		made.Bars = append(made.Bars, pl.after.BarMass(loaf))
		made.All += m + pl.c.LeftInVessel*quantity.Mass(1+len(pl.pours))
	}
	return made
}

// Open gives the warnings that keep bars from being released without a reason:
// what the weights hold them for (a superfat band below zero, a scent over its
// limit, a vessel that weighed other than the facts say), a loaf that overheated, a test that failed or was left out, a cure cut short, a
// skin reaction.
func (p Plan) Open() []string {
	if p.planner == nil {
		return nil
	}
	return p.planner.open(p.Holds)
}

// Ahead gives the days that lie ahead of a batch from its last pour on.
func (p Plan) Ahead(now timer.Moment) []rest.Date {
	if p.planner == nil || p.Closed {
		return nil
	}
	return p.planner.after.Ahead(p.Timers, now)
}
