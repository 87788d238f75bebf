package paper

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/say"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/work"
)

// used lists the weighings of one kind, a line for each container. What goes in out
// of its cup was weighed into that before: it is a portion, and counts once.
func (r recorder) used(kind work.Do) []UsedJSON {
	list := []UsedJSON{}
	for _, st := range r.plan.Stages {
		for _, t := range st.Tasks {
			if portion := t.FromCup || t.OfBatter(); portion != (kind == work.Portion) || !portion && t.Do != kind {
				continue
			}
			goes, all := r.s.Weighings(t.ID), quantity.Mass(0)
			for i, w := range goes {
				all += w.Fact.Mass
				used := r.weighing(st, t, w)
				if len(goes) > 1 { // Each alone would read as if the rest were missing.
					used.How += fmt.Sprintf(", %d of %d, so far %s", i+1, len(goes), all.At(w.Fact.Reads))
				}
				list = append(list, used)
			}
		}
	}
	return list
}

func (r recorder) weighing(st work.Stage, t work.Task, w batch.Weighing) UsedJSON {
	f := w.Fact
	name := f.Material
	if t.OfBatter() {
		name = t.Title
	}
	how := string(f.How)
	switch {
	case f.How == batch.ByEye:
		how = "by eye, not weighed"
	case t.FromCup:
		how = "out of its cup"
	}
	if what, ok := strings.CutPrefix(t.Title, t.Material); ok && what != "" { // Such as "for loaf 1".
		how += "," + strings.TrimPrefix(what, ",")
	}
	return UsedJSON{
		Stage: st.Title, Material: name, Lot: f.Lot, Asked: grams(f.Target), Within: grams(cmp.Or(f.Within, t.Tolerance)), Weighed: grams(f.Mass),
		Reads: grams(f.Reads), How: how, Scale: f.Scale, Vessel: f.Vessel, At: r.at(w.At),
	}
}

// laid lists the embeds that went in, by stage, lot and stick: the sticks by their length, and
// the dough that they were formed of by what that weighs.
func (r recorder) laid() []UsedJSON {
	list := []UsedJSON{}
	type row struct{ stage, material, lot, stick string }
	rows := []row{}
	add := func(u UsedJSON, l steps.Laid) {
		of := row{u.Stage, u.Material, l.Lot, l.Stick}
		i := slices.Index(rows, of)
		if i < 0 {
			i, rows = len(list), append(rows, of)
			list = append(list, UsedJSON{Stage: u.Stage, Material: u.Material, Lot: l.Lot})
		}
		sum := &list[i]
		sum.Length, sum.BySize, sum.At = sum.Length+u.Length, sum.BySize+u.BySize, u.At
		switch by := quantity.Mass(sum.BySize).At(quantity.Gram); {
		case sum.Length == 0:
			sum.How = fmt.Sprintf("in %s, some %s g by its size", l.Stick, by)
		case sum.BySize == 0:
			sum.How = fmt.Sprintf("laid, %s", quantity.Length(sum.Length))
		default:
			sum.How = fmt.Sprintf("laid, %s, some %s g by its size", quantity.Length(sum.Length), by)
		}
	}
	for _, st := range r.plan.Stages {
		for i := range st.Tasks {
			done, ticked := r.s.Done(st.Tasks[i].ID)
			l, ok := steps.LaidBy(r.s.Control, st.Tasks[i].ID)
			if !ok || !ticked || done.Skipped != "" {
				continue
			}
			u := UsedJSON{Stage: st.Title, Material: l.Stick, Length: millimetres(l.Length), At: r.at(done.At)}
			if l.Dough == "" || l.Dough == l.Stick {
				u.BySize = grams(l.Mass)
				add(u, l)
				continue
			}
			add(u, l)
			u.Material, u.Length, u.BySize = l.Dough, 0, grams(l.Mass)
			add(u, l)
		}
	}
	return list
}

