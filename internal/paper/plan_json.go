package paper

import (
	"bench/internal/calc"
	"bench/internal/quantity"
	"bench/internal/steps"
	"bench/internal/why"
	"bench/internal/work"
)

type planJSON struct {
	Recipe   string       `json:"recipe"`
	Loaves   int          `json:"loaves"`
	Oils     grams        `json:"oils_g"`
	Mould    mouldJSON    `json:"mould"`
	Balance  balanceJSON  `json:"balance"`
	Batters  []batterJSON `json:"batters"`
	Layers   []layerJSON  `json:"layers"`
	Stages   []stageJSON  `json:"stages"`
	Warnings []string     `json:"warnings"`

	Holds      []holdJSON      `json:"holds"`
	Deviations []deviationJSON `json:"deviations"`
	Reasons    []reasonJSON    `json:"reasons,omitempty"`
}

type mouldJSON struct {
	Name       string      `json:"name"`
	Capacity   decimal     `json:"capacity_ml"`
	Kind       string      `json:"kind"`
	Heights    bool        `json:"heights"`
	Cavities   int         `json:"cavities"`
	Length     millimetres `json:"length_mm"`
	Width      millimetres `json:"width_mm"`
	Height     millimetres `json:"height_mm"`
	FloorWidth millimetres `json:"floor_width_mm"`
}

type amountJSON struct {
	Name string `json:"name"`
	G    grams  `json:"g"`
}

type batterJSON struct {
	Name          string       `json:"name"`
	Oils          []amountJSON `json:"oils"`
	Alkali        []amountJSON `json:"alkali"`
	Water         grams        `json:"water_g"`
	Additives     []amountJSON `json:"additives"`
	Mass          grams        `json:"batter_g"`
	Density       decimal      `json:"density_g_per_ml"`
	Concentration decimal      `json:"lye_concentration_percent"`
	Peak          decimal      `json:"lye_peak_c"`
	PeakError     decimal      `json:"lye_peak_plus_minus_c"`
	Superfat      superfatJSON `json:"superfat"`
	MixAt         decimal      `json:"mix_at_c"`
	MetAt         decimal      `json:"mixed_at_c"`
	Own           []ownJSON    `json:"own_values"`
}

type ownJSON struct {
	Name  string `json:"name"`
	Value string `json:"value"`
	From  string `json:"from"`
}

type widensJSON struct {
	Name  string  `json:"name"`
	Input string  `json:"input"`
	Share decimal `json:"share"`
}

type superfatJSON struct {
	Percent   decimal `json:"percent"`
	Low       decimal `json:"low"`
	High      decimal `json:"high"`
	WorstLow  decimal `json:"worst_low"`
	WorstHigh decimal `json:"worst_high"`

	Lowest          decimal      `json:"lowest"`
	LowestCertified decimal      `json:"lowest_with_certificates"`
	Widens          []widensJSON `json:"widens"`
	Sentences       []string     `json:"sentences"`
}

type layerJSON struct {
	Name     string       `json:"name"`
	Batter   string       `json:"batter"`
	Mass     grams        `json:"batter_g"`
	Loaves   []grams      `json:"in_moulds_g"`
	Colours  []amountJSON `json:"colour"`
	Scents   []scentJSON  `json:"scent"`
	Surface  millimetres  `json:"surface_mm"`
	PourLine millimetres  `json:"pour_line_mm"`
	Rim      millimetres  `json:"rim_mm"`

	Pours     []pourJSON      `json:"pours"`
	Displaced []displacedJSON `json:"displaced"`
	Left      grams           `json:"left_g"`
	LeftIn    string          `json:"left_in"`
	LeftReads grams           `json:"left_reads_g"`
}

type scentJSON struct {
	amountJSON
	Where    string  `json:"where"`
	Why      string  `json:"why"`
	Portions []grams `json:"portions_g"`
	Stays    grams   `json:"stays_g"`
}

type stageJSON struct {
	N      int        `json:"n"`
	ID     string     `json:"id"`
	Kind   work.Kind  `json:"kind"`
	Batter string     `json:"batter"`
	Layer  string     `json:"layer"`
	Loaf   int        `json:"loaf"`
	Why    string     `json:"why"`
	After  []string   `json:"after"`
	Tasks  []taskJSON `json:"tasks"`
}

