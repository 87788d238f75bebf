package paper

import (
	"time"

	"bench/internal/batch"
	"bench/internal/say"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/work"
)

// Record is a batch record without a layout: what a maker, an inspector or a
// customer's question may rely on. Its names are those of the JSON.
type Record struct {
	Batch       string          `json:"batch"`
	Recipe      string          `json:"recipe"`
	Product     string          `json:"product"`
	RecipeHash  string          `json:"recipe_sha256"`
	Rules       int             `json:"plan_version"`
	Loaves      int             `json:"loaves"`
	Begun       string          `json:"begun"`
	Last        string          `json:"last_fact"`
	Closed      bool            `json:"closed"`
	ReworkOf    []string        `json:"rework_of"`
	MadeInto    []string        `json:"made_into"` // MadeInto are the batches made of this one, which its own facts do not say.
	People      []string        `json:"people"`    // People are those who are named with a release.
	Warnings    []string        `json:"warnings"`
	Open        []string        `json:"open_warnings"`
	Materials   []UsedJSON      `json:"materials"`
	Portions    []UsedJSON      `json:"portions"`
	Batters     []MadeJSON      `json:"batters"`
	Equipment   []string        `json:"equipment"`
	Work        []WorkJSON      `json:"work"`
	Checks      []CheckJSON     `json:"checks"`
	Yield       []string        `json:"yield"`
	Deviations  []SaidJSON      `json:"deviations"`
	Corrections []CorrectedJSON `json:"corrections"`
	Tests       []SaidJSON      `json:"tests"`
	Release     []SaidJSON      `json:"release"`
	Bars        int             `json:"bars_cut"`
	Since       []string        `json:"opened_since_release"`
	After       []SaidJSON      `json:"after"` // After are complaints, and where bars went.
	Notes       []SaidJSON      `json:"notes"`
	Facts       []SaidJSON      `json:"facts"`
	Asks        string          `json:"iso_22716"`
}

// UsedJSON is one weighing: planned beside actual. An embed is not weighed: it has a
// length, and what that weighs by its size.
type UsedJSON struct {
	Stage    string `json:"stage"`
	Material string `json:"material"`
	Lot      string `json:"lot"`
	Asked    grams  `json:"asked_g"`
	Within   grams  `json:"tolerance_g"` // Within is either way; 0 is none.
	Weighed  grams  `json:"weighed_g"`
	Reads    grams  `json:"reads_to_g"`
	How      string `json:"how"`
	Scale    string `json:"scale"`
	Vessel   string `json:"vessel"`
	At       string `json:"at"`

	Length millimetres `json:"length_mm"` // Length is zero where it is no stick.
	BySize grams       `json:"by_size_g"`
}

// MadeJSON is a batter as it came out.
type MadeJSON struct {
	Name     string  `json:"name"`
	Mass     grams   `json:"batter_g"`
	Lye      decimal `json:"lye_concentration_percent"`
	Asked    decimal `json:"superfat_asked_percent"`
	Superfat decimal `json:"superfat_percent"`
	Low      decimal `json:"superfat_low_percent"`
	High     decimal `json:"superfat_high_percent"`
}

// WorkJSON is a stage with the times of its first and last fact.
type WorkJSON struct {
	Stage string `json:"stage"`
	From  string `json:"from"`
	To    string `json:"to"`
	Done  bool   `json:"done"`
}

// CheckJSON is an in-process check.
type CheckJSON struct {
	At    string `json:"at"`
	Stage string `json:"stage"`
	What  string `json:"what"`
	Found string `json:"found"`
	Asked string `json:"asked"`
}

// SaidJSON is a fact in words.
type SaidJSON struct {
	Seq   int    `json:"n"`
	At    string `json:"at"`
	Words string `json:"words"`
}

// CorrectedJSON keeps the first value beside the later one.
type CorrectedJSON struct {
	Seq    int    `json:"n"`
	Of     int    `json:"corrects"`
	At     string `json:"at"`
	First  string `json:"first"`
	Now    string `json:"now"`
	Reason string `json:"reason"`
}

// asks says which record this tries to be, and how little of that was read.
const asks = "Laid out by what ISO 22716 (cosmetics, good manufacturing practices) is remembered to ask of a batch record. " +
	"Its clauses were not read, and nothing here claims that they are met."

// recorder gathers a record. It puts into words and works nothing out.
type recorder struct {
	plan steps.Plan
	s    batch.State
	in   *time.Location
}

