package steps

import (
	"slices"

	"bench/internal/fill"
	"bench/internal/form"
	"bench/internal/quantity"
	"bench/internal/recipe"
)

// followLoaves takes every loaf up through its layers by what is poured into
// it, and notes where each surface lies. Loaves that get the same rise alike.
func (p *planner) followLoaves() {
	var masses []quantity.Mass
	var levels []form.FaceLayer
	var out fill.Out
	for i := range p.pours {
		p.pours[i].layer.Loaves = make([]LoafPour, p.c.Loaves)
	}
	for loaf := range p.c.Loaves {
		if m := p.got[loaf].masses; !slices.Equal(m, masses) || out != nil || p.out[loaf] != nil {
			masses, out = m, p.out[loaf]
			levels = p.size.Levels(m, out)
		}
		for i := range p.pours {
			r := &p.pours[i]
			tick, poured := p.s.Done(r.pourIDs[loaf])
			line := p.size.Middle(levels[i].PourLine)
			r.layer.Loaves[loaf] = LoafPour{
				Mass: masses[i], PourLine: line, Rim: p.c.Mould.Height - line, Surface: p.size.Middle(levels[i].Surface),
				Poured: poured && tick.Skipped == "", Face: levels[i],
			}
		}
	}
	for i := range p.pours {
		p.settleLayer(&p.pours[i])
	}
}

// settleLayer gives a layer the mean of its loaves, and what its vessel should
// be left with.
func (p *planner) settleLayer(r *pour) {
	l := &r.layer
	n := quantity.Length(0)
	for i, loaf := range l.Loaves {
		if !p.givenUp(i, r.at+1) {
			l.PourLine, l.Surface, n = l.PourLine+loaf.PourLine, l.Surface+loaf.Surface, n+1
		}
	}
	l.PourLine, l.Surface = l.PourLine/max(1, n), l.Surface/max(1, n)
	l.Rim = p.c.Mould.Height - l.PourLine
	l.LeftIn, l.Left = r.vessel.Name, min(p.c.LeftInVessel, l.Mass)
	if len(r.portions) > 0 {
		l.Left = max(0, net(r.gross)-sum(r.portions...))
	} else if tick, _ := p.s.Done(r.pourIDs[0]); tick.Mass > 0 {
		l.Left = max(0, l.Mass-tick.Mass)
	}
	if r.vessel.Tare > 0 {
		l.LeftReads = r.vessel.Tare + l.Left
	}
}

// loafMass is what reaches the mould: what its vessel holds, less what stays there.
func (p *planner) loafMass(r *pour, loaf int) quantity.Mass {
	return max(0, r.inJug(loaf)-p.c.LeftInVessel)
}

// inJug is what a loaf is poured out of: a portion and its scent, or of a single loaf
// all of the layer.
func (r *pour) inJug(loaf int) quantity.Mass {
	if len(r.portions) == 0 {
		return r.layer.Mass
	}
	mass := brought(&r.portions[loaf])
	if r.layer.Place == recipe.InPortions {
		n := len(r.recipe.Scents)
		mass += sum(r.scents[loaf*n : (loaf+1)*n]...)
	}
	return mass
}

// Displaced gives what embeds take of a layer's room in one loaf, both counted from 0, or
// nothing for one that there is not.
func (p Plan) Displaced(layer, loaf int) []fill.Displaced {
	face := p.Face(loaf).Layers
	if p.planner == nil || layer < 0 || layer >= len(face) {
		return nil
	}
	return p.planner.size.Displaced(face, layer)
}

// Face gives the cut face of one loaf, counted from 0, as it is planned or was
// really poured. It has no layers for a loaf that there is not.
func (p Plan) Face(loaf int) form.Face {
	face := form.Face{Section: p.Mould.Section()}
	for _, l := range p.Layers {
		if loaf >= 0 && loaf < len(l.Loaves) {
			face.Layers = append(face.Layers, l.Loaves[loaf].Face)
		}
	}
	return face
}
