package steps

import (
	"fmt"
	"slices"

	"bench/internal/batch"
	"bench/internal/calc"
	"bench/internal/potcheck"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/timer"
	"bench/internal/work"
)

// The policy of this file: what the weight of a vessel showed counts until it is answered.
// It is when the vessel was weighed again and is as it should be, when the facts were put
// right so that they explain that weight, or when somebody says why it is right. Until
// then the lye waits, it stands in the deviations, and the bars are held.

// AfterLook answers a look into a vessel. Without a fact the vessel is weighed again, or
// the reason is asked for.
type AfterLook struct {
	Kind   LookKind
	Fact   batch.Fact
	Finds  string // Finds is what the look showed, in words.
	Vessel string
	Seq    int // Seq numbers the look.
}

// LookKind is how a look is answered.
type LookKind string

// The answers to a look.
const (
	WeighAgain LookKind = "weigh again"
	CountAs    LookKind = "count as"  // CountAs corrects a weight that was kept.
	KeepIt     LookKind = "keep"      // KeepIt keeps what was in, or out, without a fact.
	TakeBack   LookKind = "take back" // TakeBack takes back that something was poured out.
	SaySo      LookKind = "say so"
)

// looksOff finds the vessels whose last weight is off and not answered.
func (p *planner) looksOff() []Deviation {
	looks := p.s.Looks()
	if len(looks) == 0 {
		return nil
	}
	var list []Deviation
	for i, look := range looks {
		again := slices.ContainsFunc(looks[i+1:], func(l batch.Look) bool {
			now, _ := p.standsIn(look.Fact.Vessel, 0, look.Seq)
			return l.Fact.Vessel == look.Fact.Vessel || l.Fact.Vessel == now
		})
		if again || potcheck.Fine(look.Fact.Finding) || p.s.PotAnswered(look.Seq) {
			continue
		}
		if found, ok := p.stillOff(look); ok {
			list = append(list, Deviation{
				Batter: found.Batter, Off: quantity.FromGrams(found.Difference), Look: look.Seq, Vessel: look.Fact.Vessel,
				Words: look.Fact.Vessel + ": " + found.Words,
			})
		}
	}
	return list
}

// stillOff holds a look against the facts of its time as they now stand, and what was
// kept because of it.
func (p *planner) stillOff(look batch.Look) (PotFinding, bool) {
	then := slices.Clone(p.s.Entries[:look.Seq-1])
	for _, e := range p.s.Entries[look.Seq:] {
		belongs := false
		switch f := e.Fact.(type) {
		case batch.Corrected:
			belongs = f.Seq < look.Seq
		case batch.Withdrawn:
			belongs = f.Seq < look.Seq
		case batch.Weighed:
			belongs = f.Look == look.Seq && !p.s.Withdrawn(e.Seq)
		default:
		}
		if belongs {
			e.Seq = len(then) + 1
			then = append(then, e)
		}
	}
	plan, _ := planOf(batch.Fold(then))
	found, err := plan.PotCheck(look.Fact.Vessel, look.Fact.Gross)
	return found, err == nil && !found.AsExpected()
}

// mostNamed is how many explanations are offered, so that the answers fit side by side.
const mostNamed = 2

// afterLook gives the answers to a look that was off.
func (p *planner) afterLook(plan Plan, d Deviation) []WayOn {
	i := slices.IndexFunc(p.s.Looks(), func(l batch.Look) bool { return l.Seq == d.Look })
	if i < 0 {
		return nil
	}
	look := p.s.Looks()[i]
	found, off := p.stillOff(look)
	if !off {
		return nil
	}
	answer := func(kind LookKind, title string, f batch.Fact) WayOn {
		w := WayOn{Look: &AfterLook{Kind: kind, Fact: f, Finds: found.Words, Vessel: d.Vessel, Seq: d.Look}}
		w.Title, w.Until = title, "there at any time"
		if f != nil {
			after, _ := planOf(p.s.With(f, timer.Moment{}))
			w.Outcome = outcome(plan, after, d.Batter)
		}
		return w
	}
	var list []WayOn
	now, _ := p.standsIn(d.Vessel, 0, d.Look)
	if slices.ContainsFunc(p.vessels(), func(c potcheck.Content) bool { return c.Vessel == now }) {
		w := answer(WeighAgain, "Weigh "+now+" again, untared", nil)
		w.Look.Vessel, w.Default = now, true
		list = append(list, w)
	}
	named := 0
	for _, faults := range found.Explanations {
		if len(faults) != 1 || named == mostNamed {
			continue
		}
		if kind, title, f := p.putRight(plan, look, faults[0], d.Off); f != nil {
			list = append(list, answer(kind, title, f))
			named++
		}
	}
	return append(list, answer(SaySo, "It is right as it was kept: say how you know", nil))
}

