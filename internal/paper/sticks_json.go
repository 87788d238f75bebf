package paper

import (
	"bench/internal/cut"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/sticks"
)

type sticksJSON struct {
	Recipe string          `json:"recipe"`
	Loaves int             `json:"loaves"`
	Near   millimetres     `json:"near_end_cut_mm"`
	Far    millimetres     `json:"far_end_cut_mm"`
	Bar    millimetres     `json:"bar_mm"`
	Bars   []barJSON       `json:"bars"`
	Plans  []stickPlanJSON `json:"plans"`
	Dough  []doughJSON     `json:"dough"`
}

type barJSON struct {
	N     int         `json:"n"`
	From  millimetres `json:"from_mm"`
	To    millimetres `json:"to_mm"`
	Fresh grams       `json:"fresh_g"`
}

type stickPlanJSON struct {
	Stick string `json:"stick"`
	stickCountJSON
	Proven bool            `json:"proven"`
	Bound  stickCountJSON  `json:"bound"`
	Unmade int             `json:"loaves_without"`
	OnHand []onHandJSON    `json:"on_hand"`
	Cuts   []cutStickJSON  `json:"cutting"`
	Loaves []placedRowJSON `json:"placing"`
	Shows  []showJSON      `json:"joins_that_show"`
	Wanted millimetres     `json:"shortest_piece_wanted_mm"`
	Short  []cutLengthJSON `json:"shorter_pieces"`
}

// onHandJSON is a kind of sticks as the workshop file lists it, and as it should be by what
// batches took since.
type onHandJSON struct {
	Lot    string      `json:"lot"`
	Length millimetres `json:"length_mm"`
	Listed int         `json:"listed"`
	There  int         `json:"should_be_left"`
}

// stickCountJSON is what a plan of sticks comes to, or can come to at the best.
type stickCountJSON struct {
	Used   int         `json:"sticks"`
	Fresh  int         `json:"to_be_made"`
	Joins  int         `json:"joins"`
	Offcut millimetres `json:"longest_offcut_mm"`
}

type cutStickJSON struct {
	N      int             `json:"stick"`
	Lot    string          `json:"lot"`
	Length millimetres     `json:"length_mm"`
	Fresh  bool            `json:"to_be_made"`
	Pieces []cutLengthJSON `json:"pieces"`
	Offcut millimetres     `json:"offcut_mm"`
}

type cutLengthJSON struct {
	Piece  string      `json:"piece"`
	Length millimetres `json:"length_mm"`
}

type placedRowJSON struct {
	Loaf   int               `json:"loaf"`
	Layer  string            `json:"layer"`
	Embed  string            `json:"embed"`
	Lot    string            `json:"lot"`
	Pieces []placedPieceJSON `json:"pieces"`
}

type placedPieceJSON struct {
	Piece string      `json:"piece"`
	From  millimetres `json:"from_mm"`
	To    millimetres `json:"to_mm"`
	Line  *int        `json:"line"`
}

type showJSON struct {
	Loaf  int         `json:"loaf"`
	Embed string      `json:"embed"`
	Bar   int         `json:"bar"`
	At    millimetres `json:"at_mm"`
}

type doughJSON struct {
	Name   string         `json:"name"`
	Lot    string         `json:"lot"`
	Looks  string         `json:"looks"`
	Mass   grams          `json:"g"`
	Trims  grams          `json:"trims_g"`
	Stays  grams          `json:"stays_g"`
	Loads  int            `json:"loads"`
	Sticks []newStickJSON `json:"sticks"`
}

type newStickJSON struct {
	Name   string      `json:"name"`
	Count  int         `json:"count"`
	Length millimetres `json:"length_mm"`
	Mass   grams       `json:"g"`
}

// SticksJSON writes the same as indented JSON with a final line end.
func SticksJSON(w sticks.Work) ([]byte, error) {
	out := sticksJSON{
		Recipe: w.Recipe, Loaves: w.Loaves, Bar: millimetres(w.Loaf.Bar), Near: millimetres(w.Loaf.Near),
		Bars: each(w.Bars, func(b sticks.Bar) barJSON {
			return barJSON{b.N, millimetres(b.From), millimetres(b.To), grams(b.Fresh)}
		}),
		Plans: each(w.Plans, func(s recipe.StickPlan) stickPlanJSON { return stickPlanToJSON(s, w.Wanted) }), Dough: each(w.Dough, doughToJSON),
	}
	if len(w.Bars) > 0 {
		out.Far = millimetres(w.Loaf.Rest())
	}
	return indented(out)
}

func doughToJSON(d sticks.Dough) doughJSON {
	return doughJSON{
		Name: d.Name, Lot: d.Lot, Looks: d.Looks, Mass: grams(d.Mass), Trims: grams(d.Trims), Stays: grams(d.Stays), Loads: d.Loads,
		Sticks: each(d.Sticks, func(s sticks.NewStick) newStickJSON {
			return newStickJSON{s.Name, s.Count, millimetres(s.Length), grams(s.Mass)}
		}),
	}
}

func stickPlanToJSON(s recipe.StickPlan, wanted quantity.Length) stickPlanJSON {
	p, b := s.Plan, s.Plan.Bound
	out := stickPlanJSON{
		Stick: s.Stick, stickCountJSON: stickCountJSON{p.Used, p.Fresh, p.Joins, millimetres(p.Offcut)}, Proven: p.Proven(),
		Bound: stickCountJSON{b.Used, b.Fresh, b.Joins, millimetres(b.Offcut)}, Unmade: p.Unmade,
		OnHand: each(s.Stock, func(h recipe.StickStock) onHandJSON {
			return onHandJSON{h.Lot, millimetres(h.Length), h.Listed, h.There}
		}),
		Cuts: each(p.Sticks, cutStickToJSON), Loaves: []placedRowJSON{},
		Shows: each(p.Shows, func(show cut.Show) showJSON {
			return showJSON{show.Loaf, s.Embeds[show.Row-1].Embed, show.Bar, millimetres(show.At)}
		}),
		Wanted: millimetres(wanted), Short: each(p.Short(wanted), cutPieceToJSON),
	}
	for _, loaf := range p.Loaves {
		for _, row := range loaf.Rows {
			of := s.Embeds[row.N-1]
			out.Loaves = append(out.Loaves, placedRowJSON{loaf.N, of.Layer, of.Embed, loaf.Lot, each(row.Pieces, placedPieceToJSON)})
		}
	}
	return out
}

func cutStickToJSON(c cut.Strip) cutStickJSON {
	return cutStickJSON{
		N: c.N, Lot: c.Lot, Length: millimetres(c.Length), Fresh: c.Fresh, Offcut: millimetres(c.Offcut),
		Pieces: each(c.Pieces, cutPieceToJSON),
	}
}

func cutPieceToJSON(p cut.Piece) cutLengthJSON {
	return cutLengthJSON{p.Label(), millimetres(p.Length)}
}

func placedPieceToJSON(p cut.Piece) placedPieceJSON {
	j := placedPieceJSON{Piece: p.Label(), From: millimetres(p.From), To: millimetres(p.To)}
	if p.Line != cut.NoLine {
		j.Line = &p.Line
	}
	return j
}
