package bench

import (
	"fmt"
	"slices"
	"strings"

	"bench/internal/batch"
	"bench/internal/front"
	"bench/internal/judge"
	"bench/internal/phrase"
	"bench/internal/quantity"
	"bench/internal/say"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/ui/ink"
	"bench/internal/ui/keys"
	"bench/internal/work"
)

// The layout of the bench: the rail of stages at the left, the one thing that
// is next in the middle, and the loaf at the right when there is room.
const (
	railNarrow = 23
	railWide   = 27
	loafWidth  = 34
	panelMost  = 96 // panelMost keeps lines short enough to read at a glance.
)

// View is the bench in rows lines of w cells, the alarms below it.
func (b Screen) View(t ink.Theme, w, rows int, alarms []string, others []front.UnderWay, now timer.Moment) []string {
	_, stage, _ := b.Current(now)
	head := []string{b.headLine(t, w, stage), t.Line.Render(ink.Rule(w))}
	foot := append([]string{t.Line.Render(ink.Rule(w))}, alarms...)
	foot = append(foot, b.lastLines(t, w, now)...)
	foot = append(foot, keys.HelpLine(t, w, b.help(now)...))
	return slices.Concat(head, b.columns(t, w, rows-len(head)-len(foot), others, now), foot)
}

func (b Screen) headLine(t ink.Theme, w int, stage work.Stage) string {
	left := t.Title.Render(ink.Clean(b.Plan.Recipe)) + t.Quiet.Render("   "+quantity.Count(b.Plan.Loaves, "loaf", "loaves")+"   batch "+ink.Clean(b.Code))
	place := "waiting"
	_, stopped := b.Plan.State().Stopped()
	switch {
	case stopped:
		place = "ended"
	case b.Plan.Closed:
		place = "closed"
	case b.Plan.Finished():
		place = "all done"
	}
	if stage.N > 0 {
		place = fmt.Sprintf("stage %d of %d", stage.N, len(b.Plan.Stages))
		if stage.Meanwhile && !stage.Done && b.waiting(stage) {
			place = "meanwhile   " + place
		}
	}
	if b.Along.On {
		place = "reading along   " + place
	}
	return " " + ink.Between(left, t.Quiet.Render(place)+" ", w-1)
}

// supposing gives the plan as it will be if the number that is being typed at a
// split or a gate is kept; anywhere else, and for half a number, the plan as it is.
func (b Screen) supposing(t work.Task, stage work.Stage, now timer.Moment) steps.Plan {
	if b.Typed == "" || stage.Kind != work.Split && stage.Kind != work.SplitLayers && stage.Kind != work.Gate {
		return b.Plan
	}
	then, _ := judge.Supposing(b.Plan, t.ID, judge.Answer{How: batch.Typed, Text: b.Typed}, now)
	return then
}

// waiting says that something sets while this stage can be worked on.
func (b Screen) waiting(stage work.Stage) bool {
	for _, s := range b.Plan.Stages[:stage.N-1] {
		if !s.Done && s.Blocked == "" && (s.Kind == work.HoldEmbeds || s.Kind == work.HoldLayer) {
			return true
		}
	}
	return false
}

// lastLines are the spoken lines, and below them what may not be forgotten.
func (b Screen) lastLines(t ink.Theme, w int, now timer.Moment) []string {
	lines := b.spoken(t, w, now)
	words := b.Plan.Unguarded()
	if words == "" {
		return lines
	}
	if b.Word == "" && len(lines) == 2 {
		lines = lines[1:]
	}
	return append(lines, ink.Warning(t, ink.Clean(words)+" ("+keys.Correct.Help().Key+").", w)...)
}

// spoken are the last two facts, so that a glance after an interruption
// finds where one was. A word, when there is one, takes the place of the older;
// a long one that of both, and as many lines more as it needs.
func (b Screen) spoken(t ink.Theme, w int, now timer.Moment) []string {
	lines := []string{"", ""}
	if b.reopened && b.Word == "" {
		return lines // The panel says them, and larger.
	}
	entries := b.State.Entries
	for i := range lines {
		if at := len(entries) - len(lines) + i; at >= 0 {
			lines[i] = " " + t.Quiet.Render(ink.Cut(signOf(entries[at].Fact)+" "+b.said(entries[at], now), w-2))
		}
	}
	said := b.quietLines(t, w)
	if len(said) == 0 {
		said = b.waysLine(t, w)
	}
	if b.Word != "" {
		said = ink.Warning(t, b.Word, w)
	}
	if b.Along.On {
		if b.Word == "" {
			said = lines[1:]
		}
		return append(said, ink.Warning(t, b.Along.Words(), w)...)
	}
	switch len(said) {
	case 0:
		return lines
	case 1:
		return []string{lines[1], said[0]}
	}
	return said
}

