// Package paper turns plans, records and timers into text and JSON.
//
// The rule: it lays out what it is given and works nothing out. The JSON names
// are a contract with other programs: they may be added to, and are changed
// only together with docs/json.md.
package paper

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"strconv"
	"time"

	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/why"
	"bench/internal/work"
)

// grams is a mass in JSON: exact grams, to the milligram.
type grams quantity.Mass

// MarshalJSON writes the grams without idle zeros.
func (g grams) MarshalJSON() ([]byte, error) {
	return strconv.AppendFloat(nil, quantity.Mass(g).Grams(), 'f', -1, 64), nil
}

// millimetres is a length in JSON, to a hundredth.
type millimetres quantity.Length

// MarshalJSON writes the millimetres without idle zeros.
func (m millimetres) MarshalJSON() ([]byte, error) {
	return number(quantity.Length(m).Millimetres(), 2), nil
}

// number writes v to so many decimals without idle zeros.
func number(v float64, decimals int) []byte {
	scale := math.Pow10(decimals)
	return strconv.AppendFloat(nil, math.Round(v*scale)/scale, 'f', -1, 64)
}

// decimal is a number in JSON, to four decimals.
type decimal float64

// MarshalJSON writes the number without idle zeros.
func (d decimal) MarshalJSON() ([]byte, error) { return number(float64(d), 4), nil }

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
}

// PlanJSON writes a plan, and the reasons of its figures if there are any, as
// indented JSON with a final line end.
func PlanJSON(p steps.Plan, reasons []why.Reason) ([]byte, error) {
	out := planJSON{
		Recipe: p.Recipe, Loaves: p.Loaves, Oils: grams(p.Oils), Warnings: orEmpty(p.Warnings),
		Mould: mouldToJSON(p.Mould), Balance: balanceToJSON(p.Balance),
		Batters: []batterJSON{}, Layers: []layerJSON{}, Stages: []stageJSON{},
		Holds: holdsToJSON(p), Deviations: deviationsToJSON(p),
	}
	for _, r := range reasons {
		out.Reasons = append(out.Reasons, reasonToJSON(r))
	}
	for _, b := range p.Batters {
		out.Batters = append(out.Batters, batterToJSON(b))
	}
	for _, l := range p.Layers {
		out.Layers = append(out.Layers, layerToJSON(l, p.Mould))
	}
	for _, s := range p.Stages {
		out.Stages = append(out.Stages, stageToJSON(s))
	}
	return indented(out)
}

func batterToJSON(b steps.Batter) batterJSON {
	own := []ownJSON{}
	for _, o := range b.Own {
		own = append(own, ownJSON{o.Name, o.Value, o.From})
	}
	return batterJSON{
		Name: b.Name, Own: own, Oils: amountsToJSON(b.Oils), Alkali: amountsToJSON(b.Alkali), Water: grams(b.Water.Mass),
		Additives: amountsToJSON(b.Additives), Mass: grams(b.Mass), Density: decimal(b.Density),
		Concentration: decimal(100 * b.Concentration),
		Superfat:      superfatToJSON(b), Peak: decimal(b.Peak.Celsius), PeakError: decimal(b.Peak.PlusMinus),
	}
}

func superfatToJSON(b steps.Batter) superfatJSON {
	sure := b.Account.Surer()
	out := superfatJSON{
		Percent: decimal(b.Superfat.Percent), Low: decimal(b.Superfat.Low), High: decimal(b.Superfat.High),
		WorstLow: decimal(b.Superfat.WorstLow), WorstHigh: decimal(b.Superfat.WorstHigh),
		Lowest: decimal(sure.Lowest), LowestCertified: decimal(sure.LowestCertified),
		Widens: []widensJSON{}, Sentences: b.Account.Sentences(),
	}
	for _, w := range b.Widens {
		out.Widens = append(out.Widens, widensJSON{w.Name, string(w.Input), decimal(w.Share)})
	}
	return out
}

func amountsToJSON(amounts []steps.Amount) []amountJSON {
	out := []amountJSON{}
	for _, a := range amounts {
		out = append(out, amountJSON{a.Name, grams(a.Mass)})
	}
	return out
}

func layerToJSON(l steps.Layer, mould recipe.Mould) layerJSON {
	out := layerJSON{
		Name: l.Name, Batter: l.Batter, Mass: grams(l.Mass), Colours: amountsToJSON(l.Colours), Scents: []scentJSON{},
		Loaves: []grams{}, Pours: poursToJSON(l, mould), Displaced: displacedToJSON(l),
		Left: grams(l.Left), LeftIn: l.LeftIn, LeftReads: grams(l.LeftReads),
	}
	if mould.HasHeights() {
		out.Surface, out.PourLine, out.Rim = millimetres(l.Surface), millimetres(l.PourLine), millimetres(l.Rim)
	}
	for _, loaf := range l.Loaves {
		out.Loaves = append(out.Loaves, grams(loaf.Mass))
	}
	for _, s := range l.Scents {
		scent := scentJSON{amountJSON: amountJSON{s.Name, grams(s.Mass)}, Where: string(s.Place), Why: l.PlaceWhy, Portions: []grams{}, Stays: grams(s.Stays)}
		for _, m := range s.Portions {
			scent.Portions = append(scent.Portions, grams(m))
		}
		out.Scents = append(out.Scents, scent)
	}
	return out
}

func stageToJSON(s work.Stage) stageJSON {
	out := stageJSON{
		N: s.N, ID: s.ID, Kind: s.Kind, Batter: s.Batter, Layer: s.Layer, Loaf: s.Loaf, Why: s.Why,
		After: orEmpty(s.After), Tasks: []taskJSON{},
	}
	for _, t := range s.Tasks {
		out.Tasks = append(out.Tasks, taskJSON{t.ID, t.Do, t.Title, t.Material, grams(t.Target), t.Scale, t.Vessel})
	}
	return out
}

// Timer is a timer of one batch, for printing.
type Timer struct {
	Batch string
	timer.Timer
}

type timerJSON struct {
	Batch string `json:"batch"`
	ID    string `json:"timer"`
	Label string `json:"label"`
	State string `json:"state"`
	// Priority is of a timer that falls due: "act now", "soon" or "later".
	Priority string `json:"priority,omitempty"`

	Due      string `json:"due,omitempty"`
	FirstDue string `json:"first_due,omitempty"`
	InS      *int64 `json:"in_s,omitempty"`
	ForS     *int64 `json:"for_s,omitempty"`
}

// DueJSON writes the timers as indented JSON with a final line end.
func DueJSON(timers []Timer, now timer.Moment) ([]byte, error) {
	out := []timerJSON{}
	for _, t := range timers {
		j := timerJSON{Batch: t.Batch, ID: t.ID, Label: t.Label, State: t.State(now).String()}
		seconds := int64(math.Ceil(t.Left(now).Seconds()))
		if t.CountsUp() {
			seconds = -seconds
			j.ForS = &seconds
		} else {
			j.Priority = t.PriorityAt(now).String()
			j.InS, j.Due = &seconds, t.AsksAt(now).Format(time.RFC3339)
			if first := t.DueAt(now).Format(time.RFC3339); first != j.Due {
				j.FirstDue = first
			}
		}
		out = append(out, j)
	}
	return indented(out)
}

func orEmpty(s []string) []string {
	if s == nil {
		return []string{}
	}
	return s
}

func indented(v any) ([]byte, error) {
	var buf bytes.Buffer
	e := json.NewEncoder(&buf)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(v); err != nil {
		return nil, fmt.Errorf("write JSON: %w", err)
	}
	return buf.Bytes(), nil
}
