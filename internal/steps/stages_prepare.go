package steps

import (
	"fmt"
	"slices"
	"strings"

	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/work"
)

func (p *planner) setOut() work.Stage {
	s := work.Stage{
		ID: setOutID, Kind: work.SetOut, Title: "set out",
		Why: "Everything within reach before the first lye: nothing can be looked for once the batter thickens.",
	}
	needs, sticks, embeds := p.needs(), p.stickTasks(), p.readySticks()
	s.Tasks = append(make([]work.Task, 0, 3+len(needs)+len(embeds)+len(sticks)),
		p.tick(protectionID, "Gloves, goggles and long sleeves on; window open",
			"Lye burns. First aid is water, at once and long; never vinegar. The supplier's safety data sheet comes first."),
		p.tick("set out/scales", "Scales level, dry and checked with a known weight", p.scaleHint()),
		p.tick(MouldsID, fmt.Sprintf("%d × %s, clean and lined", p.c.Loaves, p.c.Mould.Name), ""))
	for _, n := range needs {
		t := p.tick("set out/"+n.name, n.name, "")
		t.Material, t.Lot, t.Target, t.Reads = n.name, n.lot, n.mass, quantity.Gram/10
		t.Hint = "Enough for all loaves: " + n.mass.Reading(t.Reads) + "."
		if n.lot != "" {
			t.Hint += " Lot " + n.lot + "."
		}
		s.Tasks = append(s.Tasks, t)
	}
	s.Tasks = append(append(s.Tasks, embeds...), sticks...)
	return s
}

func (p *planner) scaleHint() string {
	if len(p.tooFine) > 0 {
		return p.tooFine[0]
	}
	return ""
}

// need is a material and how much of it the whole batch takes.
type need struct {
	name, lot string
	mass      quantity.Mass
}

// needs sums every weighing up by material, in the order of use.
func (p *planner) needs() []need {
	var list []need
	at := map[string]int{}
	add := func(tasks ...work.Task) {
		for j := range tasks {
			t := &tasks[j]
			i, seen := at[t.Material]
			if !seen {
				i = len(list)
				at[t.Material] = i
				list = append(list, need{name: t.Material, lot: t.Lot})
			}
			list[i].mass += t.Target
		}
	}
	for _, k := range p.pots {
		add(k.water)
		add(k.alkali...)
		add(k.oils...)
		add(k.additives...)
	}
	for _, r := range p.pours {
		if len(r.wetted) > 0 {
			add(r.wetted...)
		} else {
			add(r.colours...)
		}
		if len(r.cups) > 0 {
			add(r.cups...)
		} else {
			add(r.scents...)
		}
	}
	for _, r := range p.pours {
		add(r.mica...)
	}
	add(p.toppings...)
	return list
}

func (p *planner) lye(k pot) work.Stage {
	name := k.recipe.Name
	s := work.Stage{
		ID: lyeStageID(name), Kind: work.LyeSolution, Batter: name, Title: of("lye", name), Ordered: true, After: []string{setOutID},
		Why: "Early, because it gets hot and must cool. Alkali into water, never water into alkali.",
	}
	s.Tasks = append(make([]work.Task, 0, len(k.additives)+len(k.alkali)+4), k.water)
	for i, a := range k.recipe.Additives {
		if a.In == recipe.InLyeWater {
			s.Tasks = append(s.Tasks, k.additives[i])
		}
	}
	s.Tasks = append(s.Tasks, k.alkali...)
	s.Tasks = append(s.Tasks, p.tick(DissolveID(name), p.lyeSolution(k).Order(),
		p.lyeSolution(k).SayPeak()+". Stand back, do not breathe it in. Lid on loosely, out of reach, to cool."))
	s.Tasks = append(s.Tasks, p.moreLye(k)...)
	s.Tasks = append(s.Tasks, p.dissolvedJug(k))
	alkalis, _ := k.inJug()
	words := make([]string, len(alkalis))
	for i, t := range k.alkali {
		words[i] = t.Material + " " + quantity.FromGrams(alkalis[i]).Reading(t.Reads)
	}
	s.ReadBack = fmt.Sprintf("%s in water %s: lye concentration %.1f %%",
		strings.Join(words, ", "), amount(k.water).Mass.Reading(k.water.Reads), 100*p.strength(k))
	return s
}

func (p *planner) oilStage(k pot, later bool) work.Stage {
	name := k.recipe.Name
	s := work.Stage{
		ID: oilStageID(name), Kind: work.Oils, Batter: name, Title: of("oils", name), After: []string{setOutID}, Meanwhile: later,
		Why: "Hard oils first, melted clear; then the liquid ones, which cool them.",
	}
	if later {
		s.Why = "While the layer below sets. " + s.Why
	}
	with, after := p.withMelt(k)
	hard := 0
	s.Tasks = make([]work.Task, 0, len(k.oils)+len(k.additives)+len(k.more)+1)
	for i, t := range k.oils {
		o, _ := p.c.Oil(oilKey(k.recipe, t))
		if !o.Hard && hard == i && i > 0 {
			s.Tasks = append(append(s.Tasks, with...), p.melt(name))
		}
		if o.Hard {
			hard++
		}
		s.Tasks = append(s.Tasks, t)
	}
	if hard == len(k.oils) {
		s.Tasks = append(append(s.Tasks, with...), p.melt(name))
	}
	for i, a := range k.recipe.Additives {
		if a.In == recipe.InOils {
			s.Tasks = append(s.Tasks, k.additives[i])
		}
	}
	s.Tasks = append(s.Tasks, after...)
	s.Tasks = append(s.Tasks, p.meltMore(k, after)...)
	s.ReadBack = fmt.Sprintf("oils %s g in the %s pot", sum(k.allOils()...).At(k.oils[0].Reads), name)
	return s
}

func (p *planner) melt(batter string) work.Task {
	t := p.tick(meltID(batter), "Warm the hard oils until they are melted clear", "Gently: hot oil burns, and what is too hot must cool again.")
	t.Signal = "Melt clear"
	return t
}

// withMelt parts the oils that were decided upon: hard ones go in with the other hard oils
// as long as those were not melted, the rest comes after.
func (p *planner) withMelt(k pot) (with, after []work.Task) {
	if o, _ := p.c.Oil(oilKey(k.recipe, k.oils[0])); !o.Hard { // Nothing was to be melted.
		return nil, k.more
	}
	melted, ticked := p.s.Done(meltID(k.recipe.Name))
	for _, t := range k.more {
		o, _ := p.c.Oil(oilKey(k.recipe, t))
		if o.Hard && (!ticked || t.Done && t.Seq < melted.Seq) {
			with = append(with, t)
		} else {
			after = append(after, t)
		}
	}
	return with, after
}

// meltMore asks again whether all is clear, once a hard oil was added to what was.
func (p *planner) meltMore(k pot, after []work.Task) []work.Task {
	t := p.tick(moreMeltID(k.recipe.Name), "Warm the oils until they are melted clear again", "Gently: hot oil burns, and what is too hot must cool again.")
	t.Signal = "Melt clear"
	hard := slices.ContainsFunc(after, func(more work.Task) bool {
		o, _ := p.c.Oil(oilKey(k.recipe, more))
		return o.Hard
	})
	if !hard && !t.Done || p.met(k.recipe.Name) && !t.Done { // A batch of before did without.
		return nil
	}
	return []work.Task{t}
}

func (p *planner) tick(id, title, hint string) work.Task { return work.Ticked(p.s, id, title, hint) }
