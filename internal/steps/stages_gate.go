package steps

import (
	"fmt"
	"strings"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/solution"
	"bench/internal/work"
)

// gate reads both temperatures and the one that they will give.
func (p *planner) gate(k pot, after []string) work.Stage {
	name := k.recipe.Name
	s := work.Stage{
		ID: gateStageID(name), Kind: work.Gate, Batter: name, Title: of("gate", name), After: after, Ordered: true,
		Why: fmt.Sprintf("Together they should give about %s, warm enough that the hard oils stay clear. Lye solution that stood cold wants warmer oils.", k.recipe.MixAt),
	}
	lye := p.temperature(lyeTemperatureID(name), fmt.Sprintf("How warm is the %s lye solution?", name), k.recipe.MixAt)
	lye.Open = dissolved(p.s, name) // While it cools, its readings make the forecast.
	oils := p.temperature(oilTemperatureID(name), fmt.Sprintf("How warm are the %s oils?", name), k.recipe.MixAt)
	meet := p.tick(MeetID(name), "They may meet now", "")
	if meet.Done && !p.met(name) && max(lye.Seq, oils.Seq) > meet.Seq { // Read again since, and not in yet.
		meet.Done, meet.Do = false, work.Confirm
	}
	if !meet.Done {
		lye.Done = lye.Done && p.fresh(k, after) && !olderThan(lye, oils)
		oils.Done = oils.Done && !olderThan(oils, lye)
	}
	lye.Again, oils.Again = lye.Done && !p.met(name) && !p.s.Ended(), oils.Done && !p.met(name) && !p.s.Ended()
	if !p.ticked(CombineID(name)) {
		lye.Hint = p.cooling(k).Hint()
	}
	p.wantOther(k, &lye, &oils)
	if mix, ok := p.mix(k, lye.ID, oils.ID); ok {
		meet.Title, meet.Shows = fmt.Sprintf("Together they give %s: they may meet now", mix), mix.String()
		if hot, too := p.tooHot(k); too {
			meet.Title = fmt.Sprintf("Together they give %s: let %s cool, then read again", mix, hot.Cool)
		}
		s.ReadBack = fmt.Sprintf("mix %s", mix)
		oils.Hint = p.mixHint(k, mix)
		meet.Hint = joined(p.hotLye(k), joined(joined(p.aged(k, lye), p.undecidedFor(k)), oils.Hint))
	}
	if p.c.PlanVersion >= readsBack {
		meet.Do = work.Confirm
	}
	s.Tasks = []work.Task{lye, oils, meet}
	return s
}

func dissolved(s batch.State, batter string) bool {
	d, ok := s.Done(DissolveID(batter))
	return ok && d.Skipped == ""
}

// mixHint says what to mind at a mixing temperature. A hard oil stays clear in
// the others well below where it melts alone, so the eye has the last word
// (common practice, no source).
func (p *planner) mixHint(k pot, mix quantity.Temperature) string {
	if hot, too := p.tooHot(k); too {
		return fmt.Sprintf("Hotter than the %s that is wanted: it may thicken at once, spit or rise out of the pot. Let %s cool.", k.recipe.MixAt, hot.Cool)
	}
	cooler := ""
	if below := k.recipe.MixAt - mix; below > 2*quantity.Degree {
		cooler = fmt.Sprintf("%.1f °C below the %s that is wanted. ", below.Celsius(), k.recipe.MixAt)
	}
	if melts, hardest := p.hardest(k); mix.Celsius() < melts {
		return cooler + fmt.Sprintf("%s alone is clear from %.0f °C: if the oils look cloudy, warm them, or it sets early (false trace).", recipe.Capital(hardest), melts)
	}
	return strings.TrimSpace(cooler)
}

func (p *planner) temperature(id, title string, wanted quantity.Temperature) work.Task {
	t := work.Task{ID: id, Do: work.Temperature, Title: title, MustType: true, Wanted: wanted}
	if r, ok := p.s.Temperature(id); ok {
		t.Done, t.Seq, t.At = true, r.Seq, r.At
		t.Title = fmt.Sprintf("%s %s", title, r.Fact.Temperature)
	}
	return t
}

