package ui

import (
	"fmt"
	"strconv"
	"strings"

	"bench/internal/quantity"
	"bench/internal/steps"
)

// body shows the number to reach in large figures, or the order itself where
// there is none.
func (p panel) body() []string {
	number, unit, aside := p.large()
	if number == "" {
		return []string{""}
	}
	scale := 1
	if p.h >= 40 && bigWidth(number, 2)+20 <= p.w {
		scale = 2
	}
	rows := big(number, scale)
	reserve := max(width(rows[0]), p.reserve(scale))
	style := p.t.strong
	if p.b.typed != "" {
		style = p.t.accent
	}
	lines := []string{""}
	for i, row := range rows {
		side := ""
		switch i {
		case len(rows) - 1:
			side = p.t.strong.Render(unit)
		case len(rows) - 2:
			side = p.t.quiet.Render(aside)
		}
		lines = append(lines, "   "+style.Render(fit(row, reserve))+"  "+side)
	}
	lines = append(lines, "")
	return append(lines, p.readings()...)
}

// reserve is the width that the figures keep free, so that the unit stays where
// it is while a number is typed.
func (p panel) reserve(scale int) int {
	asked, _ := p.asked()
	return bigWidth(asked+"0", scale)
}

// large gives what the large figures show, with its unit and a word beside it.
func (p panel) large() (number, unit, aside string) {
	number, unit = p.asked()
	if p.b.typed != "" {
		return p.b.typed, unit, "asked " + strings.TrimSuffix(number+" "+unit, " ")
	}
	t := p.task
	switch {
	case t.Done && (t.Do == steps.Weigh || t.Do == steps.Gross || t.Do == steps.Portion):
		return t.Mass.At(t.Reads), "g", "done"
	case t.Do == steps.Portion:
		return number, unit, "stop when it reads"
	case t.Do == steps.Gross:
		return number, unit, "expected, vessel included"
	case t.Do == steps.Temperature:
		return number, unit, "wanted"
	case t.Do == steps.Weigh && t.Tolerance > 0:
		return number, unit, "± " + t.Tolerance.At(finer(t))
	case t.Do == steps.Tick:
		return number, unit, p.rim()
	}
	return number, unit, ""
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
			return strconv.FormatFloat(l.PourLine.Millimetres(), 'f', 0, 64), "mm from the floor"
		}
	}
	return "", ""
}

// finer is how a tolerance is shown: a digit more than the scale shows, where
// that is not idle.
func finer(t steps.Task) quantity.Mass {
	if t.Tolerance%max(t.Reads, 1) == 0 {
		return t.Reads
	}
	return max(t.Reads/10, quantity.Milligram)
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

func (p panel) rim() string {
	if l, ok := p.pour(); ok {
		return "that is " + l.Rim.String() + " under the rim"
	}
	return ""
}

// readings says what the scale must read, tared and not, and how what is typed
// compares.
func (p panel) readings() []string {
	t := p.task
	if v := p.verdict(); v != "" {
		return append([]string{" " + v}, p.scaleLines()...)
	}
	if t.Parts > 1 && !t.Done {
		return append([]string{" " + p.t.quiet.Render(fmt.Sprintf("too much for the scale at once: %d weighings, each with + but the last", t.Parts))}, p.scaleLines()...)
	}
	if t.Mass > 0 && !t.Done {
		return append([]string{" " + p.t.quiet.Render("in already "+t.Mass.At(t.Reads)+" of "+t.Target.At(t.Reads))}, p.scaleLines()...)
	}
	return append([]string{""}, p.scaleLines()...)
}

func (p panel) scaleLines() []string {
	t := p.task
	switch {
	case t.Done:
		return []string{" " + p.t.quiet.Render("u corrects it; esc goes back to what is next")}
	case t.Do == steps.Portion:
		return []string{
			p.reading("not tared", t.StopAt.At(t.Reads), "it reads "+t.SoFar.At(t.Reads)+" now, less this portion"),
			p.reading("this portion", t.Target.At(t.Reads), ""),
		}
	case t.Do == steps.Gross && t.TareKnown:
		return []string{p.reading("empty vessel", t.Tare.At(t.Reads), "is taken off")}
	case t.Do != steps.Weigh:
		return nil
	}
	tared := p.reading("tared", t.Remaining().At(t.Reads), "")
	if !t.TareKnown {
		return []string{tared, " " + p.t.quiet.Render("not tared     "+clean(t.Vessel)+" has no known weight: tare it first")}
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

// verdict compares what is typed with what is asked, in words and as a place
// on a rule of three tolerances either way.
func (p panel) verdict() string {
	if p.b.doubt != nil && p.b.typed == "" {
		return p.t.off.Render(cut(signOff+" "+clean(p.b.doubt.words)+". If that is right, type it again.", p.w-2))
	}
	if p.b.typed == "" || p.task.Done {
		return ""
	}
	t := p.task
	if t.Do == steps.Temperature {
		return p.warmth()
	}
	m, err := quantity.ParseNumberMass(p.b.typed, quantity.Gram)
	if err != nil {
		return p.t.quiet.Render("a number with one point")
	}
	var over quantity.Mass
	below, above := " under", " over"
	switch t.Do {
	case steps.Weigh:
		over = m - t.Remaining()
		below = " to go"
	case steps.Portion:
		over = m - t.StopAt
		below, above = " too far", " still to pour"
	case steps.Gross:
		over = m - t.Target
		below, above = " less than expected", " more than expected"
	case steps.Temperature, steps.Tick, steps.Look:
		return ""
	}
	words := ""
	switch {
	case t.Tolerance > 0 && over <= t.Tolerance && over >= -t.Tolerance, over == 0:
		words = p.t.good.Render(signDone + " within ± " + t.Tolerance.At(finer(t)))
	case over > 0:
		words = p.t.off.Render(signOff + " " + over.At(t.Reads) + above)
	default:
		words = p.t.off.Render(signLater + " " + (-over).At(t.Reads) + below)
	}
	return fit(words, 28) + p.ruler(over)
}

// ruler shows where a reading lies: the band of tolerance in the middle third.
func (p panel) ruler(over quantity.Mass) string {
	tol := p.task.Tolerance
	if tol <= 0 || p.w < 58 {
		return ""
	}
	const half = 12
	at := half + int(float64(over)/float64(3*tol)*half)
	cells := []rune(strings.Repeat("·", half-4) + "├" + "───┼───" + "┤" + strings.Repeat("·", half-4))
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
