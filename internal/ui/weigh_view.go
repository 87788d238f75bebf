package ui

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"bench/internal/quantity"
	"bench/internal/steps"
)

// figures is what is shown large: the number, its unit, and a word that says
// what the number is.
type figures struct{ number, unit, word string }

// body shows the number to reach in large figures.
func (p panel) body() []string {
	f := p.large()
	if f.number == "" {
		return nil
	}
	asked, _ := p.asked()
	scale := 1
	if p.h >= 36 && bigWidth(asked, 2)+24 <= p.w {
		scale = 2
	}
	// The unit stays where it is while a number is typed.
	reserve := max(bigWidth(f.number, scale), bigWidth(asked, scale))
	style := p.t.strong
	if p.b.typed != "" {
		style = p.t.accent
	}
	lines := []string{""}
	for i, row := range big(f.number, scale) {
		side := ""
		switch i {
		case 5*scale - 1:
			side = p.t.strong.Render(f.unit)
		case 5*scale - 3:
			side = p.t.quiet.Render(f.word)
		}
		lines = append(lines, "  "+style.Render(fit(row, reserve))+"  "+side)
	}
	if p.roomy() {
		lines = append(lines, "")
	}
	lines = append(lines, " "+p.verdict())
	if p.roomy() {
		lines = append(lines, "")
	}
	return append(lines, p.scaleLines()...)
}

// large gives what the large figures show. The weight of a vessel that must be
// weighed is not given away: it is asked for to tell one vessel from another.
func (p panel) large() figures {
	number, unit := p.asked()
	t := p.task
	switch {
	case number == "":
		return figures{}
	case p.b.typed != "":
		return figures{p.b.typed, unit, "typed"}
	case t.Done && t.Do != steps.Temperature && t.Numeric():
		return figures{t.Mass.At(t.Reads), unit, "done"}
	case t.Do == steps.Portion:
		return figures{number, unit, "stop at"}
	case t.Do == steps.Gross:
		return figures{dashes(number), unit, "type it"}
	case t.Do == steps.Temperature:
		return figures{number, unit, "wanted"}
	}
	return figures{number, unit, ""}
}

// dashes gives a number's places without its figures.
func dashes(number string) string {
	return strings.Map(func(r rune) rune {
		if r == '.' {
			return r
		}
		return '–'
	}, number)
}

// asked gives the number to reach and its unit; the number is empty where the
// task has none.
func (p panel) asked() (number, unit string) {
	t := p.task
	switch t.Do {
	case steps.Weigh:
		return t.Remaining().At(t.Reads), "g"
	case steps.Portion:
		return t.StopAt.At(t.Reads), "g"
	case steps.Gross:
		return t.Target.At(t.Reads), "g"
	case steps.Temperature:
		return strconv.FormatFloat(t.Wanted.Celsius(), 'f', 0, 64), "°C"
	case steps.Tick, steps.Look:
		if l, ok := p.pour(); ok {
			return strings.TrimSuffix(l.PourLine.String(), " mm"), "mm from the floor"
		}
	}
	return "", ""
}

// tolerance shows what the scale can tell of it, and a place more when that is
// nothing.
func tolerance(t steps.Task) string {
	if whole := t.Tolerance.FloorTo(t.Reads); whole > 0 {
		return "± " + whole.At(t.Reads)
	}
	return "± " + t.Tolerance.At(max(t.Reads/10, quantity.Milligram))
}

// pour gives the pour line that a pouring task goes up to.
func (p panel) pour() (steps.LoafPour, bool) {
	loaf := p.stage.Loaf - 1
	switch p.stage.Kind {
	case steps.Pour:
		for i, t := range p.stage.Tasks {
			if t.ID == p.task.ID {
				loaf = i
			}
		}
	case steps.ScentAndPour:
		if p.task.Material != "batter" {
			return steps.LoafPour{}, false
		}
	default:
		return steps.LoafPour{}, false
	}
	for _, l := range p.b.plan.Layers {
		if l.Name == p.stage.Layer && loaf >= 0 && loaf < len(l.Loaves) {
			return l.Loaves[loaf], true
		}
	}
	return steps.LoafPour{}, false
}

// scaleLines says what the scale must read, tared and not.
func (p panel) scaleLines() []string {
	t := p.task
	switch {
	case t.Done:
		return []string{" " + p.t.quiet.Render("u corrects it; esc goes back to what is next")}
	case t.Do == steps.Portion:
		return []string{
			p.reading("it reads now", t.SoFar.At(t.Reads), "pot and all"),
			p.reading("this portion", t.Target.At(t.Reads), "goes out"),
		}
	case t.Do == steps.Gross && t.TareKnown:
		return []string{p.reading("empty vessel", t.Tare.At(t.Reads), "is taken off")}
	case t.Do != steps.Weigh:
		return nil
	}
	tared := p.reading("tared", t.Remaining().At(t.Reads), p.parts())
	if !t.TareKnown {
		return []string{tared, " " + p.t.quiet.Render("not tared     no weight is known of "+clean(t.Vessel)+": tare it")}
	}
	sum := "vessel " + t.Tare.At(t.Reads)
	if t.SoFar > 0 {
		sum += " + so far " + t.SoFar.At(t.Reads)
	}
	return []string{tared, p.reading("not tared", t.Untared().At(t.Reads), sum+" + this")}
}

func (p panel) reading(what, number, how string) string {
	return " " + p.t.quiet.Render(fit(what, 13)) + p.t.strong.Render(right(number, 8)) + p.t.quiet.Render("   "+how)
}

// parts says what is in already, or that it takes several weighings.
func (p panel) parts() string {
	t := p.task
	switch {
	case t.Mass > 0:
		return "in already " + t.Mass.At(t.Reads) + " of " + t.Target.At(t.Reads)
	case t.Parts > 1:
		return fmt.Sprintf("in %d weighings: + after each but the last", t.Parts)
	}
	return ""
}

// verdict compares what is typed with what is asked, in words and as a place
// on a rule; before anything is typed it says how far off is still right.
func (p panel) verdict() string {
	t := p.task
	switch {
	case p.b.doubt != nil && p.b.typed == "":
		return p.t.off.Render(cut(signOff+" "+clean(p.b.doubt.words)+". Right? Then type it again.", p.w-2))
	case t.Done:
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
	if t.Do != steps.Gross {
		asked, _ := p.asked()
		words += p.t.quiet.Render("   asked " + asked)
	}
	if p.w < 56 || t.Do == steps.Gross {
		return words
	}
	return between(words, p.ruler(over)+" ", p.w-1)
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
