package cut

import (
	"errors"
	"slices"
	"testing"

	"bench/internal/quantity"
)

// inchLoaf is a loaf of 17 in cut into bars of 1 in, with nothing lost.
func inchLoaf() Loaf { return Loaf{Length: 17 * quantity.Inch, Bar: quantity.Inch} }

// TestCommonSizes holds plans to sizes that makers know (common practice, no
// source): rows over the full length of 17 in loaves, sticks of 12 or 13 in, 1 in
// bars, no trim, no width lost.
func TestCommonSizes(t *testing.T) {
	for _, c := range []struct {
		name         string
		loaves       int
		stick        quantity.Length
		used, joins  int
		perRow, have int
	}{
		{"a loaf by itself takes two of 12 in", 1, 12 * quantity.Inch, 2, 1, 2, 20},
		{"a loaf by itself takes two of 13 in", 1, 13 * quantity.Inch, 2, 1, 2, 20},
		{"three loaves share five of 12 in", 3, 12 * quantity.Inch, 5, 3, 2, 20},
		{"three loaves share four of 13 in", 3, 13 * quantity.Inch, 4, 3, 2, 20},
		{"three loaves with just four of 13 in", 3, 13 * quantity.Inch, 4, 3, 2, 4},
	} {
		t.Run(c.name, func(t *testing.T) {
			o := Order{
				Loaf: inchLoaf(), Loaves: c.loaves, Rows: 1, Tolerance: DefaultTolerance,
				Sticks: []Stick{{Lot: "A", Length: c.stick, Count: c.have}},
			}
			p := solved(t, o)
			if p.Used != c.used || p.Joins != c.joins || !p.Proven() {
				t.Errorf("%d sticks, %d joins, proven %v", p.Used, p.Joins, p.Proven())
			}
			for _, loaf := range p.Loaves {
				if n := len(loaf.Rows[0].Pieces); n != c.perRow {
					t.Errorf("loaf %d has %d pieces in a row", loaf.N, n)
				}
			}
		})
	}
	fresh := 0
	for range 3 { // Each loaf by itself.
		fresh += solved(t, Order{Loaf: inchLoaf(), Loaves: 1, Rows: 1, Sticks: []Stick{{Length: 12 * quantity.Inch, Count: 9}}}).Used
	}
	if fresh != 6 {
		t.Errorf("three loaves that share nothing take %d sticks", fresh)
	}
}

// solved solves an order and holds the plan to what every plan must be.
func solved(t *testing.T, o Order) Plan {
	t.Helper()
	p, err := Solve(o)
	if err != nil {
		t.Fatal(err)
	}
	check(t, o, p)
	return p
}

// check holds a plan to the rules by geometry alone.
func check(t reporter, o Order, p Plan) {
	t.Helper()
	checkRows(t, o, p)
	checkSticks(t, o, p)
	if len(p.Loaves)+p.Unmade != o.Loaves {
		t.Errorf("%d loaves laid and %d not, of %d", len(p.Loaves), p.Unmade, o.Loaves)
	}
}

func checkRows(t reporter, o Order, p Plan) {
	t.Helper()
	joins := 0
	for _, loaf := range p.Loaves {
		if len(loaf.Rows) != o.Rows {
			t.Errorf("loaf %d has %d rows", loaf.N, len(loaf.Rows))
		}
		for _, row := range loaf.Rows {
			at := quantity.Length(0)
			joins += len(row.Pieces) - 1
			for k, piece := range row.Pieces {
				if piece.From != at || piece.To-piece.From != piece.Length || piece.Loaf != loaf.N || piece.Row != row.N {
					t.Errorf("loaf %d row %d: %+v does not begin at %s", loaf.N, row.N, piece, at)
				}
				at = piece.To
				if p.Sticks[piece.Stick-1].Lot != loaf.Lot {
					t.Errorf("loaf %d of lot %s holds lot %s", loaf.N, loaf.Lot, p.Sticks[piece.Stick-1].Lot)
				}
				shown := slices.ContainsFunc(p.Shows, func(s Show) bool { return s.Loaf == loaf.N && s.Row == row.N })
				if shown && loaf.N <= p.Whole {
					t.Errorf("loaf %d of %d that hide their joins shows one", loaf.N, p.Whole)
				}
				if k == len(row.Pieces)-1 || shown {
					continue
				}
				if off := offLine(o.Loaf, piece.To); off > o.Tolerance {
					t.Errorf("loaf %d row %d: a join at %s is %s off any line", loaf.N, row.N, piece.To, off)
				}
				if loaf.N <= p.Whole && piece.Length < o.Shortest()-o.Tolerance {
					t.Errorf("loaf %d row %d: a piece of %s", loaf.N, row.N, piece.Length)
				}
			}
			if at > o.Loaf.Length || at < o.Loaf.Length-2*o.Tolerance {
				t.Errorf("loaf %d row %d ends at %s", loaf.N, row.N, at)
			}
		}
	}
	if joins != p.Joins {
		t.Errorf("%d joins are said to be %d", joins, p.Joins)
	}
}

