package bench

import (
	"slices"
	"strings"

	"bench/internal/front"
	"bench/internal/timer"
	"bench/internal/ui/ink"
	"bench/internal/work"
)

// What a window with room is for: the figures grow with it, because who has a
// large window sits as far from it and reads smaller letters; below them stand
// the tasks, what comes then, and the loaf.
const (
	spanFrom   = 30 // spanFrom is the height from which the figures go over all columns.
	loafMost   = 84
	leadLeast  = 104 // leadLeast is what the largest figures of a height need beside the loaf.
	taskLeast  = 50  // taskLeast is the width that a list of tasks needs.
	lowerLeast = 8   // lowerLeast is the height that the tasks below need.
	roomBelow  = 18  // roomBelow is the height that lets them stand off.
	asideLeast = 44  // asideLeast is the width that what comes then needs.
)

// columns are the bench between its rules: the rail of stages, and the work.
func (b Screen) columns(t ink.Theme, w, room int, others []front.UnderWay, now timer.Moment) []string {
	rail := railNarrow
	if w >= ink.WideAt {
		rail = railWide
	}
	p := b.panel(t, w-rail-1, room, others, now)
	p.then = b.supposing(p.task, p.stage, now)
	middle := p.narrow
	if w >= ink.WideAt {
		middle = p.wide
	}
	return ink.Beside(t.Line, b.railWith(t, rail, room, p.stage, others, now), middle())
}

// narrow is the work in one column.
func (p panel) narrow() []string {
	w := p.w
	p.w = min(w, panelMost)
	return ink.Block(p.lines(), w, p.h)
}

// wide is the work with the loaf. Where hands are at the loaf it has all the
// height; while something is weighed the figures go over it.
func (p panel) wide() []string {
	room := p.h
	loaf := 0
	if p.b.hasFace() {
		loaf = max(loafWidth, p.w*3/10)
	}
	if p.spans() {
		return p.layered(p.w, room, loaf)
	}
	if loaf > 0 && atLoaf(p.stage.Kind) {
		loaf = max(loafWidth, min(loafMost, p.w-leadLeast))
	}
	left := p.w - loaf - min(1, loaf)
	middle := p.layered(left, room, 0)
	if loaf == 0 {
		return middle
	}
	return ink.Beside(p.t.Line, middle, ink.Block(p.b.loaf(p.t, loaf, room, p.stage, p.task), loaf, room))
}

// plain says that the panel is one text, with no figures over a list.
func (p panel) plain() bool { return !p.any || p.b.Unsaved != nil || p.b.reopened }

// spans says that the figures go over all columns.
func (p panel) spans() bool {
	return !p.plain() && !atLoaf(p.stage.Kind) && !rests(p.stage.Kind) && p.task.Do != work.Confirm && p.h >= spanFrom
}

// atLoaf says that a stage is worked with the eyes on the loaf.
func atLoaf(k work.Kind) bool {
	switch k {
	case work.Pour, work.ScentAndPour, work.HoldEmbeds, work.Embeds, work.StandEmbeds, work.HoldLayer,
		work.MicaLine, work.Texture, work.Cover, work.CleanUp:
		return true
	default:
		return false
	}
}

// layered puts the order and its figures above, and below them side by side the
// tasks with what comes then, what was said, and the loaf.
func (p panel) layered(w, room, loaf int) []string {
	p.w = w
	top := p.top(room)
	h := room - len(top) - 1
	if h < lowerLeast {
		return p.narrow()
	}
	tasks := w - loaf - min(1, loaf)
	aside := 0
	if tasks >= taskLeast+asideLeast+1 {
		aside = max(asideLeast, (tasks-1)/2)
		tasks -= aside + 1
	}
	columns := [][]string{p.below(tasks, h, aside == 0)}
	at := []int{tasks}
	if aside > 0 {
		columns = append(columns, ink.Block(p.saidBefore(aside, h), aside, h))
		at = append(at, tasks+1+aside)
	}
	if loaf > 0 {
		columns = append(columns, ink.Block(p.b.loaf(p.t, loaf, h, p.stage, p.task), loaf, h))
	}
	rule := p.t.Line.Render(ink.RuleWith(w, '┬', at[:len(columns)-1]...))
	return slices.Concat(ink.Block(top, w, len(top)), []string{rule}, ink.Beside(p.t.Line, columns...))
}

// top is what stands above the tasks.
func (p panel) top(room int) []string {
	top := p.lines
	if !p.plain() {
		top = func() []string { return slices.Concat(p.head(room/4), p.body()) }
	}
	lines := top()
	for len(lines) > 0 && strings.TrimSpace(lines[len(lines)-1]) == "" {
		lines = lines[:len(lines)-1]
	}
	if room-len(lines) > roomBelow {
		lines = append(lines, "")
	}
	return lines
}

// below is the list of tasks, then what comes then, then what was said where that has
// no column of its own, and the band at the foot.
func (p panel) below(w, h int, said bool) []string {
	p.w = w
	var lines, band []string
	if !p.plain() {
		if rests(p.stage.Kind) {
			p.h = h + 8
		}
		band = p.band()
		lines = p.list(h - len(band) - 1)
	}
	if rests(p.stage.Kind) && len(band) > 0 { // What keeps bars from leaving stands high.
		lines, band = slices.Concat(lines, []string{""}, band), nil
	}
	room := h - len(band)
	if len(lines) > 0 && lines[0] != "" {
		lines = append([]string{""}, lines...)
	}
	if len(lines) < room {
		lines = append(lines, "")
	}
	lines = append(lines, p.whatThen(w, room-len(lines))...)
	if said {
		lines = append(lines, p.saidBefore(w, room-len(lines))...)
	}
	return append(ink.Block(lines, w, room), ink.Block(band, w, len(band))...)
}
