package cut

import (
	"fmt"

	"bench/internal/quantity"
)

// Stick is what there is of one dough lot and one measured length.
type Stick struct {
	Lot    string
	Length quantity.Length
	Count  int  // Count is not looked at for sticks still to be made.
	Fresh  bool // Fresh sticks are still to be made, as many as it takes.
}

// Order is what is wanted and what there is.
type Order struct {
	Loaf       Loaf
	Loaves     int
	Rows       int             // Rows of this stick in each loaf.
	Sticks     []Stick         // Sticks are listed from the oldest.
	Knife      quantity.Length // Knife is the width that cutting a stick takes.
	Tolerance  quantity.Length // Tolerance is how far from its cut line a join may lie, either way.
	Minimum    quantity.Length // Minimum is the shortest piece; zero is two bars.
	JoinsFirst bool            // JoinsFirst wants fewest joins before fewest sticks.
}

// DefaultTolerance is how far from its line a join may lie: common practice, no
// source.
const DefaultTolerance = 2 * quantity.Millimetre

// Plan is the cutting list and the placing list.
type Plan struct {
	Sticks []Strip // Sticks are in the order in which they are needed.
	Loaves []PlacedLoaf
	Used   int // Used sticks, fresh ones included.
	Fresh  int // Fresh sticks are to be made.
	Joins  int
	Offcut quantity.Length // Offcut is the longest single one.
	Bound  Bound
	Shows  []Show // Shows lists the joins that will be seen.
	Whole  int    // Whole is how many loaves, the first ones, hide every join with no piece below the shortest.
	Unmade int    // Unmade is how many loaves there is not enough stick for.
}

// Bound is what no plan can beat, each figure with those before it at their
// bounds.
type Bound struct {
	Fresh, Used, Joins int
	Offcut             quantity.Length
}

// Proven says that no plan is better.
func (p Plan) Proven() bool {
	return p.Unmade == 0 && len(p.Shows) == 0 &&
		p.Bound == Bound{Fresh: p.Fresh, Used: p.Used, Joins: p.Joins, Offcut: p.Offcut}
}

// Strip is one stick and what is cut from it, in order.
type Strip struct {
	N      int // N counts from 1.
	Lot    string
	Length quantity.Length
	Fresh  bool
	Pieces []Piece
	Offcut quantity.Length
}

// Piece is one piece of a stick and its place in a row.
type Piece struct {
	Stick  int // Stick is the N of its stick.
	Part   int // Part counts the pieces of the stick from 1.
	Loaf   int
	Row    int
	From   quantity.Length // From and To are where it lies, from the end at the stop.
	To     quantity.Length
	Length quantity.Length // Length to cut: To - From.
	Line   int             // Line is the cut line that it ends at, or NoLine.
	Drift  quantity.Length // Drift is how far short of that line it ends.
}

// NoLine is the line of a piece that ends at the end of the row, or shows.
const NoLine = -1

// Label names a piece by its stick and a letter, such as "3b".
func (p Piece) Label() string {
	if p.Part > 26 {
		return fmt.Sprintf("%d-%d", p.Stick, p.Part)
	}
	return fmt.Sprintf("%d%c", p.Stick, 'a'+p.Part-1)
}

// PlacedLoaf is what goes into one loaf.
type PlacedLoaf struct {
	N    int
	Lot  string
	Rows []PlacedRow
}

// PlacedRow lists the pieces of one row, from the end at the stop.
type PlacedRow struct {
	N      int
	Pieces []Piece
}

// Show is a join that lies inside a bar.
type Show struct {
	Loaf, Row, Bar int // Bar counts from 1 at the stop.
	At             quantity.Length
}

// InvalidError says why an order makes no sense.
type InvalidError struct{ Reason string }

func (e *InvalidError) Error() string { return e.Reason }

// Short lists the pieces that are shorter than the shortest that was wanted: in loaves
// that nothing better could be planned for.
func (p Plan) Short(wanted quantity.Length) []Piece {
	var short []Piece
	for _, loaf := range p.Loaves[min(p.Whole, len(p.Loaves)):] {
		for _, row := range loaf.Rows {
			for _, piece := range row.Pieces {
				if piece.Length < wanted {
					short = append(short, piece)
				}
			}
		}
	}
	return short
}

// Shortest gives the shortest piece that is wanted: two bars, where none is stated.
func (o Order) Shortest() quantity.Length {
	if o.Minimum > 0 {
		return o.Minimum
	}
	return 2 * o.Loaf.Bar
}

// maxRows and maxStations bound what is planned at all.
const (
	maxRows     = 4000
	maxStations = 200
	maxSticks   = 100_000
)

func (o Order) check() error {
	bad := func(format string, args ...any) error { return &InvalidError{fmt.Sprintf(format, args...)} }
	l := o.Loaf
	switch {
	case o.Loaves < 1 || o.Rows < 1:
		return bad("there must be a loaf and a row in it")
	case o.Loaves*o.Rows > maxRows:
		return bad("%d rows are more than %d", o.Loaves*o.Rows, maxRows)
	case l.Near < 0 || l.Far < 0 || l.Wire < 0 || o.Knife < 0 || o.Tolerance < 0 || o.Minimum < 0:
		return bad("no length is below zero")
	case l.Bars() < 1:
		return bad("a loaf of %s yields no bar of %s", l.Length, l.Bar)
	case l.Bars() > maxStations:
		return bad("%d bars are more than %d to a loaf", l.Bars(), maxStations)
	case 2*o.Tolerance >= l.Bar:
		return bad("a tolerance of %s is half a bar or more", o.Tolerance)
	}
	for _, s := range o.Sticks {
		if s.Length <= 0 || s.Count < 0 || s.Count > maxSticks {
			return bad("%d sticks of %s cannot be", s.Count, s.Length)
		}
	}
	return nil
}
