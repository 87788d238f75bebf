package steps

import (
	"slices"

	"bench/internal/calc"
	"bench/internal/potcheck"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/uses"
	"bench/internal/work"
)

// Uses lists what each vessel of the plan is for; one that is emptied and filled again
// has several.
func (p Plan) Uses() uses.List {
	if p.planner == nil {
		return nil
	}
	var list uses.List
	for _, k := range p.planner.pots {
		list = append(list, p.planner.jugUse(k), p.planner.potUse(k))
	}
	for _, r := range p.planner.pours {
		list = append(list, p.planner.jugUses(r)...)
	}
	return p.planner.cupUses(p.Stages, list)
}

func (p *planner) jugUse(k pot) uses.Use {
	name := k.recipe.Name
	dissolved := p.ticked(DissolveID(name))
	_, made := p.lyeMade(name)
	u := uses.Use{
		Vessel: k.jug.Name, Kind: recipe.LyeJug, Lye: true, What: "the water of the " + name + " lye", Load: k.solution(),
		Full: !p.met(name) && holdsAny(p.jugContent(k)), Over: p.met(name), Alkali: dissolved, Burns: made, Drawn: k.portion.Mass > 0 && !p.met(name),
	}
	if dissolved || !u.Full {
		u.What = "the " + name + " lye solution"
	}
	if p.met(name) && k.portion.Mass > 0 && !p.ticked(rinsedID) { // A part was poured.
		u.What, u.Full, u.Over, u.Alkali = "the rest of the "+name+" lye solution", true, false, !p.ticked(keepLyeID(name))
	} else if p.met(name) {
		u.What, u.Left = "what is left of the "+name+" lye solution", p.notYet(rinsedID, "rinsed")
	}
	return u
}

func (p *planner) potUse(k pot) uses.Use {
	name, met := k.recipe.Name, p.met(k.recipe.Name)
	u := uses.Use{
		Vessel: k.vessel.Name, Kind: recipe.Pot, What: "the " + name + " oils", Load: p.potLoadOf(k),
		Full: holdsAny(p.potContent(k, met)) && !p.pouredOf(name), Over: p.pouredOf(name), Drawn: slices.ContainsFunc(k.parts, weighedAny),
	}
	if u.Burns = met; met {
		u.What = "the " + name + " batter"
	}
	if u.Over {
		u.What, u.Left = "raw "+name+" batter", p.notYet(wipedID, "wiped out")
	}
	for _, r := range p.pours {
		u.Drawn = u.Drawn || r.recipe.Batter == name && len(k.parts) == 0 && slices.ContainsFunc(r.portions, weighedAny)
	}
	return u
}

// notYet gives what is not done to a vessel before a task of the clean-up is, or "".
func (p *planner) notYet(task, what string) string {
	if p.ticked(task) || p.ticked(glovesID) {
		return ""
	}
	return what
}

func weighedAny(t work.Task) bool { return t.Mass > 0 }

func holdsAny(c potcheck.Content) bool {
	return slices.ContainsFunc(c.Parts, func(part calc.Candidate) bool { return part.In && part.Grams > 0 })
}

// pouredOf says that every layer of a batter is in the moulds.
func (p *planner) pouredOf(batter string) bool {
	return !slices.ContainsFunc(p.pours, func(r pour) bool { return r.recipe.Batter == batter && !p.poured(r) })
}

func (p *planner) poured(r pour) bool {
	return !slices.ContainsFunc(r.pourIDs, func(id string) bool { return !p.ticked(id) })
}

// jugUses are a layer's own jug, where its pot feeds several, and the loaves' jugs.
func (p *planner) jugUses(r pour) uses.List {
	var list uses.List
	if r.fromPot.ID != "" {
		list = append(list, uses.Use{
			Vessel: r.vessel.Name, Kind: recipe.Jug, What: "the batter of " + r.recipe.Name, Load: r.layer.Mass, Burns: true,
			Full: weighedAny(r.fromPot) && !p.poured(r), Over: p.poured(r), Drawn: slices.ContainsFunc(r.portions, weighedAny),
		})
	}
	for i, t := range r.portions {
		poured := p.ticked(r.pourIDs[i])
		list = append(list, uses.Use{
			Vessel: t.Into, Kind: recipe.Jug, What: "loaf " + p.words[i].no + "'s portion of " + r.recipe.Name, Load: amount(t).Mass, Burns: true,
			Full: weighedAny(t) && !poured, Over: poured,
		})
	}
	for i, u := range list {
		if u.Over && u.Load > 0 {
			list[i].What, list[i].Left = "raw "+r.recipe.Name+" batter", p.notYet(wipedID, "wiped out")
		}
	}
	return list
}

