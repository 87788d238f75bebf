package bench

import (
	"cmp"

	"bench/internal/reply"
	"bench/internal/ui/ink"
	"bench/internal/work"
)

// figures is what is shown large: the number, its unit, and a word that says
// what the number is.
type figures struct{ number, unit, word string }

// body shows the number to reach in large figures, or the order in large
// letters where there is no number.
func (p panel) body() []string {
	f := p.large()
	if f.number == "" {
		return p.lead()
	}
	asked, _ := reply.Asked(p.task, p.stage)
	scale := 1
	if p.h >= 36 && ink.BigWidth(asked, 2)+24 <= p.w && ink.BigWidth(f.number, 2)+12 <= p.w {
		scale = 2
	}
	// The unit stays where it is while a number is typed.
	reserve := max(ink.BigWidth(f.number, scale), ink.BigWidth(asked, scale))
	lines := append([]string{""}, p.figures(f, scale, reserve)...)
	if p.roomy() {
		lines = append(lines, "")
	}
	lines = append(lines, p.verdictLines()...)
	if p.roomy() {
		lines = append(lines, "")
	}
	return append(lines, p.scaleLines()...)
}

// figures sets the number with its unit beside it, and at the right a large sign
// that says whether what is typed is right.
func (p panel) figures(f figures, scale, reserve int) []string {
	style, sign := p.t.Strong, []string(nil)
	if p.b.Typed != "" {
		style = p.t.Accent
		if mark, inked := p.mark(); mark != 0 {
			style, sign = inked, ink.Big(string(mark), scale)
		}
	}
	var lines []string
	for i, row := range ink.Big(f.number, scale) {
		side := ""
		switch i {
		case 5*scale - 1:
			side = p.t.Strong.Render(f.unit)
		case 5*scale - 3:
			side = p.t.Quiet.Render(f.word)
		}
		line := "  " + style.Render(ink.Fit(row, reserve)) + "  " + side
		if sign != nil && ink.Width(line)+ink.Width(sign[i])+2 <= p.w {
			line = ink.Between(line, style.Render(sign[i])+" ", p.w-1)
		}
		lines = append(lines, line)
	}
	return lines
}

// lead says what to do in large letters, for a task without a number that is
// not done yet.
func (p panel) lead() []string {
	if p.task.Done || p.task.Skipped != "" {
		return nil
	}
	for _, scale := range []int{2, 1} {
		text := ink.Lead(ink.Clean(cmp.Or(p.task.Signal, p.task.Title)), p.w-3, scale)
		if text == "" || scale == 2 && p.h < 36 {
			continue
		}
		style := p.t.Strong
		if !p.task.Open {
			style = p.t.Quiet
		}
		lines := []string{""}
		for _, row := range ink.Letters(text, scale) {
			lines = append(lines, "  "+style.Render(row))
		}
		return append(lines, "")
	}
	return nil
}

// large gives what the large figures show. The weight of a vessel that must be
// weighed is not given away: it is asked for to tell one vessel from another.
func (p panel) large() figures {
	number, unit := reply.Asked(p.task, p.stage)
	t := p.task
	switch {
	case number == "":
		return figures{}
	case p.b.Typed != "":
		return figures{p.b.Typed, unit, "typed"}
	case t.Done && rests(p.stage.Kind):
		return figures{}
	case t.Done && t.ByEye:
		return figures{t.Mass.At(t.Reads), unit, "by eye"}
	case t.Done && t.Do != work.Temperature && t.Numeric():
		return figures{t.Mass.At(t.Reads), unit, "done"}
	case t.Do == work.Portion:
		return figures{number, unit, "stop at"}
	case t.Do == work.Gross:
		return figures{ink.Dashes(number), unit, "type it"}
	case t.Do == work.Temperature:
		return figures{number, unit, "wanted"}
	}
	if f, ok := restLarge(t, number, unit); ok {
		return f
	}
	return figures{number, unit, ""}
}

// askedNumber gives the number to reach without its unit.
func (p panel) askedNumber() string {
	number, _ := reply.Asked(p.task, p.stage)
	return number
}

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
	sum := "vessel " + t.Tare.At(t.Reads)
	if t.SoFar > 0 {
		sum += " + so far " + t.SoFar.At(t.Reads)
	}
	return []string{tared, p.reading("not tared", t.Untared().At(t.Reads), sum+" + this")}
}

func (p panel) reading(what, number, how string) string {
	return " " + p.t.Quiet.Render(ink.Fit(what, 10)) + p.t.Strong.Render(ink.Right(number, 7)) + p.t.Quiet.Render("  "+how)
}