// RecordOf gathers the record of a batch, its times in the given zone.
func RecordOf(code string, s batch.State, in *time.Location) Record {
	r := recorder{steps.Of(s), s, in}
	c := s.Control
	out := Record{
		Batch: code, Recipe: c.Recipe.Name, Product: c.Recipe.Label.Product, RecipeHash: c.Hash, Rules: c.PlanVersion, Loaves: c.Loaves,
		Closed: s.Closed(), Warnings: orEmpty(r.plan.Warnings), Open: orEmpty(r.plan.Open()), Asks: asks,
		Materials: append(r.used(work.Weigh), r.laid()...), Portions: r.used(work.Portion), Batters: r.batters(), Equipment: r.equipment(),
		Work: r.work(), Checks: r.checks(), Yield: r.yield(), Deviations: r.deviations(), Corrections: r.corrections(),
		Tests: r.said(isTest), Release: r.said(r.isVerdict), After: r.said(isAfter), Notes: r.notes(), Facts: r.said(isAny),
		ReworkOf: []string{}, MadeInto: []string{}, People: r.people(),
		Bars: r.plan.Curing().Bars, Since: orEmpty(r.plan.Since()),
	}
	for _, f := range batch.All[batch.Reworks](s) {
		out.ReworkOf = append(out.ReworkOf, f.Fact.Batch)
	}
	if n := len(s.Entries); n > 0 {
		out.Begun, out.Last = r.at(s.Entries[0].At), r.at(s.Entries[n-1].At)
	}
	return out
}

// at writes a moment in the record's zone.
func (r recorder) at(m timer.Moment) string {
	if m.Wall.IsZero() {
		return ""
	}
	return m.Wall.In(r.in).Format(time.RFC3339)
}

// people are those who signed a release by name.
func (r recorder) people() []string {
	list := []string{}
	for _, f := range batch.All[batch.Released](r.s) {
		list = appendNew(list, f.Fact.By)
	}
	for _, f := range batch.All[batch.Held](r.s) {
		list = appendNew(list, f.Fact.By)
	}
	return list
}

// said gives the facts of some kinds in words. What was corrected stands as it
// was said first; the correction follows as a fact of its own.
func (r recorder) said(want func(batch.Fact) bool) []SaidJSON {
	list := []SaidJSON{}
	for _, e := range r.s.Entries {
		if want(e.Fact) {
			list = append(list, SaidJSON{e.Seq, r.at(e.At), say.Fact(e, r.plan, r.s)})
		}
	}
	return list
}

// notes are as they now stand; what they were first is among the corrections.
func (r recorder) notes() []SaidJSON {
	list := []SaidJSON{}
	for _, e := range batch.Standing(r.s.Entries) {
		if f, ok := e.Fact.(batch.Noted); ok {
			list = append(list, SaidJSON{e.Seq, r.at(e.At), f.Stage + ": " + f.Text})
		}
	}
	return list
}

func isAny(batch.Fact) bool { return true }

func isTest(f batch.Fact) bool {
	_, ok := f.(batch.Tested)
	return ok
}

// isVerdict says that a fact is a word on the bars: an end before the release is one.
func (r recorder) isVerdict(f batch.Fact) bool {
	switch f := f.(type) {
	case batch.Released, batch.Held:
		return true
	case batch.Closed:
		return f.Reason != "" && r.plan.Curing().Bars > 0
	default:
		return false
	}
}

func isAfter(f batch.Fact) bool {
	_, complained := f.(batch.Complained)
	_, went := f.(batch.BarsWent)
	return complained || went
}

// RecordJSON writes a record as indented JSON with a final line end.
func RecordJSON(r Record) ([]byte, error) { return indented(r) }

// DueText writes the timers, one a line.
func DueText(timers []Timer, now timer.Moment) string {
	var p page
	if len(timers) == 0 {
		p.linef("no timers")
	}
	for _, t := range timers {
		when, priority := "", ""
		if !t.CountsUp() {
			const day = "Mon 2 Jan 15:04"
			when = t.AsksAt(now).Format(day)
			if t.State(now) == timer.Due { // Before that nobody is to act.
				priority = t.PriorityAt(now).String()
			}
			if first := t.DueAt(now).Format(day); first != when {
				when += ", first due " + first
			}
		}
		p.linef("%-9s %-8s %-8s %-44s %-18s %s", t.Batch, t.State(now), priority, t.Label, t.Say(now), when)
	}
	return p.String()
}

func dash(s string) string {
	if s == "" {
		return "-"
	}
	return s
}
