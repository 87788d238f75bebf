package steps

import (
	"fmt"
	"strings"
	"time"

	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/work"
)

// The policy of this file: how warm lye solution and oils may meet, and how long a
// reading of them holds.

// WarmFor is how long a temperature holds for the gate: a litre of lye solution loses
// half of its excess over the room in about an hour (common practice, no source).
const WarmFor = 30 * time.Minute

// olderThan says that a reading is too old to be taken together with another.
func olderThan(t, other work.Task) bool {
	if !t.Done || !other.Done {
		return false
	}
	apart, _ := other.At.Since(t.At)
	return apart > WarmFor
}

// ReadOf names what a temperature of the gate is read of.
func ReadOf(t work.Task) string {
	if strings.HasSuffix(t.ID, oilTemperatureID("")) {
		return "the oils"
	}
	return "the lye solution"
}

// hotBy is how much hotter than wanted a mix is too hot (common practice, no source).
const hotBy = 10 * quantity.Degree

// TooHot is a lye solution and oils that would meet too hot.
type TooHot struct {
	Mix    quantity.Temperature // Mix is what they give together.
	Wanted quantity.Temperature
	Cool   string // Cool names what must cool: both, or the one that is hotter than wanted.
}

// TooHot says that what was read of a batter's lye solution and oils is too hot for them
// to meet. What was left out counts as warm as is wanted.
func (p Plan) TooHot(batter string) (TooHot, bool) {
	_, at := p.State().Control.Recipe.Batter(batter)
	if p.planner == nil || at < 0 || at >= len(p.planner.pots) {
		return TooHot{}, false
	}
	return p.planner.tooHot(p.planner.pots[at])
}

func (p *planner) tooHot(k pot) (TooHot, bool) {
	both := k.recipe.MixAt
	read := func(id string) quantity.Temperature {
		if r, ok := p.s.Temperature(id); ok {
			return r.Fact.Temperature
		}
		return both
	}
	lye, oils := read(lyeTemperatureID(k.recipe.Name)), read(oilTemperatureID(k.recipe.Name))
	hot := TooHot{Mix: p.mixOf(k, lye, oils), Wanted: both, Cool: "both"}
	switch {
	case oils <= both:
		hot.Cool = "the lye solution"
	case lye <= both:
		hot.Cool = "the oils"
	}
	return hot, hot.Mix > hottest(k.recipe)
}

// hottest is the hottest that a batter's lye solution and oils may meet.
func hottest(b recipe.Batter) quantity.Temperature {
	return min(b.MixAt+hotBy, max(b.MixAt, recipe.HotMix))
}

// hotLye warns of lye solution that was read hotter than a hot bath, or is "": the mix may
// be as wanted, and a splash or a jug that gives way is a danger of its own (common
// practice, no source).
func (p *planner) hotLye(k pot) string {
	r, ok := p.s.Temperature(lyeTemperatureID(k.recipe.Name))
	if !ok || r.Fact.Temperature <= hottestOther {
		return ""
	}
	return fmt.Sprintf("! The lye solution is at %s: a splash scalds and burns, and a plastic jug may soften. Better let it cool; else goggles, gloves, sleeves, a heat-proof jug, and pour slowly.",
		r.Fact.Temperature)
}
