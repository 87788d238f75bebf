package steps

import (
	"fmt"
	"slices"
	"time"

	"bench/internal/batch"
	"bench/internal/timer"
	"bench/internal/work"
)

// lookEvery is how often to look while a layer sets (common practice, no source).
const lookEvery = 5 * time.Minute

// timers gives what runs now. Nothing is started by hand: a timer follows from
// the fact that began it, and ends with the fact that answers it.
func (p *planner) timers(stages []work.Stage) []timer.Timer {
	var list []timer.Timer
	for _, k := range p.pots {
		list = append(list, p.potTimers(k)...)
	}
	for _, r := range p.pours {
		list = append(list, p.lookTimers(r)...)
	}
	list = append(list, p.after.Timers(stages)...)
	for i := range list {
		if w, ok := p.s.Timer(list[i].ID); ok && stands(list[i], w) {
			list[i].Seen, list[i].Deferred, list[i].DeferFor = w.Seen, w.At, w.For
		}
	}
	return list
}

// stands says that a word on a timer was said of it as it is now: not before it was put off
// otherwise, and not seen before it fell due, which a correction may have made later.
func stands(t timer.Timer, w batch.TimerWord) bool {
	return !w.At.Wall.Before(t.Deferred.Wall) && (!w.Seen || t.Remaining(w.At) <= 0)
}

// potTimers count up: lye solution cooling, with the forecast of when it is
// cool enough, and batter since the lye met the
// oils until its last layer is poured.
func (p *planner) potTimers(k pot) []timer.Timer {
	b := k.recipe
	if met, ok := p.s.Done(CombineID(b.Name)); ok {
		for _, at := range p.c.Recipe.LayersOf(b.Name) {
			if _, poured := p.lastPour(p.pours[at]); !poured {
				return []timer.Timer{{ID: "batter/" + b.Name, Label: b.Name + " batter since the lye went in", Start: met.At}}
			}
		}
		return nil
	}
	if dissolved, ok := p.s.Done(DissolveID(b.Name)); ok {
		list := []timer.Timer{{ID: "lye/" + b.Name, Label: b.Name + " lye solution cooling", Start: dissolved.At}}
		if cool, err := p.cooling(k).Timer(); err == nil && !p.ticked(MeetID(b.Name)) { // That they may meet answers it.
			list = append(list, cool)
		}
		return list
	}
	return nil
}

// lookTimers ask for a look every five minutes while a layer sets; each look
// that was seen starts the next. The two waits are timed each for itself: nobody
// is to look whether the layer is firm while the embeds are going in.
func (p *planner) lookTimers(r pour) []timer.Timer {
	name := r.recipe.Name
	poured, ok := p.lastPour(r)
	if !ok || p.covered(r) {
		return nil
	}
	if len(r.recipe.Embeds) > 0 {
		placed, in := p.s.LastDone(p.pressedIn(r))
		switch {
		case !in && !p.ticked(embedsStayID(name)):
			return p.looks(name, "embeds", "do embeds stay put?", poured)
		case !in:
			return nil
		}
		poured = placed
	}
	if r.at == len(p.pours)-1 || p.ticked(firmID(name)) {
		return nil
	}
	return p.looks(name, "firm", "does it take a pour?", poured)
}

// covered says that a layer is out of reach: another was poured over it, or the moulds are
// covered, or a loaf is out of its mould. Nobody looks whether it sets any more.
func (p *planner) covered(r pour) bool {
	return slices.ContainsFunc(p.pours[r.at+1:], p.pouredAny) || p.ticked(coverID) || p.ticked(glovesID) || p.after.Unmoulded() > 0
}

// looks gives the look that is next in a row of them.
func (p *planner) looks(layer, wait, what string, start timer.Moment) []timer.Timer {
	for n := 1; ; n++ {
		t := timer.Timer{
			ID: fmt.Sprintf("%s%s/%s/%d", work.LookTimer, layer, wait, n), Label: fmt.Sprintf("look at %s: %s", layer, what),
			Start: start, After: lookEvery, Priority: timer.Soon,
		}
		w, said := p.s.Timer(t.ID)
		if !said || !w.Seen {
			return []timer.Timer{t}
		}
		start = w.At
	}
}

func (p *planner) ticked(id string) bool {
	_, ok := p.s.Done(id)
	return ok
}

// lastPour gives the moment at which the last loaf got this layer.
func (p *planner) lastPour(r pour) (at timer.Moment, ok bool) {
	return p.s.LastDone(r.pourIDs)
}

// pressedIn are the tasks of pressing a layer's embeds into each loaf.
func (p *planner) pressedIn(r pour) []string {
	var ids []string
	for loaf := range p.c.Loaves {
		for _, e := range r.recipe.Embeds {
			if !e.Stood {
				ids = append(ids, EmbedTask(r.recipe.Name, loaf, e.Name))
			}
		}
	}
	return ids
}
