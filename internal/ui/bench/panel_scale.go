package bench

import (
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
	tared := p.reading("tared", t.Remaining().At(t.Reads), reply.Parts(t))
	if !t.TareKnown {
		return []string{tared, " " + p.t.Quiet.Render("not tared  no weight is known of "+ink.Clean(t.Vessel)+": tare it")}
	}
	if stays := t.Stays(); stays > 0 {
		return []string{
			p.reading("tared full", "-"+t.Remaining().At(t.Reads), "goes out"),
			p.reading("not tared", t.Untared().At(t.Reads), "vessel "+t.Tare.At(t.Reads)+" + what stays"),
		}
	}
	sum := "vessel " + t.Tare.At(t.Reads)
	if t.SoFar > 0 && !t.FromCup {
		sum += " + so far " + t.SoFar.At(t.Reads)
	}
	return []string{tared, p.reading("not tared", t.Untared().At(t.Reads), sum+" + this")}
}

func (p panel) reading(what, number, how string) string {
	return " " + p.t.Quiet.Render(ink.Fit(what, 10)) + p.t.Strong.Render(ink.Right(number, 7)) + p.t.Quiet.Render("  "+how)
}