// offLine works the lines out anew: bars side by side, the wire between them.
func offLine(l Loaf, at quantity.Length) quantity.Length {
	best := l.Length
	edge := l.Near
	for edge <= l.Length {
		for _, place := range []quantity.Length{edge + l.Wire/2} {
			if edge > 0 {
				best = min(best, max(at-place, place-at))
			}
		}
		if edge == 0 {
			edge = l.Bar
		} else {
			edge += l.Wire + l.Bar
		}
	}
	return best
}

func checkSticks(t reporter, o Order, p Plan) {
	t.Helper()
	spent := map[Stick]int{}
	for _, s := range p.Sticks {
		spent[Stick{Lot: s.Lot, Length: s.Length, Fresh: s.Fresh}]++
		sum := s.Offcut
		for k, piece := range s.Pieces {
			if sum += piece.Length; k > 0 {
				sum += o.Knife
			}
		}
		if s.Offcut > 0 {
			sum += o.Knife
		}
		if sum > s.Length {
			t.Errorf("stick %d of %s is cut into %s", s.N, s.Length, sum)
		}
	}
	for kind, n := range spent {
		have := 0
		for _, s := range o.Sticks {
			if s.Lot == kind.Lot && s.Length == kind.Length && s.Fresh == kind.Fresh {
				if have += s.Count; s.Fresh {
					have = n
				}
			}
		}
		if n > have {
			t.Errorf("%d sticks of %+v are used, and there are %d", n, kind, have)
		}
	}
}

// TestShorterThanWanted: sticks of 59 mm reach the end of 134 mm neither in two pieces nor
// in three of 50; a loaf of them is laid all the same, with every join on a line.
func TestShorterThanWanted(t *testing.T) {
	o := Order{
		Loaf: Loaf{Length: 134 * quantity.Millimetre, Bar: 25 * quantity.Millimetre}, Loaves: 1, Rows: 2,
		Sticks: []Stick{{Lot: "A", Length: 59 * quantity.Millimetre, Count: 5}},
	}
	if p := solved(t, o); p.Unmade != 0 || len(p.Shows) != 0 || p.Proven() || p.Whole != 0 {
		t.Errorf("%+v", p)
	}
}

func TestOlderLotsFirst(t *testing.T) {
	o := Order{Loaf: inchLoaf(), Loaves: 2, Rows: 1, Sticks: []Stick{
		{Lot: "old", Length: 12 * quantity.Inch, Count: 4},
		{Lot: "new", Length: 12 * quantity.Inch, Count: 4},
	}}
	for _, loaf := range solved(t, o).Loaves {
		if loaf.Lot != "old" {
			t.Errorf("loaf %d is of the %s lot", loaf.N, loaf.Lot)
		}
	}
}

func TestNoTwoLotsInOneLoaf(t *testing.T) {
	o := Order{Loaf: inchLoaf(), Loaves: 1, Rows: 1, Sticks: []Stick{
		{Lot: "old", Length: 12 * quantity.Inch, Count: 1},
		{Lot: "new", Length: 12 * quantity.Inch, Count: 1},
	}}
	if p := solved(t, o); p.Unmade != 1 || p.Proven() {
		t.Errorf("%+v", p)
	}
}

func TestJoinsFirstOrSticksFirst(t *testing.T) {
	o := Order{Loaf: inchLoaf(), Loaves: 2, Rows: 6, Sticks: []Stick{{Lot: "A", Length: 12 * quantity.Inch, Count: 40}}}
	sticks := solved(t, o)
	o.JoinsFirst = true
	joins := solved(t, o)
	// 12 rows are 204 bars, 17 full sticks; two pieces a row leave bars over.
	if sticks.Used != 17 || joins.Joins != 12 || joins.Used <= 17 || sticks.Joins <= 12 {
		t.Errorf("%d sticks and %d joins, or %d and %d", sticks.Used, sticks.Joins, joins.Used, joins.Joins)
	}
}

func TestAShortStickCountsWithinTheTolerance(t *testing.T) {
	o := Order{Loaf: inchLoaf(), Loaves: 3, Rows: 1, Tolerance: DefaultTolerance, Sticks: []Stick{
		{Lot: "A", Length: 304 * quantity.Millimetre, Count: 5}, // 12 in are 304.8 mm.
	}}
	if p := solved(t, o); p.Used != 5 || p.Unmade != 0 || len(p.Shows) != 0 {
		t.Errorf("%d sticks, %d unmade", p.Used, p.Unmade)
	}
}

