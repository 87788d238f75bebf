package ui

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"bench/internal/quantity"
	"bench/internal/steps"
)

// tolerance shows what the scale can tell of it, and a place more when that is
// nothing.
func tolerance(t steps.Task) string {
	if whole := t.Tolerance.FloorTo(t.Reads); whole > 0 {
		return "± " + whole.At(t.Reads)
	}
	return "± " + t.Tolerance.At(max(t.Reads/10, quantity.Milligram))
}

// verdictLines are the verdict, or a doubt with all of its words.
func (p panel) verdictLines() []string {
	if p.b.doubt == nil || p.b.typed != "" {
		return []string{" " + p.verdict()}
	}
	return warning(p.t, clean(p.b.doubt.words)+". Right? Then type it again.", p.w)
}

// verdict says, before anything is typed, how far off is still right, and then
// how what is typed compares.
func (p panel) verdict() string {
	t := p.task
	switch {
	case p.b.typed == "" && again(t, p.stage):
		return p.t.quiet.Render("type what it reads now; the last reading counts")
	case p.b.typed == "" && t.Done:
		return p.t.quiet.Render("u corrects it; esc goes back to what is next")
	case p.b.typed == "" && t.Tolerance > 0 && (t.Do == steps.Weigh || t.Do == steps.Portion):
		return p.t.quiet.Render(tolerance(t) + " g is near enough")
	case p.b.typed == "":
		return ""
	case t.Do == steps.Temperature:
		return p.warmth()
	}
	m, err := quantity.ParseNumberMass(p.b.typed, quantity.Gram)
	if err != nil {
		return p.t.quiet.Render("a number with one point")
	}
	return p.compared(m)
}

// compared says how a typed weight compares, in words and as a place on a rule.
func (p panel) compared(m quantity.Mass) string {
	t := p.task
	over, below, above := p.compare(m)
	words := ""
	switch {
	case t.Tolerance > 0 && over <= t.Tolerance && over >= -t.Tolerance, over == 0:
		words = p.t.good.Render(signDone + " within " + tolerance(t))
	case over > 0:
		words = p.t.off.Render(signOff + " " + over.At(t.Reads) + above)
	default:
		words = p.t.off.Render(signLater + " " + (-over).At(t.Reads) + below)
	}
	if t.Do == steps.Gross {
		return words
	}
	asked, _ := p.asked()
	return between(words+p.t.quiet.Render("   asked "+asked), p.ruler(over)+" ", p.w-1)
}

// compare gives how far a typed weight is over, with the words for under and
// over.
func (p panel) compare(m quantity.Mass) (over quantity.Mass, below, above string) {
	switch p.task.Do {
	case steps.Portion:
		return m - p.task.StopAt, " too far", " still to pour"
	case steps.Gross:
		return m - p.task.Target, " less than expected", " more than expected"
	case steps.Weigh, steps.Temperature, steps.Tick, steps.Look:
	}
	return m - p.task.Remaining(), " to go", " over"
}

// ruler shows where a reading lies: the band of tolerance in the middle third.
func (p panel) ruler(over quantity.Mass) string {
	tol := p.task.Tolerance
	if tol <= 0 {
		return ""
	}
	const half = 9
	at := half + int(math.Round(float64(over)/float64(3*tol)*half))
	cells := []rune(strings.Repeat("·", half-3) + "├" + "──┼──" + "┤" + strings.Repeat("·", half-3))
	switch {
	case at < 0:
		return p.t.accent.Render("◀") + string(cells[1:])
	case at >= len(cells):
		return string(cells[:len(cells)-1]) + p.t.accent.Render(signNow)
	}
	return string(cells[:at]) + p.t.accent.Render("●") + string(cells[at+1:])
}

// warmth compares a temperature; how much is too much is for the plan to say.
func (p panel) warmth() string {
	c, err := strconv.ParseFloat(p.b.typed, 64)
	if err != nil {
		return p.t.quiet.Render("a number with one point")
	}
	switch off := c - p.task.Wanted.Celsius(); {
	case off > 0:
		return fmt.Sprintf("%.1f °C above what is wanted", off)
	case off < 0:
		return fmt.Sprintf("%.1f °C below what is wanted", -off)
	}
	return p.t.good.Render(signDone + " as wanted")
}
