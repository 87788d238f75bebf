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
	railNarrow  = 19
	railWide    = 26
	wideAt      = 110 // wideAt is the width from which the loaf is shown.
	loafWidth   = 34
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
	foot = append(foot, b.lastFacts(t, w, now)...)
	foot = append(foot, b.wordLine(t, w), helpLine(t, w, b.help(now)...))
	room := rows - len(head) - len(foot)

	rail, loaf := railNarrow, 0
	if w >= wideAt {
		rail, loaf = railWide, loafWidth
	}
	p := panel{t: t, b: b, now: now, task: task, stage: stage, any: ok, h: room, w: w - rail - 1}
	if loaf > 0 {
		p.w -= loaf + 1
	}
	columns := [][]string{block(b.rail(t, rail, room, stage), rail, room), block(p.lines(), p.w, room)}
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
	}
	return " " + between(left, t.quiet.Render(place)+" ", w-1)
}

// lastFacts are the last two, so that a glance after an interruption finds
// where one was.
func (b bench) lastFacts(t Theme, w int, now timer.Moment) []string {
	lines := []string{"", ""}
	entries := b.state.Entries
	for i := range lines {
		at := len(entries) - len(lines) + i
		if at < 0 {
			continue
		}
		lines[i] = " " + t.quiet.Render(cut(signDone+" "+b.said(entries[at], now), w-2))
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
		return " " + t.quiet.Render("saving…")
	}
	if n := len(b.state.Entries); n > 0 {
		_, stage, ok := b.plan.Task(batch.Task(b.state.Entries[n-1].Fact))
		if ok && stage.Done && stage.ReadBack != "" {
			return " " + t.good.Render(cut(signDone+" "+clean(stage.Title)+": "+clean(stage.ReadBack), w-2))
		}
	}
	return ""
}

// rail lists the stages: done, at hand, open meanwhile, or still to come.
func (b bench) rail(t Theme, w, h int, at steps.Stage) []string {
	lines := make([]string, len(b.plan.Stages))
	now := 0
	for i, s := range b.plan.Stages {
		if s.ID == at.ID {
			now = i
		}
		lines[i] = b.railLine(t, w, s, s.ID == at.ID)
	}
	from, to := window(len(lines), now, h)
	lines = lines[from:to]
	if from > 0 && now > from {
		lines[0] = t.quiet.Render(fmt.Sprintf(" %s %d before", signLater, from+1))
	}
	if left := len(b.plan.Stages) - to; left > 0 && now < to-1 {
		lines[len(lines)-1] = t.quiet.Render(fmt.Sprintf(" %s %d more", signLater, left+1))
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

// head says what, on which scale, into what, and one line of how.
func (p panel) head() []string {
	where := p.where()
	lines := []string{" " + between(p.t.accent.Render(cut(clean(p.task.Title), p.w-3-width(where))), where+" ", p.w-1)}
	hint := p.task.Hint
	switch {
	case p.task.Done && p.task.Skipped != "":
		hint = "left out: " + p.task.Skipped
	case p.task.Done:
		hint = "done at " + stamp(p.task.At, p.now, p.b.at)
	case !p.task.Open:
		hint = p.task.Waits
	case hint == "":
		hint = p.stage.Why
	}
	hints := wrap(clean(hint), p.w-2)
	for i, l := range hints {
		if i == 1 && len(hints) > 2 {
			l = cut(l, p.w-3) + "…"
		}
		if i == 2 {
			break
		}
		if !p.task.Open && !p.task.Done {
			l = p.t.off.Render(signOff+" ") + l
		}
		lines = append(lines, " "+p.t.quiet.Render(l))
	}
	if p.task.Do == steps.Tick || p.task.Do == steps.Look || p.h >= roomyHeight-8 {
		lines = append(lines, "")
	}
	return lines
}

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

// band is the superfat of the batter at hand as a rule with its value.
func (p panel) band() []string {
	for _, b := range p.b.plan.Batters {
		if b.Name != p.stage.Batter {
			continue
		}
		f := b.Superfat
		if f.High <= f.Low {
			return nil
		}
		const cells = 17
		at := int((f.Percent - f.Low) / (f.High - f.Low) * (cells - 1))
		at = min(max(0, at), cells-1)
		rule := "├" + strings.Repeat("─", at) + "●" + strings.Repeat("─", cells-1-at) + "┤"
		return []string{" " + p.t.quiet.Render("superfat ") + fmt.Sprintf("%4.1f ", f.Low) + rule + fmt.Sprintf(" %.1f %%", f.High) +
			p.t.quiet.Render(fmt.Sprintf("   now %.1f, asked %s", f.Percent, b.Asked))}
	}
	return nil
}