func (r recorder) batters() []MadeJSON {
	list := []MadeJSON{}
	for _, b := range r.plan.Batters {
		if !b.Weighed() { // Nothing has come out of it yet.
			continue
		}
		list = append(list, MadeJSON{
			Name: b.Name, Mass: grams(b.Mass), Lye: decimal(100 * b.Concentration), Asked: decimal(100 * b.Asked.Fraction()),
			Superfat: decimal(b.Superfat.Percent), Low: decimal(b.Superfat.Low), High: decimal(b.Superfat.High),
		})
	}
	return list
}

// equipment names the mould, and the vessels and scales that facts name.
func (r recorder) equipment() []string {
	m := r.plan.Mould
	list := []string{fmt.Sprintf("mould: %d × %s, %s × %s × %s inside", r.plan.Loaves, m.Name, m.Length, m.Width, m.Height)}
	add := func(vessel string, tare quantity.Mass, scale string, reads quantity.Mass) {
		switch {
		case vessel != "" && tare > 0:
			list = appendNew(list, fmt.Sprintf("vessel: %s, empty %s", vessel, tare))
		case vessel != "":
			list = appendNew(list, fmt.Sprintf("vessel: %s, its empty weight was not known", vessel))
		}
		if scale != "" {
			list = appendNew(list, fmt.Sprintf("scale: %s, reads to %s", scale, reads))
		}
	}
	for _, e := range r.s.Entries {
		switch f := e.Fact.(type) {
		case batch.Weighed:
			add(f.Vessel, f.Tare, f.Scale, f.Reads)
		case batch.Grossed:
			add(f.Vessel, f.Tare, f.Scale, f.Reads)
		case batch.BarsWeighed:
			add("", 0, f.Scale, f.Reads)
		case batch.WeighedIn:
			add("", 0, f.Scale, f.Reads)
		default: // No other fact names a thing.
		}
	}
	for _, st := range r.plan.Stages {
		for i := range st.Tasks {
			if t := &st.Tasks[i]; t.Do == work.Portion && t.Mass > 0 {
				add(t.Into, r.emptyOf(t.Into), "", 0)
			}
		}
	}
	slices.SortStableFunc(list[1:], func(x, y string) int { return cmp.Compare(y[:5], x[:5]) }) // Vessels, then scales.
	return list
}

// emptyOf gives what a vessel of the plan weighs empty, or zero where nobody said.
func (r recorder) emptyOf(vessel string) (tare quantity.Mass) {
	for _, v := range r.s.Control.Vessels {
		if v.Name == vessel {
			tare = v.Tare
		}
	}
	for _, by := range r.s.Replacements() {
		if by.Fact.By == vessel {
			tare = by.Fact.Tare
		}
	}
	return tare
}

func appendNew(list []string, words string) []string {
	if words == "" || slices.Contains(list, words) {
		return list
	}
	return append(list, words)
}

// work gives the stages that have begun, with their first and last times.
func (r recorder) work() []WorkJSON {
	list, when := []WorkJSON{}, map[string][]timer.Moment{}
	for _, e := range batch.Standing(r.s.Entries) {
		if _, later := e.Fact.(batch.Corrected); !later { // No work is done by it.
			id := batch.Task(e.Fact)
			when[id] = append(when[id], happened(e))
		}
	}
	for _, st := range r.plan.Stages {
		w := WorkJSON{Stage: st.Title, Done: st.Done}
		for _, t := range st.Tasks {
			for _, m := range when[t.ID] { // A bar is weighed in again and again.
				at := r.at(m)
				if at != "" && (w.From == "" || m.Wall.Before(parsed(w.From))) {
					w.From = at
				}
				if at != "" && (w.To == "" || m.Wall.After(parsed(w.To))) {
					w.To = at
				}
			}
		}
		if w.From != "" {
			list = append(list, w)
		}
	}
	return list
}

