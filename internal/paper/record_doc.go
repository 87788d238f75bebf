package paper

import (
	"fmt"
	"time"

	"bench/internal/quantity"
)

// document lays the record out in the order in which it is asked for.
func (r Record) document() doc {
	d := doc{title: fmt.Sprintf("Batch %s: %s", r.Batch, r.Recipe)}
	d.add(section{pairs: r.head()})
	d.add(section{title: "Open warnings", lines: r.Open})
	d.add(section{title: "Release", table: sayTable(r.Release, "what"), lines: r.unreleased()})
	d.add(section{title: "Signed", lines: []string{"Made by: ______________________   Date: ____________", "Checked by: ___________________   Date: ____________"}})
	d.add(section{title: "Tests", table: sayTable(r.Tests, "what")})
	d.add(section{title: "Materials: asked and weighed", table: usedTable(r.Materials, "material")})
	d.add(section{title: "Portions: asked and poured", table: usedTable(r.Portions, "portion")})
	d.add(section{title: "Batters as they came out", table: r.batterTable()})
	d.add(section{title: "Equipment", lines: r.Equipment})
	d.add(section{title: "Checks", table: r.checkTable()})
	d.add(section{title: "Yield", lines: r.Yield})
	d.add(section{title: "Deviations, and what was decided", table: sayTable(r.Deviations, "what")})
	d.add(section{title: "Corrections", table: r.correctionTable()})
	d.add(section{title: "Notes of the day", table: sayTable(r.Notes, "what was noted")})
	d.add(section{title: "Complaints, and where bars went", table: sayTable(r.After, "what")})
	d.add(section{title: "Warnings of the recipe", lines: r.Warnings})
	d.add(section{title: "The work", table: r.workTable()})
	d.add(section{title: "All facts", table: sayTable(r.Facts, "what was said")})
	d.add(section{title: "What this record is", lines: []string{r.Asks}})
	return d
}

func (r Record) head() [][2]string {
	pairs := [][2]string{
		{"Batch", r.Batch},
		{"Recipe", r.Recipe},
		{"Loaves", fmt.Sprint(r.Loaves)},
		{"Begun", clock(r.Begun)},
		{"Last fact", clock(r.Last)},
		{"Times", r.zone()},
		{"Recipe document", "SHA-256 " + r.RecipeHash},
		{"Rules of the plan", fmt.Sprintf("version %d", r.Rules)},
	}
	if r.Product != "" {
		pairs = append(pairs, [2]string{"Product", r.Product})
	}
	for _, code := range r.ReworkOf {
		pairs = append(pairs, [2]string{"Made of batch", code})
	}
	for _, code := range r.MadeInto {
		pairs = append(pairs, [2]string{"Made into batch", code})
	}
	state := "open"
	if r.Closed {
		state = "closed"
	}
	return append(pairs, [2]string{"State", state})
}

// zone says by how much the clocks differed from UTC, at both ends.
func (r Record) zone() string {
	first, last := parsed(r.Begun).Format("UTC-07:00"), parsed(r.Last).Format("UTC-07:00")
	if first != last {
		return first + ", at the end " + last
	}
	return first
}

// unreleased says so where nobody has decided on the bars.
func (r Record) unreleased() []string {
	switch {
	case len(r.Release) > 0:
	case r.Bars > 0 && r.Closed:
		return []string{"Neither released nor held."}
	case r.Bars > 0:
		return []string{"Neither released nor held yet."}
	case r.Closed:
		return []string{"No bars: none was cut."}
	default:
		return []string{"No bars yet."}
	}
	var lines []string
	for _, words := range r.Since {
		lines = append(lines, "opened after the release, and not answered: "+words)
	}
	return lines
}

func usedTable(list []UsedJSON, what string) table {
	t := table{head: []string{"stage", what, "lot", "asked g", "± g", "weighed g", "how", "scale", "at"}, right: []bool{3: true, 4: true, 5: true, 8: false}}
	for _, u := range list {
		reads := quantity.Mass(u.Reads)
		within := "-"
		if u.Within > 0 {
			within = quantity.Mass(u.Within).At(quantity.Gram / 100)
			if whole := quantity.Mass(u.Within).FloorTo(reads); whole > 0 { // What the scale can tell of it, as the bench shows it.
				within = whole.At(reads)
			}
		}
		asked, weighed := "-", "-"
		if reads > 0 {
			asked, weighed = quantity.Mass(u.Asked).At(reads), quantity.Mass(u.Weighed).At(reads)
		}
		t.rows = append(t.rows, []string{u.Stage, u.Material, dash(u.Lot), asked, within, weighed, u.How, dash(u.Scale), clock(u.At)})
	}
	return t
}

func (r Record) batterTable() table {
	t := table{head: []string{"batter", "g", "lye %", "superfat asked %", "came out %", "band % (k = 2)"}, right: []bool{1: true, 2: true, 3: true, 4: true, 5: true}}
	for _, b := range r.Batters {
		band := fmt.Sprintf("%.1f to %.1f", b.Low, b.High)
		if b.Low < 0 {
			band += ", below zero: free alkali is possible"
		}
		t.rows = append(t.rows, []string{
			b.Name, quantity.Mass(b.Mass).At(quantity.Gram / 10), fmt.Sprintf("%.1f", b.Lye), fmt.Sprintf("%.1f", b.Asked), fmt.Sprintf("%.1f", b.Superfat), band,
		})
	}
	return t
}

func (r Record) checkTable() table {
	t := table{head: []string{"at", "stage", "what", "found", "asked"}}
	for _, c := range r.Checks {
		t.rows = append(t.rows, []string{clock(c.At), c.Stage, c.What, c.Found, c.Asked})
	}
	return t
}

func (r Record) correctionTable() table {
	t := table{head: []string{"no.", "of", "at", "first", "now", "why"}, right: []bool{true, true, 5: false}}
	for _, c := range r.Corrections {
		t.rows = append(t.rows, []string{fmt.Sprint(c.Seq), fmt.Sprint(c.Of), clock(c.At), c.First, c.Now, c.Reason})
	}
	return t
}

func (r Record) workTable() table {
	t := table{head: []string{"stage", "from", "to", "done"}}
	for _, w := range r.Work {
		t.rows = append(t.rows, []string{w.Stage, clock(w.From), clock(w.To), map[bool]string{true: "yes", false: "no"}[w.Done]})
	}
	return t
}

func sayTable(list []SaidJSON, what string) table {
	t := table{head: []string{"no.", "at", what}, right: []bool{true, false, false}}
	for _, s := range list {
		n := ""
		if s.Seq > 0 {
			n = fmt.Sprint(s.Seq)
		}
		t.rows = append(t.rows, []string{n, clock(s.At), s.Words})
	}
	return t
}

// clock writes a time of the record for reading.
func clock(at string) string {
	if at == "" {
		return ""
	}
	t, err := time.Parse(time.RFC3339, at)
	if err != nil {
		return at
	}
	return t.Format("2006-01-02 15:04:05")
}
