package bench

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"bench/internal/quantity"
	"bench/internal/steps"
	"bench/internal/ui/ink"
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
	if p.b.doubt == nil || p.b.Typed != "" {
		return []string{" " + p.verdict()}
	}
	return ink.Warning(p.t, ink.Clean(p.b.doubt.Words)+". Right? Then type it again.", p.w)
}

// verdict says, before anything is typed, how far off is still right, and then
// how what is typed compares.
func (p panel) verdict() string {
	t := p.task
	if words, ok := restVerdict(t); ok && !t.Done {
		return p.t.Quiet.Render(words)
	}
	switch {
	case p.b.Typed == "" && again(t, p.stage):
		return p.t.Quiet.Render("type what it reads now; the last reading counts")
	case p.b.Typed == "" && t.Done:
		return p.t.Quiet.Render("u corrects it; esc goes back to what is next")
	case p.b.Typed == "" && t.Tolerance > 0 && (t.Do == steps.Weigh || t.Do == steps.Portion):
		return p.t.Quiet.Render(tolerance(t) + " g is near enough")
	case p.b.Typed == "":
		return ""
	case t.Do == steps.Temperature:
		return p.warmth()
	}
	m, err := quantity.ParseNumberMass(p.b.Typed, quantity.Gram)
	if err != nil {
		return p.t.Quiet.Render("a number with one point")
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
		words = p.t.Good.Render(ink.SignDone + " within " + tolerance(t))
	case over > 0:
		words = p.t.Off.Render(ink.SignOff + " " + over.At(t.Reads) + above)
	default:
		words = p.t.Off.Render(ink.SignLater + " " + (-over).At(t.Reads) + below)
	}
	if t.Do == steps.Gross {
		return words
	}
	asked, _ := p.asked()
	return ink.Between(words+p.t.Quiet.Render("   asked "+asked), p.ruler(over)+" ", p.w-1)
}

// compare gives how far a typed weight is over, with the words for under and
// over.
func (p panel) compare(m quantity.Mass) (over quantity.Mass, below, above string) {
	switch p.task.Do {
	case steps.Portion:
		return m - p.task.StopAt, " too far", " still to pour"
	case steps.Gross:
		return m - p.task.Target, " less than expected", " more than expected"
	default:
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
		return p.t.Accent.Render("◀") + string(cells[1:])
	case at >= len(cells):
		return string(cells[:len(cells)-1]) + p.t.Accent.Render(ink.SignNow)
	}
	return string(cells[:at]) + p.t.Accent.Render("●") + string(cells[at+1:])
}

// warmth compares a temperature; how much is too much is for the plan to say.
func (p panel) warmth() string {
	c, err := strconv.ParseFloat(p.b.Typed, 64)
	if err != nil {
		return p.t.Quiet.Render("a number with one point")
	}
	switch off := c - p.task.Wanted.Celsius(); {
	case off > 0:
		return fmt.Sprintf("%.1f °C above what is wanted", off)
	case off < 0:
		return fmt.Sprintf("%.1f °C below what is wanted", -off)
	}
	return p.t.Good.Render(ink.SignDone + " as wanted")
}
