package bench

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"bench/internal/quantity"
	"bench/internal/reply"
	"bench/internal/ui/ink"
	"bench/internal/work"
)

// verdictLines are the verdict, or a doubt with all of its words.
func (p panel) verdictLines() []string {
	if p.b.doubt == nil || p.b.Typed != "" {
		return []string{" " + p.verdict()}
	}
	return ink.Warning(p.t, ink.Clean(p.b.doubt.Asks()), p.w)
}

// verdict says, before anything is typed, how far off is still right, and then
// how what is typed compares.
func (p panel) verdict() string {
	t := p.task
	if words, ok := reply.Expected(t); ok && !t.Done {
		return p.t.Quiet.Render(words)
	}
	switch {
	case p.b.Typed == "" && t.Do == work.Bars && reply.Again(t, p.stage):
		return p.t.Quiet.Render("another bar may be weighed; all of them count")
	case p.b.Typed == "" && reply.Again(t, p.stage):
		return p.t.Quiet.Render("type what it reads now; the last reading counts")
	case p.b.Typed == "" && t.Done:
		return p.t.Quiet.Render("u corrects it; esc goes back to what is next")
	case p.b.Typed == "" && t.Tolerance > 0 && (t.Do == work.Weigh || t.Do == work.Portion):
		return p.ruler(0, false) + p.t.Quiet.Render("  "+reply.Tolerance(t)+" g")
	case p.b.Typed == "":
		return ""
	case t.Do == work.Temperature:
		return p.warmth()
	}
	if !p.isMass {
		return p.t.Quiet.Render("a number with one point")
	}
	if t.Do == work.Tick {
		return p.withTick()
	}
	return p.compared(p.typed)
}

// compared says how a typed weight compares, beside the band of tolerance.
func (p panel) compared(m quantity.Mass) string {
	words := p.comparison(m)
	if p.task.Do == work.Gross {
		return words
	}
	over, _, _ := p.compare(m)
	return p.ruler(over, true) + "  " + words
}

// withTick says what a figure is that is typed with a tick.
func (p panel) withTick() string {
	if !p.task.Poured() {
		return p.t.Quiet.Render("what the loaf weighs, out of its mould")
	}
	words := "what went in, asked " + p.task.Target.At(p.task.Reads)
	if stays := p.task.SoFar - p.typed; stays >= 0 {
		words += "; " + stays.At(p.task.Reads) + " stay in the jug"
	}
	return p.t.Quiet.Render(words)
}

// verdictWords are how what is typed compares, without the band.
func (p panel) verdictWords() string {
	if p.task.Do == work.Temperature {
		return p.warmth()
	}
	if !p.isMass {
		return p.t.Quiet.Render("a number with one point")
	}
	if p.task.Do == work.Tick {
		return p.withTick()
	}
	return p.comparison(p.typed)
}

// comparison says in words how a typed weight compares.
func (p panel) comparison(m quantity.Mass) string {
	over, below, above := p.compare(m)
	words := " " + over.Abs().At(p.task.Reads) + below
	if over > 0 {
		words = " " + over.Abs().At(p.task.Reads) + above
	}
	switch {
	case p.within(over):
		return p.t.Good.Render(ink.SignDone + " within " + reply.Tolerance(p.task))
	case over < 0 && -over <= p.task.Tolerance+p.task.Loss:
		return p.t.Good.Render(ink.SignDone + " " + (-over).At(p.task.Reads) + " less: no more than " + p.task.Lost)
	case over > 0 != (p.task.Do == work.Portion): // What was poured too far cannot be undone.
		return p.t.Off.Render(ink.SignOff + words)
	}
	return p.t.Accent.Render(ink.SignLater + words)
}

// within says that a weight that is so much over is near enough.
func (p panel) within(over quantity.Mass) bool {
	return over == 0 || p.task.Tolerance > 0 && over <= p.task.Tolerance && over >= -p.task.Tolerance
}

// mark is the sign that says whether what is typed is right, to be read from
// afar: over, under or near enough; 0 where nothing is held to a tolerance.
func (p panel) mark() (sign rune, style ink.Ink) {
	if !p.isMass || p.task.Do != work.Weigh && p.task.Do != work.Portion {
		return 0, ink.Ink{}
	}
	over, _, _ := p.compare(p.typed)
	pouring := p.task.Do == work.Portion // The scale then counts down.
	switch {
	case p.within(over):
		return '✓', p.t.Strong
	case over > 0 != pouring:
		return '+', p.t.Off
	}
	return '–', p.t.Accent
}

