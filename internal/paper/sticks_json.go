package paper

import (
	"bench/internal/cut"
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
	Stick  string          `json:"stick"`
	Used   int             `json:"sticks"`
	Fresh  int             `json:"to_be_made"`
	Joins  int             `json:"joins"`
	Offcut millimetres     `json:"longest_offcut_mm"`
	Proven bool            `json:"proven"`
	Bound  stickBoundJSON  `json:"bound"`
	Unmade int             `json:"loaves_without"`
	Cuts   []cutStickJSON  `json:"cutting"`
	Loaves []placedRowJSON `json:"placing"`
	Shows  []showJSON      `json:"joins_that_show"`
}

type stickBoundJSON struct {
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
		Bars: []barJSON{}, Plans: []stickPlanJSON{}, Dough: []doughJSON{},
	}
	for _, b := range w.Bars {
		out.Bars = append(out.Bars, barJSON{b.N, millimetres(b.From), millimetres(b.To), grams(b.Fresh)})
		out.Far = millimetres(w.Loaf.Rest())
	}
	for _, p := range w.Plans {
		out.Plans = append(out.Plans, stickPlanToJSON(p))
	}
	for _, d := range w.Dough {
		j := doughJSON{
			Name: d.Name, Lot: d.Lot, Looks: d.Looks, Mass: grams(d.Mass), Trims: grams(d.Trims), Stays: grams(d.Stays),
			Loads: d.Loads, Sticks: []newStickJSON{},
		}
		for _, s := range d.Sticks {
			j.Sticks = append(j.Sticks, newStickJSON{s.Name, s.Count, millimetres(s.Length), grams(s.Mass)})
		}
		out.Dough = append(out.Dough, j)
	}
	return indented(out)
}

func stickPlanToJSON(s recipe.StickPlan) stickPlanJSON {
	p, b := s.Plan, s.Plan.Bound
	out := stickPlanJSON{
		Stick: s.Stick, Used: p.Used, Fresh: p.Fresh, Joins: p.Joins, Offcut: millimetres(p.Offcut), Proven: p.Proven(),
		Bound: stickBoundJSON{b.Used, b.Fresh, b.Joins, millimetres(b.Offcut)}, Unmade: p.Unmade,
		Cuts: []cutStickJSON{}, Loaves: []placedRowJSON{}, Shows: []showJSON{},
	}
	for _, c := range p.Sticks {
		j := cutStickJSON{N: c.N, Lot: c.Lot, Length: millimetres(c.Length), Fresh: c.Fresh, Offcut: millimetres(c.Offcut), Pieces: []cutLengthJSON{}}
		for _, piece := range c.Pieces {
			j.Pieces = append(j.Pieces, cutLengthJSON{piece.Label(), millimetres(piece.Length)})
		}
		out.Cuts = append(out.Cuts, j)
	}
	for _, loaf := range p.Loaves {
		for _, row := range loaf.Rows {
			of := s.Embeds[row.N-1]
			out.Loaves = append(out.Loaves, placedRowJSON{loaf.N, of.Layer, of.Embed, loaf.Lot, placedPieces(row)})
		}
	}
	for _, show := range p.Shows {
		out.Shows = append(out.Shows, showJSON{show.Loaf, s.Embeds[show.Row-1].Embed, show.Bar, millimetres(show.At)})
	}
	return out
}

func placedPieces(row cut.PlacedRow) []placedPieceJSON {
	out := []placedPieceJSON{}
	for _, piece := range row.Pieces {
		j := placedPieceJSON{Piece: piece.Label(), From: millimetres(piece.From), To: millimetres(piece.To)}
		if piece.Line != cut.NoLine {
			j.Line = &piece.Line
		}
		out = append(out, j)
	}
	return out
}
