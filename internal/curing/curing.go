// Package curing says what the facts tell of a batch after the pour: what was
// cut and weighed, how the bars dry, and what was tested.
//
// The rule: it reads facts and decides nothing. Time counts from the cut, which
// is when the last loaf was cut.
package curing

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
	"time"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/timer"
)

// BarTask is the task of weighing a marked bar, "cure/bar 1".
func BarTask(mark string) string { return "cure/bar " + mark }

// CutTask is the task of cutting a loaf, counting from 1.
func CutTask(loaf int) string { return "cut/loaf " + strconv.Itoa(loaf) }

// Curing is what is known of a batch after the pour.
type Curing struct {
	Rules   recipe.Cure
	First   timer.Moment                 // First is when the first loaf was cut; zero while all are whole.
	Cut     timer.Moment                 // Cut is when the last loaf was cut; zero while one is whole.
	Bars    int                          // Bars counts those that were cut.
	Planned int                          // Planned is how many the cutting plan asked for in the loaves that were cut.
	Short   []string                     // Short explains loaf by loaf what fell short.
	Marks   []Mark                       // Marks are the marked bars in the order of their marks.
	Kept    int                          // Kept counts those that were kept back.
	Opened  int                          // Opened counts those that were cut through for a look: one a look.
	Gone    int                          // Gone counts those that are noted to have left.
	Went    []batch.Told[batch.BarsWent] // Went says where they went.
}

// Mark is a marked bar with its weigh-ins in the order of their days.
type Mark struct {
	Bar      string
	Readings []Reading
	Lost     string // Lost says why the bar is weighed no more.
}

// Reading is one weigh-in.
type Reading struct {
	At    timer.Moment
	Mass  quantity.Mass
	Seq   int
	Reads quantity.Mass
}

// Last gives the latest weigh-in; a mark has at least one.
func (m Mark) Last() Reading { return m.Readings[len(m.Readings)-1] }

// Of reads the facts.
func Of(s batch.State) Curing {
	c := Curing{Rules: s.Control.Recipe.Cure.Or(), Marks: marks(s)}
	cuts := map[int]batch.Told[batch.BarsCut]{}
	for _, cut := range batch.All[batch.BarsCut](s) {
		cuts[cut.Fact.Loaf] = cut
	}
	last := timer.Moment{}
	for loaf := 1; loaf <= s.Control.Loaves; loaf++ {
		cut, ok := cuts[loaf]
		if !ok {
			continue
		}
		c.Bars, c.Planned = c.Bars+cut.Fact.Bars, c.Planned+cut.Fact.Planned
		if cut.Fact.Why != "" {
			c.Short = append(c.Short, "loaf "+strconv.Itoa(loaf)+": "+cut.Fact.Why)
		}
		at := cut.Moment()
		if at.Wall.After(last.Wall) {
			last = at
		}
		if c.First.IsZero() || at.Wall.Before(c.First.Wall) {
			c.First = at
		}
	}
	if s.Control.Loaves > 0 && allCut(s, cuts) {
		c.Cut = last
	}
	for _, piece := range batch.All[batch.SetAside](s) {
		if piece.Fact.Piece == batch.RetainedBar {
			c.Kept += piece.Fact.Count
		}
	}
	for _, look := range batch.All[batch.Tested](s) {
		if look.Fact.Test == batch.LookTest {
			c.Opened++
		}
	}
	c.Went = batch.All[batch.BarsWent](s)
	for _, went := range c.Went {
		c.Gone += went.Fact.Count
	}
	return c
}

// allCut says that every loaf was cut, or left out, and one at least was cut.
func allCut(s batch.State, cuts map[int]batch.Told[batch.BarsCut]) bool {
	for loaf := 1; loaf <= s.Control.Loaves; loaf++ {
		d, said := s.Done(CutTask(loaf))
		if _, cut := cuts[loaf]; !cut && (!said || d.Skipped == "") {
			return false
		}
	}
	return len(cuts) > 0
}

// marks gathers the weigh-ins by the bar's mark.
func marks(s batch.State) []Mark {
	var list []Mark
	for _, w := range batch.All[batch.WeighedIn](s) {
		at := slices.IndexFunc(list, func(m Mark) bool { return m.Bar == w.Fact.Bar })
		if at < 0 {
			at = len(list)
			m := Mark{Bar: w.Fact.Bar}
			if d, ok := s.Done(BarTask(m.Bar)); ok {
				m.Lost = d.Skipped
			}
			list = append(list, m)
		}
		list[at].Readings = append(list[at].Readings, Reading{w.Moment(), w.Fact.Mass, w.Seq, w.Fact.Reads})
	}
	for _, m := range list {
		slices.SortStableFunc(m.Readings, func(a, b Reading) int { return a.At.Wall.Compare(b.At.Wall) })
	}
	slices.SortStableFunc(list, func(a, b Mark) int {
		x, errX := strconv.Atoi(a.Bar)
		y, errY := strconv.Atoi(b.Bar)
		if errX == nil && errY == nil {
			return cmp.Compare(x, y)
		}
		return strings.Compare(a.Bar, b.Bar)
	})
	return list
}

// Dry gives how long the bars have dried, or false while there are none.
func (c Curing) Dry(now timer.Moment) (time.Duration, bool) {
	if c.Cut.IsZero() {
		return 0, false
	}
	gone, _ := now.Since(c.Cut)
	return gone, true
}

// NextBar gives the marked bar that waited longest for a weigh-in, how often it
// was weighed since its first, and when that was last.
func (c Curing) NextBar() (mark string, rounds int, since timer.Moment, ok bool) {
	for _, m := range c.Marks {
		if m.Lost != "" {
			continue
		}
		if last := m.Last().At; !ok || last.Wall.Before(since.Wall) {
			mark, rounds, since, ok = m.Bar, len(m.Readings)-1, last, true
		}
	}
	return mark, rounds, since, ok
}