type taskJSON struct {
	ID       string  `json:"id"`
	Do       work.Do `json:"do"`
	Title    string  `json:"title"`
	Material string  `json:"material"`
	G        grams   `json:"g"`
	Scale    string  `json:"scale"`
	Vessel   string  `json:"vessel"`
	Done     bool    `json:"done"`
	Weighed  grams   `json:"weighed_g"`
	Skipped  string  `json:"left_out"`
}

// PlanJSON writes a plan, and the reasons of its figures if there are any, as
// indented JSON with a final line end.
func PlanJSON(p steps.Plan, reasons []why.Reason) ([]byte, error) {
	return indented(planJSON{
		Recipe: p.Recipe, Loaves: p.Loaves, Oils: grams(p.Oils), Warnings: orEmpty(p.Warnings),
		Mould: mouldToJSON(p.Mould), Balance: balanceToJSON(p.Balance),
		Batters: each(p.Batters, batterToJSON),
		Layers:  layersToJSON(p),
		Stages:  each(p.Stages, stageToJSON),
		Holds:   holdsToJSON(p), Deviations: deviationsToJSON(p), Reasons: each(reasons, reasonToJSON),
	})
}

func batterToJSON(b steps.Batter) batterJSON {
	return batterJSON{
		Name: b.Name, Oils: each(b.Oils, amountToJSON), Alkali: each(b.Alkali, amountToJSON), Water: grams(b.Water.Mass),
		Additives: each(b.Additives, amountToJSON), Mass: grams(b.Mass), Density: decimal(b.Density),
		Concentration: decimal(100 * b.Concentration),
		MixAt:         decimal(b.MixAt.Celsius()), MetAt: decimal(b.MetAt.Celsius()),
		Superfat: superfatToJSON(b), Peak: decimal(b.Peak.Celsius), PeakError: decimal(b.Peak.PlusMinus),
		Own: each(b.Own, func(o steps.Own) ownJSON { return ownJSON{o.Name, o.Value, o.From} }),
	}
}

func superfatToJSON(b steps.Batter) superfatJSON {
	sure := b.Account.Surer()
	return superfatJSON{
		Percent: decimal(b.Superfat.Percent), Low: decimal(b.Superfat.Low), High: decimal(b.Superfat.High),
		WorstLow: decimal(b.Superfat.WorstLow), WorstHigh: decimal(b.Superfat.WorstHigh),
		Lowest: decimal(sure.Lowest), LowestCertified: decimal(sure.LowestCertified),
		Widens:    each(b.Widens, func(w calc.Contribution) widensJSON { return widensJSON{w.Name, string(w.Input), decimal(w.Share)} }),
		Sentences: b.Account.Sentences(),
	}
}

func amountToJSON(a steps.Amount) amountJSON { return amountJSON{a.Name, grams(a.Mass)} }

func layersToJSON(p steps.Plan) []layerJSON {
	list := make([]layerJSON, len(p.Layers))
	for i := range list {
		list[i] = layerToJSON(p, i)
	}
	return list
}

func layerToJSON(p steps.Plan, i int) layerJSON {
	l, mould := p.Layers[i], p.Mould
	out := layerJSON{
		Name: l.Name, Batter: l.Batter, Mass: grams(l.Mass), Colours: each(l.Colours, amountToJSON),
		Scents: each(l.Scents, func(s steps.Scent) scentJSON {
			return scentJSON{amountJSON{s.Name, grams(s.Mass)}, string(s.Place), l.PlaceWhy, each(s.Portions, func(m quantity.Mass) grams { return grams(m) }), grams(s.Stays)}
		}),
		Loaves: each(l.Loaves, func(loaf steps.LoafPour) grams { return grams(loaf.Mass) }),
		Pours:  poursToJSON(p, i, mould), Displaced: displacedToJSON(p, i, 0),
		Left: grams(l.Left), LeftIn: l.LeftIn, LeftReads: grams(l.LeftReads),
	}
	if mould.HasHeights() {
		out.Surface, out.PourLine, out.Rim = millimetres(l.Surface), millimetres(l.PourLine), millimetres(l.Rim)
	}
	return out
}

func stageToJSON(s work.Stage) stageJSON {
	return stageJSON{
		N: s.N, ID: s.ID, Kind: s.Kind, Batter: s.Batter, Layer: s.Layer, Loaf: s.Loaf, Why: s.Why, After: orEmpty(s.After),
		Tasks: each(s.Tasks, func(t work.Task) taskJSON {
			return taskJSON{t.ID, t.Do, t.Title, t.Material, grams(t.Target), t.Scale, t.Vessel, t.Done, grams(t.Mass), t.Skipped}
		}),
	}
}