// putRight gives the fact by which one fault alone is no fault any more, or nil. Lye and
// alkali are never corrected by the weight of a vessel.
func (p *planner) putRight(plan Plan, look batch.Look, fault calc.Fault, off quantity.Mass) (kind LookKind, title string, f batch.Fact) {
	t, ok := p.theOne(plan, look, fault)
	if !ok {
		return "", "", nil
	}
	if fault.Kind == calc.Unrecorded || fault.Kind == calc.PouredOut {
		m := off.Abs().RoundTo(t.Reads)
		return KeepIt, fmt.Sprintf("%s: keep %s", said(fault), m.Reading(t.Reads)), batch.Weighed{
			Task: t.ID, Material: t.Material, Lot: t.Lot, Target: t.Target, Mass: m, How: batch.Typed,
			Scale: t.Scale, Reads: t.Reads, Vessel: t.Vessel, Tare: t.Tare, Within: t.Tolerance, Look: look.Seq,
		}
	}
	w := p.s.Weighings(t.ID)
	if len(w) != 1 {
		return "", "", nil
	}
	with := w[0].Fact
	if fault.Kind == calc.Stayed {
		return TakeBack, said(fault) + ": take it back that it was poured; it is asked for again",
			batch.Withdrawn{Seq: w[0].Seq, Reason: fmt.Sprintf("by the weight of %s (no. %d)", look.Fact.Vessel, look.Seq)}
	}
	then := "what follows from it is asked next (d)"
	with.Mass, with.How = max(0, with.Mass+off).RoundTo(t.Reads), batch.Typed
	if fault.Kind == calc.Missing {
		with.Mass, then = 0, "then d: add it"
	}
	return CountAs, fmt.Sprintf("%s: count it as %s; %s", said(fault), with.Mass.Reading(t.Reads), then),
		batch.Corrected{Seq: w[0].Seq, Reason: fmt.Sprintf("by the weight of %s (no. %d)", look.Fact.Vessel, look.Seq), With: with}
}

func said(fault calc.Fault) string { return recipe.Capital(potcheck.Say(fault)) }

// theOne finds the weighing that a fault is of, if there is one alone.
func (p *planner) theOne(plan Plan, look batch.Look, fault calc.Fault) (one work.Task, ok bool) {
	some := 0
	for _, st := range plan.Stages {
		for _, t := range st.Tasks {
			here := t.Vessel == look.Fact.Vessel || t.Into == look.Fact.Vessel
			fits := false
			switch fault.Kind {
			case calc.Missing, calc.Twice:
				_, made := p.lyeMade(st.Batter)
				fits = t.Do == work.Weigh && t.Done && t.Skipped == "" && t.Seq < look.Seq && (!made || st.Kind != work.LyeSolution)
			case calc.Unrecorded:
				fits = t.Do == work.Weigh && t.Open && !t.Done
			case calc.PouredOut:
				fits = t.Open && !t.Done && PouredAs(t, fault.Name)
			case calc.Stayed:
				fits = t.Done && t.Skipped == "" && t.Seq < look.Seq && PouredAs(t, fault.Name)
			}
			if fits && here && !t.MustType && !t.Out && (t.Material == fault.Name || t.Do == work.Portion) {
				one, some = t, some+1
			}
		}
	}
	return one, some == 1
}
