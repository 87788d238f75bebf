package steps

import (
	"fmt"
	"math"
	"time"

	"bench/internal/batch"
	"bench/internal/lye"
	"bench/internal/quantity"
	"bench/internal/solution"
	"bench/internal/timer"
	"bench/internal/work"
)

// Implausible says why a temperature that was read of a batter's lye solution cannot well
// be, after what was mixed, what was read before, and when; "" where it can.
func (p Plan) Implausible(task string, warm quantity.Temperature, now timer.Moment) string {
	t, st, ok := p.Task(task)
	_, at := p.State().Control.Recipe.Batter(st.Batter)
	if !ok || t.ID != lyeTemperatureID(st.Batter) || at < 0 {
		return ""
	}
	return p.planner.implausible(p.planner.pots[at], p.Batters[at].Peak, warm, now)
}

func (p *planner) implausible(k pot, peak solution.Estimate, warm quantity.Temperature, now timer.Moment) string {
	dissolved, last, times := timer.Moment{}, 0, 0
	for _, id := range Dissolving(k.recipe.Name) {
		if d, ok := p.s.Done(id); ok && d.Skipped == "" {
			times++
			if d.Seq > last {
				last, dissolved = d.Seq, d.At
			}
		}
	}
	if times == 0 || peak.Celsius == 0 {
		return ""
	}
	ago, _ := now.Since(dissolved)
	span := lye.After(peak, p.c.RoomTemperature().Celsius(), ago)
	since := fmt.Sprintf("%s after it was dissolved (it can reach %s)", timer.Words(ago), peak)
	if times > 1 { // A little more heats it by what nobody has worked out.
		span.Low = 0
	}
	if r, c := p.lastRead(k), p.cooling(k); len(c.Readings) > 0 && !r.At.Wall.After(now.Wall) {
		read := c.Readings[len(c.Readings)-1]
		ago, _ := now.Since(r.At)
		again := lye.After(solution.Estimate{Celsius: read.Celsius, PlusMinus: thermometers}, p.c.RoomTemperature().Celsius(), ago)
		if span.Holds(warm.Celsius()) || !again.Holds(warm.Celsius()) {
			span, since = again, fmt.Sprintf("%s after it was %s", timer.Words(ago), quantity.FromCelsius(read.Celsius))
		}
	}
	switch c := warm.Celsius(); {
	case c < span.Low:
		return fmt.Sprintf("%s %s: even in ice water it is hardly below %.0f °C by now", warm, since, math.Floor(span.Low))
	case c > span.High:
		return fmt.Sprintf("%s %s: it is hardly above %.0f °C by now", warm, since, math.Ceil(span.High))
	}
	return ""
}

func (p *planner) lastRead(k pot) batch.Reading {
	r, _ := p.s.Temperature(lyeTemperatureID(k.recipe.Name))
	return r
}

// thermometers is how far apart two readings of the same may be, in °C (common practice,
// no source).
const thermometers = 3.0

// aged says of a lye solution that was read days after it was made what may have become
// of it, or "".
func (p *planner) aged(k pot, lyeSolution work.Task) string {
	d, ok := p.s.Done(DissolveID(k.recipe.Name))
	if age, _ := lyeSolution.At.Since(d.At); ok && lyeSolution.Done && age > keeps {
		return fmt.Sprintf("! The lye solution was made %s ago. If it stood open it lost water and strength: no skin, no crystals, and weigh the jug.", timer.Words(age))
	}
	return ""
}

// keeps is how long a lye solution is used without a second look (common practice, no
// source): open, it takes up carbon dioxide and loses or takes up water.
const keeps = 24 * time.Hour
