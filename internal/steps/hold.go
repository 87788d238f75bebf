package steps

import (
	"fmt"
	"slices"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/scent"
	"bench/internal/work"
)

// Hold is a reason why the bars may not leave before something was done about
// it, whether or not it was read.
type Hold struct {
	Batter string
	Layer  string // Layer is empty where all of the batter is meant.
	Brief  string // Brief is one line for the bench.
	Words  string
	Ask    string // Ask says which figure of the words is to be typed.
	Figure string // Figure is that figure, in per cent and without a sign.
	Look   int    // Look numbers the look into a vessel that is not answered; one is answered as such.
}

// holds lists what the weights so far hold the bars for: a superfat band below
// zero, a scent that really is over its limit, and a vessel that weighed other than the
// facts say: what nobody has explained is in the soap.
func (p *planner) holds(batters []Batter, looks []Deviation) []Hold {
	var list []Hold
	for _, b := range batters {
		if b.Superfat.Low < 0 {
			list = append(list, Hold{
				Batter: b.Name, Brief: b.Name + ": the superfat band reaches below zero",
				Words: fmt.Sprintf("%s: the superfat may be as low as %.1f %% (%.1f %% at best knowledge): free alkali cannot be ruled out. Test pH or free alkali before a bar is released.",
					b.Name, b.Superfat.Low, b.Superfat.Percent),
				Ask: "how many per cent below zero the superfat may be", Figure: fmt.Sprintf("%.1f", -b.Superfat.Low),
			})
		}
	}
	for _, r := range p.pours {
		if x, ok := p.excess(r); ok {
			h := Hold{Batter: r.recipe.Batter, Layer: r.recipe.Name, Brief: r.recipe.Name + ": scent over its limit in the cured bar"}
			h.sayExcess(x)
			list = append(list, h)
		}
	}
	for _, d := range looks {
		list = append(list, Hold{
			Batter: d.Batter, Look: d.Look,
			Words: d.Words + ". Not explained: weigh it again, or say why (key d), before a bar is released.",
		})
	}
	return list
}

// sayExcess says what is over, and which figure shows that it was read.
func (h *Hold) sayExcess(x scent.Excess) {
	if x.Limit == 0 {
		h.Words = fmt.Sprintf("%s: together its scents use %.0f %% of their limits in the cured bar. Hold the bars until a remedy is recorded.", h.Layer, x.Percent)
		h.Ask, h.Figure = "how much of their limits the scents use, in per cent", fmt.Sprintf("%.0f", x.Percent)
		return
	}
	h.Words = fmt.Sprintf("%s: %s is %.2f %% of the cured bar, and its limit is %s. Hold the bars until a remedy is recorded; a certificate that allows more is one (key c).",
		h.Layer, x.Material, x.Percent, x.Limit)
	h.Ask, h.Figure = "how much of the cured bar "+x.Material+" is, in per cent", fmt.Sprintf("%.2f", x.Percent)
}

// stated gives the control recipe with the limits that were stated since.
func (p *planner) stated() recipe.Control {
	c := p.c
	for _, f := range batch.All[batch.LimitStated](p.s) {
		if i := slices.IndexFunc(c.Materials, func(m recipe.Material) bool { return m.Name == f.Fact.Material }); i >= 0 {
			c.Materials = slices.Clone(c.Materials)
			c.Materials[i].Limit = f.Fact.Limit
		}
	}
	return c
}

// excess says what a layer's scents are over their limits by, in the loaf that
// got most. Planned over is an error of the recipe, so only weighings can be.
func (p *planner) excess(r pour) (scent.Excess, bool) {
	n, limits := len(r.recipe.Scents), p.stated()
	for at := 0; at+n <= len(r.scents) && n > 0; at += n {
		masses, weighed, batter := make([]quantity.Mass, n), false, r.layer.Mass
		for i, t := range r.scents[at : at+n] {
			masses[i], weighed = amount(t).Mass, weighed || t.Done
		}
		if len(r.scents) > n { // One a loaf: it is in that loaf's portion.
			batter = amount(r.portions[at/n]).Mass + sum(r.scents[at:at+n]...)
		}
		if x, over := scent.Over(limits, r.recipe, masses, batter, r.scents[at].Reads); over && weighed {
			return x, true
		}
	}
	return scent.Excess{}, false
}

// OverLimit gives the layers whose scents are over their limits, as weighed.
func (p Plan) OverLimit() []recipe.Layer {
	if p.planner == nil {
		return nil
	}
	var list []recipe.Layer
	for _, r := range p.planner.pours {
		if _, over := p.planner.excess(r); over {
			list = append(list, r.recipe)
		}
	}
	return list
}

// overFor says that the layer of a scent's weighing is over its limit.
func (p *planner) overFor(id string) bool {
	for _, r := range p.pours {
		for _, t := range r.scents {
			if t.ID == id {
				_, over := p.excess(r)
				return over
			}
		}
	}
	return false
}

// Unread is a warning that was not answered yet.
type Unread struct {
	Hold
	About string // About is what the fact that it was read names.
}

// unread lists the holds that nobody has read. Each is said once; a look that is not
// answered stands in the deviations already.
func (p *planner) unread(holds []Hold) []Unread {
	if p.s.Ended() {
		return nil
	}
	var list []Unread
	for _, h := range holds {
		if h.Look > 0 {
			continue
		}
		u := Unread{h, h.Batter}
		if h.Layer != "" {
			u.About = "scent/" + h.Layer
		}
		if !p.s.WarningSeen(u.About) {
			list = append(list, u)
		}
	}
	return list
}

// mayNotMeet says at the gate that lye solution and oils may not meet before a warning of
// their batter is answered.
func (p Plan) mayNotMeet() {
	for _, u := range p.Unread {
		for i := range p.Stages {
			if st := &p.Stages[i]; u.Layer == "" && st.Kind == work.Gate && st.Batter == u.Batter {
				for j := range st.Tasks {
					if t := &st.Tasks[j]; t.ID == MeetID(u.Batter) && !t.Done && t.Shows != "" {
						t.Title = "Together they give " + t.Shows + ", but may not meet before the warning is answered (key d)"
					}
				}
			}
		}
	}
}