// cupUses adds the vessels in which something is weighed by itself, and what of it waits
// there.
func (p *planner) cupUses(stages []work.Stage, list uses.List) uses.List {
	dry, small := p.dryAlkali(), p.smallLye()
	own := len(list)
	for _, st := range stages {
		for _, t := range st.Tasks {
			if t.Do != work.Weigh || t.Vessel == "" || t.FromCup {
				continue
			}
			if i := slices.IndexFunc(list[:own], func(u uses.Use) bool { return u.Vessel == t.Vessel && u.Kind != recipe.Jug }); i >= 0 {
				list[i].Over = list[i].Over && t.Done // Such as water into a jug that was rinsed.
				continue
			}
			gone, waits := p.emptied[t.ID]
			u := uses.Use{
				Vessel: p.nowIn(t), Kind: p.rack.Kind(p.nowIn(t)), What: "the " + t.Material + forWhat(st), Load: t.SoFar + t.Remaining(),
				Full: waits && !gone && t.Mass > 0, Alkali: dry[t.ID], Burns: dry[t.ID] || small[t.ID] > 0, Lye: small[t.ID] > 0,
			}
			u.Load, u.Over = max(u.Load, t.Mass, small[t.ID]), t.Done && !u.Full
			list = append(list, u)
		}
	}
	return list
}

func forWhat(st work.Stage) string {
	switch {
	case st.Kind == work.LyeSolution:
		return " for the " + st.Batter + " lye"
	case st.Layer != "":
		return " for " + st.Layer
	case st.Batter != "":
		return " for " + st.Batter
	}
	return ""
}

// areEmptied says of every weighing that waits in a cup of its own whether that is empty
// again: dry alkali, colours that were wetted, scents that were weighed out.
func (p *planner) areEmptied() map[string]bool {
	list := map[string]bool{}
	for _, k := range p.pots {
		dissolved := p.ticked(DissolveID(k.recipe.Name))
		for _, t := range k.alkali {
			list[t.ID] = dissolved
		}
		for _, t := range slices.Concat(k.cup, k.early) {
			list[t.ID] = p.inJugYet(k, t)
		}
	}
	for _, a := range p.kept {
		list[a.id] = p.putAway(a)
	}
	for _, r := range p.pours {
		for i, t := range r.wetted {
			list[t.ID] = r.colours[i].Done
		}
		for i, t := range r.cups {
			list[t.ID] = r.scents[i].Done
		}
		if r.layer.Place == recipe.InPot {
			for _, t := range r.scents {
				list[t.ID] = p.ticked(ScentInID(r.recipe.Batter, r.recipe.Name))
			}
		}
	}
	return list
}

// smallLye gives, for the weighing of its water, how much a small lye solution comes to.
func (p *planner) smallLye() map[string]quantity.Mass {
	list := map[string]quantity.Mass{}
	for _, k := range p.pots {
		dry, _ := p.moreDry(k)
		for _, t := range k.cup {
			if t.Material == recipe.Water {
				list[t.ID] = sum(k.cup...) + quantity.FromGrams(dry)
			}
		}
	}
	return list
}

// dryAlkali names the weighings of dry hydroxide.
func (p *planner) dryAlkali() map[string]bool {
	list := map[string]bool{}
	for _, k := range p.pots {
		for _, t := range slices.Concat(k.alkali, k.early) {
			m, _ := p.c.Material(t.Material)
			list[t.ID] = m.Stock == 0
		}
	}
	for _, a := range p.kept {
		list[a.id] = true
	}
	return list
}