// happened gives when a fact was so, as far as that was said.
func happened(e batch.Entry) timer.Moment {
	if f, ok := e.Fact.(batch.Ticked); ok && !f.When.IsZero() {
		return timer.Moment{Wall: f.When}
	}
	if at := batch.SaidOf(e.Fact).When; !at.IsZero() {
		return timer.Moment{Wall: at}
	}
	return e.At
}

// checked are the stages whose ticks are checks with a time: what has set, what
// was mixed, what was poured.
func checked(k work.Kind) bool {
	switch k {
	case work.Gate, work.LyeIntoOils, work.TraceStage, work.Pour, work.ScentAndPour, work.HoldEmbeds, work.Embeds, work.HoldLayer, work.Unmould:
		return true
	default:
		return false
	}
}

// checks lists temperatures, gross weights, traces and looks as they now stand.
func (r recorder) checks() []CheckJSON {
	list := []CheckJSON{}
	for _, st := range r.plan.Stages {
		for _, t := range st.Tasks {
			if c, ok := r.check(st, t); ok {
				list = append(list, c)
			}
		}
	}
	for _, f := range batch.All[batch.GelLooked](r.s) {
		list = append(list, r.looked(f.Seq, r.at(f.Moment()), f.Fact))
	}
	for _, e := range batch.Standing(r.s.Entries) {
		switch f := e.Fact.(type) {
		case batch.PotWeighed:
			list = append(list, r.looked(e.Seq, r.at(e.At), f))
		case batch.TemperatureTaken: // An earlier reading of what was read again.
			if last, _ := r.s.Temperature(f.Task); last.Seq != e.Seq {
				t, st, _ := r.plan.Task(f.Task)
				list = append(list, r.temperature(st, t, r.at(e.At), f))
			}
		default: // Everything else stands at its task.
		}
	}
	slices.SortStableFunc(list, func(x, y CheckJSON) int { return parsed(x.At).Compare(parsed(y.At)) })
	return list
}

// temperature is a reading; its task's title ends with the last one.
func (r recorder) temperature(st work.Stage, t work.Task, at string, f batch.TemperatureTaken) CheckJSON {
	c := CheckJSON{At: at, Stage: st.Title, What: t.Title, Found: f.Temperature.String()}
	if last, ok := r.s.Temperature(t.ID); ok {
		c.What = strings.TrimSuffix(c.What, " "+last.Fact.Temperature.String())
	}
	if asked := cmp.Or(f.Asked, t.Wanted); asked != 0 {
		c.Asked = asked.String()
	}
	return c
}

func (r recorder) looked(seq int, at string, f batch.Fact) CheckJSON {
	_, st, _ := r.plan.Task(batch.Task(f))
	return CheckJSON{At: at, Stage: st.Title, What: say.Fact(batch.Entry{Seq: seq, Fact: f}, r.plan, r.s)}
}

func (r recorder) check(st work.Stage, t work.Task) (CheckJSON, bool) {
	c := CheckJSON{Stage: st.Title, What: t.Title}
	if reading, ok := r.s.Temperature(t.ID); ok {
		return r.temperature(st, t, r.at(reading.At), reading.Fact), true
	}
	if g, ok := r.s.Gross(t.ID); ok {
		c.At = r.at(g.At)
		if g.Fact.Asked > 0 {
			c.Asked = g.Fact.Asked.Reading(g.Fact.Reads)
		}
		c.Found = fmt.Sprintf("%s g gross, %s g net", g.Fact.Gross.At(g.Fact.Reads), (g.Fact.Gross - r.plan.EmptyOf(g.Seq, g.Fact)).At(g.Fact.Reads))
		return c, true
	}
	if d, ok := r.s.Done(t.ID); ok && d.Skipped == "" && (checked(st.Kind) || t.Do == work.Confirm) {
		c.At, c.Found = r.at(d.At), "yes"
		if d.Mass > 0 {
			c.Found += ", " + d.Mass.Reading(quantity.Gram/10)
		}
		return c, true
	}
	return c, false
}