func TestFreshSticksOnlyForWhatIsNotThere(t *testing.T) {
	o := Order{Loaf: inchLoaf(), Loaves: 3, Rows: 1, Sticks: []Stick{
		{Lot: "A", Length: 12 * quantity.Inch, Count: 3},
		{Lot: "next", Length: 320 * quantity.Millimetre, Fresh: true},
	}}
	p := solved(t, o)
	if p.Fresh != 2 || p.Used != 5 || p.Unmade != 0 || !p.Proven() {
		t.Errorf("%d sticks, %d of them fresh", p.Used, p.Fresh)
	}
}

func TestSaysWhichBarsShowAJoin(t *testing.T) {
	// Bars of 50 mm, sticks of 60: a line every 50, and nothing to spare.
	o := Order{
		Loaf: Loaf{Length: 300 * quantity.Millimetre, Bar: 50 * quantity.Millimetre}, Loaves: 1, Rows: 1,
		Sticks: []Stick{{Lot: "A", Length: 60 * quantity.Millimetre, Count: 5}},
	}
	p := solved(t, o)
	var bars []int
	for _, s := range p.Shows {
		bars = append(bars, s.Bar)
	}
	if !slices.Equal(bars, []int{2, 3, 4, 5}) || p.Used != 5 || p.Unmade != 0 {
		t.Errorf("bars %v show a join; %+v", bars, p)
	}
	o.Sticks[0].Count = 4
	if p := solved(t, o); p.Unmade != 1 || p.Used != 0 {
		t.Errorf("%+v", p)
	}
}

func TestTheMinimumPiece(t *testing.T) {
	o := Order{Loaf: inchLoaf(), Loaves: 1, Rows: 1, Sticks: []Stick{{Lot: "A", Length: 16 * quantity.Inch, Count: 3}}}
	for _, row := range solved(t, o).Loaves[0].Rows {
		for _, piece := range row.Pieces {
			if piece.Length < 2*quantity.Inch {
				t.Errorf("a piece of %s", piece.Length)
			}
		}
	}
}

func TestInvalidOrders(t *testing.T) {
	good := Order{Loaf: inchLoaf(), Loaves: 1, Rows: 1}
	for name, spoil := range map[string]func(*Order){
		"no loaf":        func(o *Order) { o.Loaves = 0 },
		"no bar":         func(o *Order) { o.Loaf.Bar = 0 },
		"bar > loaf":     func(o *Order) { o.Loaf.Bar = 18 * quantity.Inch },
		"below zero":     func(o *Order) { o.Knife = -1 },
		"wide tolerance": func(o *Order) { o.Tolerance = quantity.Inch },
		"too many rows":  func(o *Order) { o.Loaves = 5000 },
		"too many bars":  func(o *Order) { o.Loaf.Bar = quantity.Millimetre },
		"a stick of 0":   func(o *Order) { o.Sticks = []Stick{{Count: 1}} },
	} {
		o := good
		spoil(&o)
		var invalid *InvalidError
		if _, err := Solve(o); !errors.As(err, &invalid) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestBars(t *testing.T) {
	mm := quantity.Millimetre
	for _, c := range []struct {
		loaf Loaf
		bars int
		rest quantity.Length
	}{
		{Loaf{Length: 300 * mm, Bar: 25 * mm}, 12, 0},
		{Loaf{Length: 299 * mm, Bar: 25 * mm}, 11, 24 * mm},
		{Loaf{Length: 220 * mm, Bar: 25 * mm, Near: 10 * mm, Far: 10 * mm}, 8, 10 * mm},
		{Loaf{Length: 220 * mm, Bar: 25 * mm, Near: 5 * mm, Far: 5 * mm}, 8, 15 * mm},
		{Loaf{Length: 300 * mm, Bar: 25 * mm, Wire: mm}, 11, 14 * mm},
		{Loaf{Length: 311 * mm, Bar: 25 * mm, Wire: mm}, 12, 0}, // 12 bars and 11 cuts.
		{Loaf{Length: 333 * mm, Bar: 25 * mm, Near: 10 * mm, Far: 10 * mm, Wire: mm}, 12, 10 * mm},
		{Loaf{Length: 332 * mm, Bar: 25 * mm, Near: 10 * mm, Far: 10 * mm, Wire: mm}, 11, 35 * mm},
		{Loaf{Length: 20 * mm, Bar: 25 * mm}, 0, 20 * mm},
	} {
		if n := c.loaf.Bars(); n != c.bars {
			t.Errorf("%+v yields %d bars, not %d", c.loaf, n, c.bars)
		}
		if c.bars > 0 && c.loaf.Rest() != c.rest {
			t.Errorf("%+v leaves %s, not %s", c.loaf, c.loaf.Rest(), c.rest)
		}
	}
}

// reporter is what a test and a drawn case have in common.
type reporter interface {
	Helper()
	Errorf(format string, args ...any)
}
