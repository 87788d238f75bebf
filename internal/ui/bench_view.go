package ui

import (
	"fmt"
	"slices"

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
		columns = append(columns, block(b.loaf(t, loaf, room, stage, task), loaf, room))
	}
	return slices.Concat(head, beside(t.line, columns...), foot)
}

func (b bench) headLine(t Theme, w int, stage steps.Stage) string {
	left := t.title.Render(clean(b.plan.Recipe)) + t.quiet.Render("   "+count(b.plan.Loaves, "loaf", "loaves")+"   batch "+clean(b.code))
	place := "waiting"
	switch {
	case b.plan.Closed:
		place = "closed"
	case b.plan.Finished():
		place = "all done"
	}
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
// finds where one was. A word, when there is one, takes the place of the older;
// a long one that of both, and as many lines more as it needs.
func (b bench) lastLines(t Theme, w int, now timer.Moment) []string {
	lines := []string{"", ""}
	if b.reopened {
		return lines // The panel says them, and larger.
	}
	entries := b.state.Entries
	for i := range lines {
		if at := len(entries) - len(lines) + i; at >= 0 {
			lines[i] = " " + t.quiet.Render(cut(signDone+" "+b.said(entries[at], now), w-2))
		}
	}
	said := b.quietLines(t, w)
	if len(said) == 0 {
		said = b.waysLine(t, w)
	}
	if b.word != "" {
		said = warning(t, b.word, w)
	}
	switch len(said) {
	case 0:
		return lines
	case 1:
		return []string{lines[1], said[0]}
	}
	return said
}

func (b bench) said(e batch.Entry, now timer.Moment) string {
	return stamp(e.At, now, b.at) + "  " + clean(b.plan.Say(e, b.state))
}

// quietLines say that a fact is on its way, or what the stage that has just
// ended reads back.
func (b bench) quietLines(t Theme, w int) []string {
	if b.sending != "" {
		return []string{" " + t.quiet.Render(signSaving+" saving")}
	}
	if n := len(b.state.Entries); n > 0 {
		_, stage, ok := b.plan.Task(batch.Task(b.state.Entries[n-1].Fact))
		if ok && stage.Done && stage.ReadBack != "" {
			var lines []string
			for _, l := range wrap(signDone+signDone+" "+clean(stage.Title)+": "+clean(stage.ReadBack), w-4) {
				lines = append(lines, " "+t.good.Render(l))
			}
			return lines
		}
	}
	return nil
}

// rail lists the stages: done, at hand, open meanwhile, or still to come.
func (b bench) rail(t Theme, w, h int, at steps.Stage) []string {
	stages := b.plan.Stages
	now := slices.IndexFunc(stages, func(s steps.Stage) bool { return s.ID == at.ID })
	if now < 0 {
		now = max(0, slices.IndexFunc(stages, func(s steps.Stage) bool { return !s.Done }))
	}
	from, to := window(len(stages), now, h)
	lines := make([]string, 0, to-from)
	for _, s := range stages[from:to] {
		lines = append(lines, b.railLine(t, w, s, s.ID == at.ID))
	}
	if from > 0 && now > from {
		lines[0] = t.quiet.Render(fmt.Sprintf(" ↑ %d more", from+1))
	}
	if left := len(stages) - to; left > 0 && now < to-1 {
		lines[len(lines)-1] = t.quiet.Render(fmt.Sprintf(" ↓ %d more", left+1))
	}
	return lines
}

// railLine shows a stage by its sign first: the rail is read without colour.
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
