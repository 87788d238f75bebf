package judge

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/rest"
	"bench/internal/steps"
	"bench/internal/work"
)

// A value after the pour that looks like a slip is asked about, and is kept
// with the answer; it is never refused for that.

// afterPour says that a fact with a value follows the pour.
func afterPour(f batch.Fact) bool {
	switch f.(type) {
	case batch.BarsCut, batch.BarsWeighed, batch.SetAside, batch.WeighedIn, batch.Tested:
		return true
	default:
		return false
	}
}

// doubtAt says why a fact that follows the pour looks like a slip, or "". At is when it
// was said; zero is now.
func doubtAt(p steps.Plan, f batch.Fact, at time.Time) string {
	list := []string{doubtDay(p, f)}
	switch f := f.(type) {
	case batch.BarsCut:
		switch {
		case f.Bars > f.Planned:
			list = append(list, fmt.Sprintf("%s, and no more than %d fit between the trims", quantity.Count(f.Bars, "bar", "bars"), f.Planned))
		case f.Bars < f.Planned && f.Why == "":
			list = append(list, fmt.Sprintf("%s, planned %d: what became of the rest?", quantity.Count(f.Bars, "bar", "bars"), f.Planned))
		}
	case batch.BarsWeighed:
		list = append(list, doubtCount(p, f), doubtBars(p, f, at))
	case batch.WeighedIn:
		list = append(list, doubtWeighIn(p, f, at))
	case batch.GelLooked:
		list = append(list, doubtGel(p, f), doubtWarmth(f))
	case batch.SetAside:
		list = append(list, doubtRetained(p, f, at), doubtEnds(p, f), doubtLeftover(p, f))
	case batch.BarsWent:
		if strings.TrimSpace(f.Where) != "" { // Else it is refused.
			list = append(list, doubtWent(p, f), doubtWord(p, f))
		}
	case batch.Tested:
		if f.Test == batch.PHTest && f.Value < rest.LowestPH {
			list = append(list, fmt.Sprintf("pH %.1f is not what soap gives (%.0f to %.1f), so it does not pass; if it is free alkali, type it with its sign, %g %%", f.Value, rest.LowestPH, rest.HighestPH, f.Value))
		}
	default:
	}
	return strings.Join(slices.DeleteFunc(list, func(s string) bool { return s == "" }), "; and ")
}

// doubtWent asks about more bars than are left.
func doubtWent(p steps.Plan, f batch.BarsWent) string {
	c := p.Curing()
	if f.Count == 0 || f.Count <= c.Left() {
		return ""
	}
	return fmt.Sprintf("%s, and of those there should be %d: %s", quantity.Count(f.Count, "bar", "bars"), max(0, c.Left()), c.Count())
}

// doubtWord asks about bars that went without having been released, as the word was then.
func doubtWord(p steps.Plan, f batch.BarsWent) string {
	words := "the bars were not released"
	for _, word := range batch.All[batch.Fact](p.State()) {
		at := word.Moment().Wall
		switch said := word.Fact.(type) {
		case batch.Released:
			if f.When.IsZero() || !before(f.When, at) {
				words = ""
			} else if words != "" {
				return words + fmt.Sprintf("; they were released on %s, and these went on %s", at.In(f.When.Location()).Format(time.DateOnly), dayOf(f.When))
			}
		case batch.Held:
			if f.When.IsZero() || !before(f.When, at) {
				words = "the bars were held: " + said.Reason
			}
		default:
		}
	}
	if since := p.Since(); words == "" && f.When.IsZero() && len(since) > 0 {
		return "a warning opened after the release, and has no answer yet: " + strings.Join(since, "; ")
	}
	return words
}

// doubtCount asks about more bars than were cut.
func doubtCount(p steps.Plan, f batch.BarsWeighed) string {
	t, _, ok := p.Task(f.Task)
	cut := t.Count
	if f.Loaf == 0 {
		cut = p.Curing().Bars
	}
	if all := t.Counted + f.Count; ok && cut > 0 && all > cut {
		return fmt.Sprintf("with these %s weighed, and %d were cut", quantity.Count(all, "bar is", "bars are"), cut)
	}
	return ""
}

// doubtRetained asks about a bar that is kept back and weighs unlike those of any loaf.
func doubtRetained(p steps.Plan, f batch.SetAside, at time.Time) string {
	bars := p.Poured().Bars
	if f.Piece != batch.RetainedBar || f.Mass == 0 || len(bars) == 0 {
		return ""
	}
	if unlike(f.Mass, slices.Min(bars), slices.Max(bars), barWithin, dried(p, f, at)) {
		return fmt.Sprintf("%s g, expected about %s g", f.Mass.At(quantity.Gram/10), slices.Max(bars).At(quantity.Gram))
	}
	return ""
}

