package ui

import (
	"fmt"
	"slices"
	"strings"

	"bench/internal/batch"
	"bench/internal/steps"
	"bench/internal/timer"
)

// The layout of the bench: the rail of stages at the left, the one thing that
// is next in the middle, and the loaf at the right when there is room.
const (
	railNarrow  = 23
	railWide    = 27
	wideAt      = 110 // wideAt is the width from which the loaf is shown.
	loafWidth   = 34
	panelMost   = 96 // panelMost keeps lines short enough to read at a glance.
	roomyHeight = 32 // roomyHeight is the height from which lines may breathe.
)

// panel is the middle of the bench screen: what it shows, and with what room.
type panel struct {
	t     Theme
	b     bench
	w, h  int
	now   timer.Moment
	task  steps.Task
	stage steps.Stage
	any   bool // any says that there is a task to show.
}

func (b bench) view(t Theme, w, rows int, alarms []string, now timer.Moment) []string {
	task, stage, ok := b.current(now)
	head := []string{b.headLine(t, w, stage), t.line.Render(rule(w))}
	foot := append([]string{t.line.Render(rule(w))}, alarms...)
	foot = append(foot, b.lastLines(t, w, now)...)
	foot = append(foot, helpLine(t, w, b.help(now)...))
	room := rows - len(head) - len(foot)

	rail, loaf := railNarrow, 0
	if w >= wideAt {
		rail, loaf = railWide, max(loafWidth, w/4)
	}
	middle := w - rail - 1
	if loaf > 0 {
		middle -= loaf + 1
	}
	p := panel{t: t, b: b, now: now, task: task, stage: stage, any: ok, h: room, w: min(middle, panelMost)}
	columns := [][]string{block(b.rail(t, rail, room, stage), rail, room), block(p.lines(), middle, room)}
	if loaf > 0 {
		columns = append(columns, block(b.loaf(t, loaf, room, stage), loaf, room))
	}
	return slices.Concat(head, beside(t.line, columns...), foot)
}

func (b bench) headLine(t Theme, w int, stage steps.Stage) string {
	left := t.title.Render(clean(b.plan.Recipe)) + t.quiet.Render("   "+count(b.plan.Loaves, "loaf", "loaves")+"   batch "+clean(b.code))
	place := "all done"
	if stage.N > 0 {
		place = fmt.Sprintf("stage %d of %d", stage.N, len(b.plan.Stages))
		if stage.Meanwhile && !stage.Done && b.waiting(stage) {
			place = "meanwhile   " + place
		}
	}
	return " " + between(left, t.quiet.Render(place)+" ", w-1)
}

// waiting says that something sets while this stage can be worked on.
func (b bench) waiting(stage steps.Stage) bool {
	for _, s := range b.plan.Stages[:stage.N-1] {
		if !s.Done && s.Blocked == "" && (s.Kind == steps.HoldEmbeds || s.Kind == steps.HoldLayer) {
			return true
		}
	}
	return false
}

// lastLines are the last two facts, so that a glance after an interruption
// finds where one was. A word, when there is one, takes the place of the older.
func (b bench) lastLines(t Theme, w int, now timer.Moment) []string {
	lines := []string{"", ""}
	entries := b.state.Entries
	for i := range lines {
		if at := len(entries) - len(lines) + i; at >= 0 {
			lines[i] = " " + t.quiet.Render(cut(signDone+" "+b.said(entries[at], now), w-2))
		}
	}
	if word := b.wordLine(t, w); word != "" {
		return []string{lines[1], word}
	}
	return lines
}

func (b bench) said(e batch.Entry, now timer.Moment) string {
	return stamp(e.At, now, b.at) + "  " + clean(b.plan.Say(e, b.state))
}

// wordLine is one quiet word, or what the stage that has just ended reads back.
func (b bench) wordLine(t Theme, w int) string {
	switch {
	case b.word != "":
		return " " + t.off.Render(cut(signOff+" "+b.word, w-2))
	case b.sending != "":
		return " " + t.quiet.Render(signSaving+" saving")
	}
	if n := len(b.state.Entries); n > 0 {
		_, stage, ok := b.plan.Task(batch.Task(b.state.Entries[n-1].Fact))
		if ok && stage.Done && stage.ReadBack != "" {
			return " " + t.good.Render(cut(signDone+signDone+" "+clean(stage.Title)+": "+clean(stage.ReadBack), w-2))
		}
	}
	return ""
}