// mix gives the temperature that oils and lye solution give together.
func (p *planner) mix(k pot, lye, oils string) (quantity.Temperature, bool) {
	l, lyeRead := p.s.Temperature(lye)
	o, oilsRead := p.s.Temperature(oils)
	if !lyeRead || !oilsRead {
		return 0, false
	}
	return p.mixOf(k, l.Fact.Temperature, o.Fact.Temperature), true
}

func (p *planner) mixOf(k pot, lye, oils quantity.Temperature) quantity.Temperature {
	return quantity.FromCelsius(p.together(k, lye.Celsius(), oils.Celsius())).RoundTo(quantity.Degree / 10)
}

// together gives the temperature in °C of a lye solution and oils that meet.
func (p *planner) together(k pot, lyeC, oilsC float64) float64 {
	part := k.ofPart(sum(k.alkali...) + sum(k.early...) + sum(k.water))
	return solution.MixTemperature(sum(k.allOils()...).Grams(), oilsC, p.lyeSolution(k).Made(part.Grams(), lyeC))
}

// wantOther asks of what is read second how warm it must be, so that with what was read
// first it gives what is wanted of both.
func (p *planner) wantOther(k pot, lye, oils *work.Task) {
	l, _ := p.s.Temperature(lye.ID)
	o, _ := p.s.Temperature(oils.ID)
	switch {
	case lye.Done && (!oils.Done || oils.Seq > lye.Seq):
		p.wantWith(oils, "lye solution", l.Fact.Temperature, k.recipe.MixAt, func(c float64) float64 { return p.together(k, l.Fact.Temperature.Celsius(), c) })
	case oils.Done:
		p.wantWith(lye, "oils", o.Fact.Temperature, k.recipe.MixAt, func(c float64) float64 { return p.together(k, c, o.Fact.Temperature.Celsius()) })
	}
}

// hottestOther is how warm the other may be asked to be: what is hotter than a hot bath
// burns by its heat alone (common practice, no source).
const hottestOther = 70 * quantity.Degree

// wantWith sets how warm a task's liquid must be beside one that was read. What cannot
// be had is not asked for: then the one that was read must cool, or be warmed.
func (p *planner) wantWith(t *work.Task, other string, read, both quantity.Temperature, mix func(c float64) float64) {
	wanted := quantity.FromCelsius(reaching(mix, both.Celsius())).RoundTo(quantity.Degree)
	switch {
	case max(wanted-both, both-wanted) < quantity.Degree/2:
		return
	case wanted < p.c.RoomTemperature():
		t.Hint = joined(t.Hint, fmt.Sprintf("The %s at %s must cool first: together %s is wanted.", other, read, both))
	case wanted > hottestOther:
		t.Hint = joined(t.Hint, fmt.Sprintf("The %s at %s must be warmed first: together %s is wanted.", other, read, both))
	default:
		t.Wanted = wanted
		t.Hint = joined(t.Hint, fmt.Sprintf("With the %s at %s it wants %s here, so that together they give %s.", other, read, wanted, both))
	}
}

// reaching gives where a function that is close to a straight line takes a value.
func reaching(f func(float64) float64, value float64) float64 {
	at := value
	for range 3 {
		slope := f(at+1) - f(at)
		if slope <= 0 { // It is all of the other.
			return at
		}
		at += (value - f(at)) / slope
	}
	return at
}

func joined(a, b string) string { return strings.TrimSpace(a + " " + b) }

// hardest gives the highest melting point of a batter's oils.
func (p *planner) hardest(k pot) (melts float64, name string) {
	for _, t := range k.oils {
		if o, _ := p.c.Oil(oilKey(k.recipe, t)); o.Hard && o.Melts > melts {
			melts, name = o.Melts, o.Name
		}
	}
	return melts, name
}
