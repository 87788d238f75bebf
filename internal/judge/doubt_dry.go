package judge

import (
	"fmt"
	"slices"
	"time"

	"bench/internal/batch"
	"bench/internal/curing"
	"bench/internal/quantity"
	"bench/internal/steps"
)

// unlike says that a weight is over the most that is expected by more than that part, or
// under the least by more than that and what dried away.
func unlike(m, least, most quantity.Mass, within, dried float64) bool {
	return m.Grams() > most.Grams()*(1+within) || m.Grams() < least.Grams()*(1-within-dried)
}

// dried is the part that may have dried away since the pour by when a fact was so; at is
// when it is said, and zero is not known.
func dried(p steps.Plan, f batch.Fact, at time.Time) float64 {
	if when := batch.SaidOf(f).When; !when.IsZero() {
		at = when
	}
	poured := p.Poured().Last.Wall
	if at.IsZero() || poured.IsZero() {
		return fallMost
	}
	return fall(max(0, at.Sub(poured)))
}

// How much of its last weight a bar is expected to lose at most: some at once, more by the
// day, and so much between two weigh-ins at all (common practice, no source).
const (
	fallAtOnce = 0.02
	fallADay   = 0.02
	fallMost   = 0.15
)

// fall is the most that a bar loses in a time.
func fall(d time.Duration) float64 {
	return min(fallMost, fallAtOnce+fallADay*d.Hours()/24)
}

// doubtWeighIn holds a weigh-in to those of the same bar before and after it.
func doubtWeighIn(p steps.Plan, f batch.WeighedIn, at time.Time) string {
	if !f.When.IsZero() {
		at = f.When
	}
	for _, m := range p.Curing().Marks {
		if m.Bar == f.Bar {
			return doubtAmong(f, m.Readings, at)
		}
	}
	if bars := p.Poured().Bars; len(bars) > 0 && bars[0] > 0 && unlike(f.Mass, slices.Min(bars), slices.Max(bars), barWithin, dried(p, f, at)) {
		expected := slices.Max(bars)
		return fmt.Sprintf("%s g, expected about %s g", f.Mass.At(f.Reads), expected.At(quantity.Gram))
	}
	return ""
}

// doubtAmong holds a weigh-in to what its bar weighed before it, and after it.
func doubtAmong(f batch.WeighedIn, readings []curing.Reading, at time.Time) string {
	after := slices.IndexFunc(readings, func(r curing.Reading) bool { return !at.IsZero() && r.At.Wall.After(at) })
	if after < 0 {
		after = len(readings)
	} else if r := readings[after]; r.Mass > f.Mass+max(f.Reads, r.Reads) {
		return fmt.Sprintf("bar %s weighed %s g after it, and a bar in cure loses weight", f.Bar, r.Mass.At(f.Reads))
	}
	if after == 0 {
		return ""
	}
	last, within := readings[after-1], fallMost
	if !at.IsZero() {
		within = fall(at.Sub(last.At.Wall))
	}
	return doubtLoss(f, last.Mass, last.Reads, within)
}

// doubtLoss asks about a bar that is heavier than it was, or by far lighter.
func doubtLoss(f batch.WeighedIn, last, reads quantity.Mass, within float64) string {
	switch {
	case f.Mass > last+max(f.Reads, reads):
		return fmt.Sprintf("bar %s weighed %s g before, and a bar in cure loses weight", f.Bar, last.At(f.Reads))
	case f.Mass.Grams() < last.Grams()*(1-within):
		return fmt.Sprintf("bar %s weighed %s g before: is it the same bar?", f.Bar, last.At(f.Reads))
	}
	return ""
}