func (b Screen) said(e batch.Entry, now timer.Moment) string {
	return phrase.Stamp(e.At, now, b.at) + "  " + ink.Clean(say.Fact(e, b.Plan, b.State))
}

// quietLines say that a fact is on its way, or what the stage that has just
// ended reads back.
func (b Screen) quietLines(t ink.Theme, w int) []string {
	if b.sending != "" {
		return []string{" " + t.Quiet.Render(ink.SignSaving+" saving")}
	}
	if n := len(b.State.Entries); n > 0 {
		_, stage, ok := b.Plan.Task(batch.Task(b.State.Entries[n-1].Fact))
		if ok && stage.Done && stage.ReadBack != "" {
			var lines []string
			for _, l := range ink.Wrap(ink.SignDone+ink.SignDone+" "+ink.Clean(stage.Title)+": "+ink.Clean(stage.ReadBack), w-4) {
				lines = append(lines, " "+t.Good.Render(l))
			}
			return lines
		}
	}
	return nil
}

// rail lists the stages: done, at hand, open meanwhile, or still to come.
func (b Screen) rail(t ink.Theme, w, h int, at work.Stage) []string {
	key := b.areaKey(t, w, h)
	key.stage = at.ID
	return b.kept.lines(theRail, key, func() []string { return b.stages(t, w, h, at) })
}

func (b Screen) stages(t ink.Theme, w, h int, at work.Stage) []string {
	stages := b.Plan.Stages
	now := slices.IndexFunc(stages, func(s work.Stage) bool { return s.ID == at.ID })
	if now < 0 {
		now = max(0, slices.IndexFunc(stages, func(s work.Stage) bool { return !s.Done }))
	}
	lines := make([]string, 0, len(stages))
	for _, s := range stages {
		lines = append(lines, b.railLine(t, w, s, s.ID == at.ID))
	}
	return ink.Scrolled(t, lines, now, h)
}

// railWith puts below the stages what the other batches are at: tab goes there.
func (b Screen) railWith(t ink.Theme, w, h int, at work.Stage, others []front.UnderWay, now timer.Moment) []string {
	var below []string
	for i, o := range others {
		if i == 1 && len(others) > 2 {
			below = append(below, t.Quiet.Render(fmt.Sprintf("     and %d more", len(others)-1)))
			break
		}
		what := "nothing to do now"
		if next, ok := o.Plan.Next(now); ok {
			_, stage, _ := o.Plan.Task(next)
			what = stage.Title
		}
		below = append(below, " "+t.Key.Render("tab")+" "+ink.Cut(ink.Clean(o.Code)+" "+ink.Clean(o.Plan.Recipe), w-5), "     "+t.Quiet.Render(ink.Cut(ink.Clean(what), w-6)))
	}
	if len(below) > 0 {
		below = append([]string{t.Line.Render(ink.Rule(w))}, below...)
	}
	return append(ink.Block(b.rail(t, w, h-len(below), at), w, h-len(below)), ink.Block(below, w, len(below))...)
}

// railLine shows a stage by its sign first: the rail is read without colour.
func (b Screen) railLine(t ink.Theme, w int, s work.Stage, here bool) string {
	done, n, part := 0, 0, ""
	for _, task := range s.Tasks {
		if task.Do == work.WeighIn { // It comes again and again, and is never done.
			continue
		}
		if n++; task.Done {
			done++
		}
	}
	if !s.Done && (here || done > 0) && n > 1 {
		part = fmt.Sprintf(" %d/%d", done, n)
	}
	name := ink.Fit(ink.Clean(s.Title), w-4-len(part)) + part
	switch {
	case here:
		return " " + t.Accent.Render(ink.SignNow+" "+name)
	case s.Done:
		return " " + t.Good.Render(ink.SignDone) + " " + t.Quiet.Render(name)
	case s.Waits() == "":
		return " " + t.Accent.Render(ink.SignOpen) + " " + name
	}
	return " " + t.Quiet.Render(ink.SignLater+" "+name)
}

// waysLine says quietly that something waits for a decision.
func (b Screen) waysLine(t ink.Theme, w int) []string {
	n := b.Plan.Undecided()
	if n == 0 || b.Plan.Closed {
		return nil
	}
	words := ""
	if len(b.Plan.Unread) > 0 {
		words = b.Plan.Unread[0].Brief
	} else {
		words, _, _ = strings.Cut(b.Plan.Deviations[0].Words, ". ")
	}
	tail := "   d: how to go on"
	if n > 1 {
		tail = fmt.Sprintf(" (+%d)", n-1) + tail
	}
	room := w - 4 - ink.Width(tail)
	return []string{" " + t.Off.Render(ink.SignOff+" "+ink.Cut(ink.Clean(words), room)) + t.Quiet.Render(tail)}
}