// doubtEnds asks about end pieces that weigh unlike what the bars leave of the loaves.
func doubtEnds(p steps.Plan, f batch.SetAside) string {
	if f.Piece != batch.EndPiece || f.Mass == 0 {
		return ""
	}
	left := quantity.Mass(0)
	for loaf, m := range p.Poured().Loaves {
		if cut, ok := batch.Last[batch.BarsCut](p.State(), work.OfLoaf("cut", loaf)); ok {
			left += m - p.Poured().Bars[loaf]*quantity.Mass(cut.Fact.Bars)
		}
	}
	if left > 0 && (f.Mass > 2*left || f.Mass < left/2) {
		return fmt.Sprintf("%s g, and the bars leave about %s g of the loaves", f.Mass.At(quantity.Gram/10), left.At(quantity.Gram))
	}
	return ""
}

// How far a weight may be from what is expected without a question (common practice, no
// source).
const (
	loafWithin = 0.05 // loafWithin is of a loaf: what its embeds weigh is an estimate.
	barWithin  = 0.15 // barWithin is of one bar: cut by hand it is some millimetres thicker or thinner.
	barsWithin = 0.02 // barsWithin is of a loaf: so much less than planned may stay in its ends.
)

// doubtLoaf asks about a loaf that weighs unlike what was poured into its mould, and about
// a pour unlike what was asked.
func doubtLoaf(p steps.Plan, f batch.Ticked, at time.Time) string {
	loaves, n := p.Poured().Loaves, work.LoafOf(f.Task)
	if t, _, _ := p.Task(f.Task); t.Poured() && f.Mass > 0 {
		return doubtful(f.Mass, t.Target, t.Target/10, t.Reads, false)
	}
	if !f.When.IsZero() {
		at = f.When
	}
	if f.Mass == 0 || n < 1 || n > len(loaves) || !unlike(f.Mass, loaves[n-1], loaves[n-1], loafWithin, dried(p, f, at)) {
		return ""
	}
	return fmt.Sprintf("%s g, expected about %s g", f.Mass.At(quantity.Gram/10), loaves[n-1].At(quantity.Gram))
}

// doubtLeftover asks where batter went that neither loaves nor vessels account for, once
// it was said what was left over; and of either piece, whether more can have come out than
// went in.
func doubtLeftover(p steps.Plan, f batch.SetAside) string {
	if f.Piece != batch.LeftoverBatter && f.Piece != batch.SampleBar {
		return ""
	}
	b := p.Balance
	if last, ok := batch.Last[batch.SetAside](p.State(), f.Task); ok { // This one takes its place.
		b.Leftover, b.Rest = b.Leftover-last.Fact.Mass, b.Rest+last.Fact.Mass
	}
	b.Leftover, b.Rest = b.Leftover+f.Mass, b.Rest-f.Mass
	switch beyond := b.Beyond(); {
	case f.Count > 0 && f.Mass == 0: // It was not weighed, so nothing can be missed.
		return ""
	case beyond > 0 && f.Piece == batch.LeftoverBatter:
		return fmt.Sprintf("%s g of batter are neither in the loaves nor expected in vessels (%s): where did they go?", beyond.At(quantity.Gram), b)
	case b.Rest < 0 && f.Piece == batch.SampleBar && b.Leftover > f.Mass:
		return fmt.Sprintf("with the leftover that was weighed, %s g more came out than went in (%s): was this bar weighed as part of it? Then it is 0", (-b.Rest).At(quantity.Gram), b)
	case beyond < 0:
		return fmt.Sprintf("%s g more came out than went in (%s): is a weight wrong?", (-beyond).At(quantity.Gram), b)
	}
	return ""
}

func doubtBars(p steps.Plan, f batch.BarsWeighed, at time.Time) string {
	t, _, ok := p.Task(f.Task)
	loaves := p.Poured().Loaves
	if !ok || len(loaves) == 0 || f.Count < 1 {
		return ""
	}
	loaf := slices.Max(loaves)
	if f.Loaf > 0 && f.Loaf <= len(loaves) {
		loaf = loaves[f.Loaf-1]
	}
	each, gone := f.Mass/quantity.Mass(f.Count), 0.0
	if f.Loaf > 0 { // Those that are tested are expected as dry as the marked ones.
		gone = dried(p, f, at)
	}
	asBars := t.Target.Grams() * float64(p.State().Control.BarsPerLoaf())
	switch {
	case f.Loaf > 0 && (t.Mass+f.Mass).Grams() > asBars+loaf.Grams()*barsWithin:
		return fmt.Sprintf("together the bars weigh %s g, and of the loaf's %s g about %.0f g are bars", (t.Mass + f.Mass).At(t.Reads), loaf.At(quantity.Gram), asBars)
	case t.Target > 0 && unlike(each, t.Target, t.Target, barWithin, gone):
		return fmt.Sprintf("%s g a bar, expected about %s g", each.At(t.Reads), t.Target.At(quantity.Gram))
	}
	return ""
}
