package paper

import (
	"bench/internal/steps"
)

type deviationJSON struct {
	Task   string    `json:"task"`
	Batter string    `json:"batter"`
	Off    grams     `json:"off_g"`
	Words  string    `json:"words"`
	Ways   []wayJSON `json:"ways"`
}

type wayJSON struct {
	Way         string      `json:"way"`
	Title       string      `json:"title"`
	Until       string      `json:"until"`
	Preselected bool        `json:"preselected"`
	G           grams       `json:"g"`
	Superfat    bandJSON    `json:"superfat"`
	Rise        millimetres `json:"rise_mm"`
	Scent       decimal     `json:"scent_percent"`
	Strength    decimal     `json:"lye_concentration_percent"`
	Split       *splitJSON  `json:"split,omitempty"`
}

// splitJSON is what a portion's way leaves.
type splitJSON struct {
	Lowest  millimetres `json:"lowest_mm"`
	Highest millimetres `json:"highest_mm"`
	Left    grams       `json:"left_g"`
	In      string      `json:"left_in"`
}

type bandJSON struct {
	Percent decimal `json:"percent"`
	Low     decimal `json:"low"`
	High    decimal `json:"high"`
}

type holdJSON struct {
	Batter string `json:"batter"`
	Layer  string `json:"layer"`
	Words  string `json:"words"`
}

func deviationsToJSON(p steps.Plan) []deviationJSON {
	return each(p.Deviations, func(d steps.Deviation) deviationJSON {
		return deviationJSON{d.Task, d.Batter, grams(d.Off), d.Words, each(p.Ways(d), wayToJSON)}
	})
}

func wayToJSON(w steps.WayOn) wayJSON {
	s := w.Outcome.Superfat
	var split *splitJSON
	if o := w.Outcome.Split; o != nil {
		split = &splitJSON{millimetres(o.Lowest), millimetres(o.Highest), grams(o.Left), o.In}
	}
	return wayJSON{
		Way: wayName(w), Title: w.Title, Until: w.Until, Preselected: w.Default, G: grams(w.Fact.Mass),
		Superfat: bandJSON{decimal(s.Percent), decimal(s.Low), decimal(s.High)},
		Rise:     millimetres(w.Outcome.Rise), Scent: decimal(w.Outcome.Scent), Strength: decimal(w.Outcome.Strength), Split: split,
	}
}

// wayName names a way on, or the answer to a look into a vessel.
func wayName(w steps.WayOn) string {
	if w.Look != nil {
		return string(w.Look.Kind)
	}
	return string(w.Fact.Way)
}

func holdsToJSON(p steps.Plan) []holdJSON {
	return each(p.Holds, func(h steps.Hold) holdJSON { return holdJSON{h.Batter, h.Layer, h.Words} })
}

// deviations writes what was off, with the ways on, for reading.
func (p *page) deviations(plan steps.Plan) {
	for _, h := range plan.Holds {
		if h.Look > 0 && !plan.Closed { // It is told below, with its answers.
			continue
		}
		p.linef("! %s", h.Words)
	}
	for _, d := range plan.Deviations {
		p.linef("")
		p.linef("OFF %s", d.Words)
		for _, w := range plan.Ways(d) {
			sign := " "
			if w.Default {
				sign = ">"
			}
			p.linef("  %s %s", sign, w.Title)
			if w.Keeps() == nil {
				continue
			}
			p.linef("      %s; %s", w.Outcome, w.Until)
		}
	}
}
