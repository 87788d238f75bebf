package bench

import (
	"fmt"
	"slices"
	"strings"

	"bench/internal/front"
	"bench/internal/phrase"
	"bench/internal/quantity"
	"bench/internal/reply"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/ui/ink"
	"bench/internal/work"
)

// panel is the middle of the bench screen: what it shows, and with what room.
type panel struct {
	t     ink.Theme
	b     Screen
	w, h  int
	now   timer.Moment
	task  work.Task
	stage work.Stage
	any   bool       // any says that there is a task to show.
	then  steps.Plan // then is the plan as it will be, if what is being typed is kept.

	typed  quantity.Mass // typed is what is being typed, as a mass in grams.
	isMass bool          // isMass says that it can be one.

	others []front.UnderWay // others are the batches that tab goes round to.
}

// panel is the work in h lines of w cells, with the other batches under way.
func (b Screen) panel(t ink.Theme, w, h int, others []front.UnderWay, now timer.Moment) panel {
	task, stage, ok := b.Current(now)
	p := panel{t: t, b: b, now: now, others: others, task: task, stage: stage, any: ok, h: h, w: w, then: b.Plan}
	if b.Typed != "" {
		m, err := quantity.ParseNumberMass(b.Typed, quantity.Gram)
		p.typed, p.isMass = m, err == nil
	}
	return p
}

// lines fills the panel.
func (p panel) lines() []string {
	switch {
	case p.b.Unsaved != nil:
		return p.notSaved()
	case p.b.reopened:
		return p.whereYouWere()
	case !p.any:
		return p.nothing()
	}
	body, band := p.body(), p.band()
	top := slices.Concat(p.head(p.h-len(body)-len(band)-min(1, len(p.stage.Tasks)-1)), body)
	room := p.h - len(top) - len(band)
	return slices.Concat(top, ink.Block(p.list(room), p.w, max(0, room)), band)
}

// head says what, on which scale, into what, and how or why, in room lines: a
// caution is whole before the list below gets more than a line.
func (p panel) head(room int) []string {
	var lines []string
	title, where := ink.Clean(p.task.Title), p.where()
	if ink.Width(title)+ink.Width(where)+4 <= p.w {
		lines = append(lines, " "+ink.Between(p.t.Accent.Render(title), where+" ", min(p.w, panelMost)-1))
	} else {
		for _, l := range ink.Wrap(title, p.w-2) {
			lines = append(lines, " "+p.t.Accent.Render(l))
		}
		if where != "" {
			lines = append(lines, " "+where)
		}
	}
	for _, words := range []string{reply.Shared(p.b.Plan, p.task, p.b.beside), reply.InAlready(p.b.Plan, p.task)} {
		if words == "" {
			continue
		}
		for _, l := range ink.Wrap(ink.SignOff+" "+ink.Clean(words), min(p.w, panelMost)-4) {
			lines = append(lines, " "+p.t.Alarm.Render(" "+l+" "))
		}
	}
	lines = append(lines, p.hints(max(2, room-len(lines)))...)
	if len(lines) >= room {
		return lines
	}
	if p.roomy() || p.large().number == "" {
		lines = append(lines, "")
	}
	return lines
}

// hints are at most so many lines of how or why, or of what it waits for.
func (p panel) hints(most int) []string {
	text, style, sign := p.task.Hint, p.t.Quiet, ""
	switch {
	case p.task.Skipped != "":
		text = "left out: " + p.task.Skipped
	case p.task.Done:
		text = p.doneWords()
	case !p.task.Open:
		text, style, sign = p.task.Waits, p.t.Off, ink.SignOff+" "
	case text == "" && (p.roomy() || p.task.Do != work.Portion):
		text = p.stage.Why
	}
	lines := ink.Wrap(sign+ink.Clean(text), min(p.w, panelMost)-2)
	if len(lines) > most {
		lines[most-1] = ink.Cut(lines[most-1]+" "+lines[most], p.w-2)
		lines = lines[:most]
	}
	for i, l := range lines {
		lines[i] = " " + style.Render(l)
	}
	return lines
}

// doneWords says when it was done, what a thermometer said, and that nothing was
// weighed.
func (p panel) doneWords() string {
	words := "done at " + phrase.Stamp(p.task.At, p.now, p.b.at)
	if r, ok := p.b.State.Temperature(p.task.ID); ok {
		words += ": " + r.Fact.Temperature.String()
	}
	if p.task.ByEye {
		words += ", by eye, not weighed"
	}
	return words
}

// roomy says that lines may breathe.
func (p panel) roomy() bool { return p.h >= ink.RoomyHeight-8 }

// where says which vessel stands on which scale.
func (p panel) where() string {
	var words []string
	switch {
	case p.task.Do == work.Portion:
		words = append(words, "out of "+ink.Clean(p.task.Vessel)+" into "+ink.Clean(p.task.Into))
	case p.task.Vessel != "":
		words = append(words, ink.Clean(p.task.Vessel))
	}
	if p.task.Scale != "" {
		words = append(words, ink.Clean(p.task.Scale))
	}
	return strings.Join(words, " · ")
}

// band is the superfat of the batter at hand, for as long as weighing can still
// move it.
func (p panel) band() []string {
	switch {
	case rests(p.stage.Kind):
		return p.rest()
	case p.task.Do == work.Confirm && p.stage.Kind == work.Gate:
		return nil // It is read back, first of all.
	}
	switch p.stage.Kind {
	case work.LyeSolution, work.Oils, work.Gate, work.LyeIntoOils:
	default:
		return nil
	}
	for _, b := range p.b.Plan.Batters {
		f := b.Superfat
		if b.Name != p.stage.Batter || f.High <= f.Low {
			continue
		}
		const cells = 15
		at := min(max(0, int((f.Percent-f.Low)/(f.High-f.Low)*(cells-1))), cells-1)
		rule := "├" + strings.Repeat("─", at) + "●" + strings.Repeat("─", cells-1-at) + "┤"
		return []string{" " + p.t.Quiet.Render("superfat ") + fmt.Sprintf("%.1f %s %.1f %%", f.Low, p.t.Line.Render(rule), f.High) +
			p.t.Quiet.Render(fmt.Sprintf("  %.1f, asked %s", f.Percent, b.Asked))}
	}
	return nil
}
