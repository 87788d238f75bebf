package bench

import (
	"strconv"

	"bench/internal/reply"
	"bench/internal/ui/ink"
	"bench/internal/work"
)

// scaleLines says what the scale must read, tared and not.
func (p panel) scaleLines() []string {
	t := p.task
	switch {
	case t.Done:
		return nil
	case t.Do == work.Portion:
		return []string{
			p.reading("reads now", t.SoFar.At(t.Reads), "pot and all"),
			p.reading("portion", t.Target.At(t.Reads), "goes out"),
		}
	case t.Do == work.Gross:
		lines := []string{" " + p.t.Strong.Render("type the whole weight, vessel included")}
		if t.TareKnown {
			lines = append(lines, p.reading("of that", t.Tare.At(t.Reads), "is the vessel alone"))
		}
		return lines
	case t.Do != work.Weigh:
		return nil
	}
	if t.FromCup {
		return p.outOfCup()
	}
	tared := p.reading("tared", t.Remaining().At(t.Reads), reply.Parts(t))
	if !t.TareKnown {
		return []string{tared, " " + p.t.Quiet.Render("not tared  no weight is known of "+ink.Clean(t.Vessel)+": tare it")}
	}
	sum := "vessel " + t.Tare.At(t.Reads)
	if t.SoFar > 0 {
		sum += " + so far " + t.SoFar.At(t.Reads)
	}
	return []string{tared, p.reading("not tared", t.Untared().At(t.Reads), sum+" + this")}
}

// outOfCup says how a scale tells what goes in out of a cup that is full: by what it is
// lighter by. Of what is wetted, no scale does.
func (p panel) outOfCup() []string {
	t := p.task
	if t.Wetted {
		return []string{p.reading("go by eye", strconv.Itoa(t.Part())+" %", "of the cup: it holds oil, too")}
	}
	out := p.reading("tared full", "-"+t.Remaining().At(t.Reads), "goes out")
	switch {
	case !t.TareKnown:
		return []string{out}
	case t.Stays() > 0:
		return []string{out, p.reading("not tared", t.Untared().At(t.Reads), "vessel "+t.Tare.At(t.Reads)+" + what stays")}
	}
	return []string{p.reading("tared", t.Remaining().At(t.Reads), reply.Parts(t)), p.reading("not tared", t.Untared().At(t.Reads), "vessel "+t.Tare.At(t.Reads)+" + this")}
}

func (p panel) reading(what, number, how string) string {
	return " " + p.t.Quiet.Render(ink.Fit(what, 10)) + p.t.Strong.Render(ink.Right(number, 7)) + p.t.Quiet.Render("  "+how)
}