// rail lists the stages: done, at hand, open meanwhile, or still to come.
func (b bench) rail(t Theme, w, h int, at steps.Stage) []string {
	lines := make([]string, len(b.plan.Stages))
	now := max(0, slices.IndexFunc(b.plan.Stages, func(s steps.Stage) bool { return !s.Done }))
	for i, s := range b.plan.Stages {
		if s.ID == at.ID {
			now = i
		}
		lines[i] = b.railLine(t, w, s, s.ID == at.ID)
	}
	from, to := window(len(lines), now, h)
	lines = lines[from:to]
	if from > 0 && now > from {
		lines[0] = t.quiet.Render(fmt.Sprintf(" ↑ %d more", from+1))
	}
	if left := len(b.plan.Stages) - to; left > 0 && now < to-1 {
		lines[len(lines)-1] = t.quiet.Render(fmt.Sprintf(" ↓ %d more", left+1))
	}
	return lines
}

func (b bench) railLine(t Theme, w int, s steps.Stage, here bool) string {
	done, part := 0, ""
	for _, task := range s.Tasks {
		if task.Done {
			done++
		}
	}
	if n := len(s.Tasks); !s.Done && (here || done > 0) && n > 1 {
		part = fmt.Sprintf(" %d/%d", done, n)
	}
	name := fit(clean(s.Title), w-4-len(part)) + part
	switch {
	case here:
		return " " + t.accent.Render(signNow+" "+name)
	case s.Done:
		return " " + t.good.Render(signDone) + " " + t.quiet.Render(name)
	case s.Blocked == "":
		return " " + t.accent.Render(signOpen) + " " + name
	}
	return " " + t.quiet.Render(signLater+" "+name)
}

// lines fills the panel.
func (p panel) lines() []string {
	switch {
	case p.b.unsaved != nil:
		return p.notSaved()
	case p.b.reopened:
		return p.whereYouWere()
	case !p.any:
		return p.nothing()
	}
	top := p.head()
	top = append(top, p.body()...)
	band := p.band()
	room := p.h - len(top) - len(band)
	return slices.Concat(top, block(p.list(room), p.w, max(0, room)), band)
}

// head says what, on which scale, into what, and how or why.
func (p panel) head() []string {
	var lines []string
	title, where := clean(p.task.Title), p.where()
	if width(title)+width(where)+4 <= p.w {
		lines = append(lines, " "+between(p.t.accent.Render(title), where+" ", p.w-1))
	} else {
		for _, l := range wrap(title, p.w-2) {
			lines = append(lines, " "+p.t.accent.Render(l))
		}
		if where != "" {
			lines = append(lines, " "+where)
		}
	}
	lines = append(lines, p.hints()...)
	if p.roomy() || p.large().number == "" {
		lines = append(lines, "")
	}
	return lines
}

// hints are at most two lines of how or why, or of what it waits for.
func (p panel) hints() []string {
	text, style, sign := p.task.Hint, p.t.quiet, ""
	switch {
	case p.task.Skipped != "":
		text = "left out: " + p.task.Skipped
	case p.task.Done:
		text = "done at " + stamp(p.task.At, p.now, p.b.at)
	case !p.task.Open:
		text, style, sign = p.task.Waits, p.t.off, signOff+" "
	case text == "" && (p.roomy() || p.task.Do != steps.Portion):
		text = p.stage.Why
	}
	lines := wrap(sign+clean(text), p.w-2)
	if len(lines) > 2 && !p.roomy() {
		lines = []string{lines[0], cut(lines[1]+" "+lines[2], p.w-2)}
	}
	for i, l := range lines {
		lines[i] = " " + style.Render(l)
	}
	return lines
}

// roomy says that lines may breathe.
func (p panel) roomy() bool { return p.h >= roomyHeight-8 }

func (p panel) where() string {
	var words []string
	switch {
	case p.task.Do == steps.Portion:
		words = append(words, "out of "+clean(p.task.Vessel)+" into "+clean(p.task.Into))
	case p.task.Vessel != "":
		words = append(words, clean(p.task.Vessel))
	}
	if p.task.Scale != "" {
		words = append(words, clean(p.task.Scale))
	}
	return strings.Join(words, " · ")
}

// band is the superfat of the batter at hand, for as long as weighing can still
// move it.
func (p panel) band() []string {
	switch p.stage.Kind {
	case steps.LyeSolution, steps.Oils, steps.Gate, steps.LyeIntoOils:
	default:
		return nil
	}
	for _, b := range p.b.plan.Batters {
		f := b.Superfat
		if b.Name != p.stage.Batter || f.High <= f.Low {
			continue
		}
		const cells = 15
		at := min(max(0, int((f.Percent-f.Low)/(f.High-f.Low)*(cells-1))), cells-1)
		rule := "├" + strings.Repeat("─", at) + "●" + strings.Repeat("─", cells-1-at) + "┤"
		return []string{" " + p.t.quiet.Render("superfat ") + fmt.Sprintf("%.1f %s %.1f %%", f.Low, p.t.line.Render(rule), f.High) +
			p.t.quiet.Render(fmt.Sprintf("  %.1f, asked %s", f.Percent, b.Asked))}
	}
	return nil
}