// off is what mark says, in a number and as few words as can be read from afar.
func (p panel) off() (number, word string) {
	over, _, _ := p.compare(p.typed)
	number, word = over.Abs().At(p.task.Reads), "over"
	switch pouring := p.task.Do == work.Portion; {
	case p.within(over):
		return "", "within"
	case pouring && over > 0:
		word = "to pour"
	case pouring:
		word = "too far"
	case over < 0:
		word = "to go"
	}
	return number, word
}

// compare gives how far a typed weight is over, with the words for under and
// over.
func (p panel) compare(m quantity.Mass) (over quantity.Mass, below, above string) {
	switch p.task.Do {
	case work.Portion:
		return m - p.task.StopAt, " too far", " still to pour"
	case work.Gross:
		return m - p.task.Target, " less than expected", " more than expected"
	default:
	}
	return m - p.task.Remaining(), " to go", " over"
}

// ruler shows the band of tolerance between the readings that are still right,
// with what is asked in its middle and what is typed as a dot.
func (p panel) ruler(over quantity.Mass, typed bool) string {
	t := p.task
	near := t.Tolerance.FloorTo(t.Reads)
	if near <= 0 {
		return p.t.Quiet.Render("asked " + p.askedNumber())
	}
	centre := t.Remaining()
	if t.Do == work.Portion {
		centre = t.StopAt
	}
	half := 7
	if p.w >= panelMost-10 {
		half = 20
	}
	cells := []rune(strings.Repeat("─", half) + "┼" + strings.Repeat("─", half))
	before, after := " ├", "┤ "
	switch at := half + int(math.Round(float64(over)/float64(near)*float64(half))); {
	case !typed:
	case !p.within(over) && over < 0:
		before = p.t.Accent.Render("◀") + "├"
	case !p.within(over):
		after = "┤" + p.t.Accent.Render(ink.SignNow)
	default:
		at = min(max(0, at), len(cells)-1)
		return p.bandEnds(centre.RoundTo(t.Reads)-near, centre.RoundTo(t.Reads)+near, before, string(cells[:at])+p.t.Accent.Render("●")+string(cells[at+1:]), after)
	}
	return p.bandEnds(centre.RoundTo(t.Reads)-near, centre.RoundTo(t.Reads)+near, before, string(cells), after)
}

func (p panel) bandEnds(low, high quantity.Mass, before, cells, after string) string {
	return p.t.Quiet.Render(low.At(p.task.Reads)) + before + cells + after + p.t.Quiet.Render(high.At(p.task.Reads))
}

// warmth says what comes of a temperature, with what was read before or is still to be
// read; how much is too much is for the plan to say.
func (p panel) warmth() string {
	c, err := strconv.ParseFloat(p.b.Typed, 64)
	if err != nil {
		return p.t.Quiet.Render("a number with one point")
	}
	if words := p.together(); words != "" {
		return words
	}
	switch off := c - p.task.Wanted.Celsius(); {
	case off > 0:
		return fmt.Sprintf("%.1f °C above what is wanted", off)
	case off < 0:
		return fmt.Sprintf("%.1f °C below what is wanted", -off)
	}
	return p.t.Good.Render(ink.SignDone + " as wanted")
}

// together says what two liquids that meet give if what is typed is kept, or how warm
// the one must be that was not read yet; "" for half a number, and for one that could not
// be kept.
func (p panel) together() string {
	read, _ := p.then.State().Temperature(p.task.ID)
	if c, err := quantity.ParseTemperature(p.b.Typed + " °C"); err != nil || read.Fact.Temperature != c {
		return ""
	}
	wanted := ""
	for _, b := range p.then.Batters {
		if b.Name == p.stage.Batter {
			wanted = b.MixAt.String()
		}
	}
	stage, _ := p.then.Stage(p.stage.ID)
	typed, _, _ := p.then.Task(p.task.ID)
	for _, t := range stage.Tasks {
		switch {
		case !typed.Done || t.ID == p.task.ID:
		case t.Do == work.Temperature && !t.Done && t.Wanted.String() != wanted:
			return "the other then wants " + t.Wanted.String() + ": together " + wanted
		case t.Do == work.Temperature && !t.Done:
			return "together " + wanted + " is wanted"
		case t.Shows != "":
			return "together they give " + t.Shows + ", wanted " + wanted
		}
	}
	return ""
}
