package curing

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/timer"
)

// Words says in sentences how the bars dry: how long they have, what the curve
// forecasts with its errors, or why there is no curve. Water is how much of a
// bar is water, a fraction.
func (c Curing) Words(now timer.Moment, water float64, at *time.Location) []string {
	list := []string{c.daysWords(now)}
	if len(c.Marks) == 0 {
		return append(list, "No bar is marked yet.")
	}
	d, err := c.Drying(water)
	if err != nil {
		return append(list, "No curve: "+err.Error()+".")
	}
	return append(list, d.Words(now, at)...)
}

// Left counts the bars that should be here to leave; below zero more left than there were.
func (c Curing) Left() int { return c.Bars - c.Kept - c.Opened - c.Gone }

// Count says what became of the bars that were cut.
func (c Curing) Count() string {
	words := quantity.Count(c.Bars, "bar", "bars") + " cut"
	for _, part := range []struct {
		n    int
		what string
	}{{c.Kept, "kept back"}, {c.Opened, "cut open for a look"}, {c.Gone, "gone"}} {
		if part.n > 0 {
			words += fmt.Sprintf(", %d %s", part.n, part.what)
		}
	}
	left := c.Left()
	switch uncounted := slices.ContainsFunc(c.Went, func(w batch.Told[batch.BarsWent]) bool { return w.Fact.Count == 0 }); {
	case left >= 0 && uncounted:
		return words + fmt.Sprintf(", at most %d left: some went uncounted", left)
	case left >= 0:
		return words + fmt.Sprintf(", %d left", left)
	}
	return words + fmt.Sprintf(", %d more than there were", -c.Left())
}

// Out says how many bars are known to have left, and where they went.
func (c Curing) Out() string {
	if len(c.Went) == 0 {
		return "No bar is noted to have left."
	}
	places := make([]string, len(c.Went))
	for i, w := range c.Went {
		places[i] = w.Fact.Where + ", " + w.Moment().Wall.Format(time.DateOnly)
		if w.Fact.Count > 0 {
			places[i] = fmt.Sprintf("%d to %s", w.Fact.Count, places[i])
		}
	}
	return fmt.Sprintf("%s out already: %s.", quantity.Count(c.Gone, "bar is", "bars are"), strings.Join(places, "; "))
}

// daysWords says how long the bars have dried, and how long they still will.
func (c Curing) daysWords(now timer.Moment) string {
	gone, cut := c.Dry(now)
	switch {
	case !cut && c.Bars > 0:
		return fmt.Sprintf("%s cut, and not all loaves yet: the cure counts from the last.", many(c.Bars, "bar"))
	case !cut:
		return "Not cut yet."
	}
	words := fmt.Sprintf("Day %d of the cure; ", int(gone/day))
	switch {
	case gone < c.Rules.Least:
		return words + fmt.Sprintf("shortest cure over in %s, usual in %s.", daysWord(c.Rules.Least-gone), daysWord(c.Rules.Usual-gone))
	case gone < c.Rules.Usual:
		return words + fmt.Sprintf("the shortest cure is over, usual in %s.", daysWord(c.Rules.Usual-gone))
	}
	return words + "the usual cure is over."
}

func daysWord(d time.Duration) string { return many(int(math.Ceil(float64(d)/float64(day))), "day") }

// Words says what the curve forecasts: when the bars count as dry, and what it
// comes to.
func (d Drying) Words(now timer.Moment, at *time.Location) []string {
	loss, tau := d.Loss(), d.Tau()
	days, off := d.SlowDay()
	when, rate, within := d.Slow.In(at).Format("2 January"), d.SlowRate.String(), many(int(math.Ceil(off)), "day")
	words := fmt.Sprintf("Its loss falls under %s a week on %s, ± %s.", rate, when, within)
	switch {
	case days == 0:
		words = fmt.Sprintf("Its loss was under %s a week from the start.", rate)
	case d.Slow.Before(now.Wall):
		words = fmt.Sprintf("Its loss has fallen under %s a week: since %s, ± %s.", rate, when, within)
	}
	return []string{words, fmt.Sprintf("Comes to a loss of %.1f ± %.1f %%, time constant %.1f ± %.1f days (95 %%, %s of %s).",
		100*loss.Value, 100*loss.PlusMinus, tau.Value, tau.PlusMinus, many(d.Readings, "weigh-in"), many(d.Bars, "bar"))}
}

func many(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
