package bench

import (
	"slices"
	"strings"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/ui/ink"
	"bench/internal/work"
)

// centigram is what a scale for scents reads to.
const centigram = quantity.Gram / 100

// list shows the stage's tasks around the one at hand; portions as bars.
func (p panel) list(room int) []string {
	switch {
	case room < 1 || len(p.stage.Tasks) < 2:
		return nil
	case p.task.Do == work.Confirm && p.task.Open:
		return p.pause(room)
	}
	tasks := p.foreseen().Tasks
	var lines []string
	if s := p.splitLine(); s != "" {
		lines = append(lines, s)
		if tasks[0].Done {
			tasks = tasks[1:] // The line above says what the pot weighed.
		}
	}
	if len(lines)+len(tasks) < room {
		lines = append([]string{""}, lines...)
	}
	at := slices.IndexFunc(tasks, func(t work.Task) bool { return t.ID == p.task.ID })
	longest := p.longestPortion()
	var items []string
	for _, t := range tasks {
		if t.Do == work.Portion {
			items = append(items, p.bar(t, longest))
		} else {
			items = append(items, p.item(t))
		}
	}
	if p.h >= spanFrom {
		if thick := p.thick(tasks, items); len(lines)+len(thick) <= room {
			return append(lines, thick...)
		}
	}
	return append(lines, ink.Scrolled(p.t, items, at, room-len(lines))...)
}

// thick gives bars a second row, to be read from afar, and leaves no title cut.
func (p panel) thick(tasks []work.Task, items []string) []string {
	var lines []string
	for i, t := range tasks {
		switch title := ink.Clean(t.Title); {
		case t.Do == work.Portion:
			upper, lower := p.fill(t, p.longestPortion()), ink.Spaces(barAt)
			if t.Done {
				lower += strings.ReplaceAll(upper, barTop, "█")
			} else {
				lower += outline("└", upper, "┘")
				items[i] = strings.Replace(items[i], upper, outline("┌", upper, "┐"), 1)
			}
			lines = append(lines, items[i], lower)
		case ink.Width(title) > p.w-4 && !t.Numeric():
			for n, l := range ink.Wrap(title, p.w-4) {
				lines = append(lines, p.styled(t, []string{" " + p.sign(t) + " ", "   "}[min(n, 1)], l))
			}
		default:
			lines = append(lines, items[i])
		}
	}
	return lines
}

// sign puts what is on its way, or was not saved, before what is at hand: a tick
// shows only once it is durable.
func (p panel) sign(t work.Task) string {
	switch {
	case p.b.sending == t.ID:
		return ink.SignSaving
	case p.b.Unsaved != nil && batch.Task(p.b.Unsaved.keep.Fact) == t.ID:
		return p.t.Off.Render(ink.SignOff)
	case t.ID == p.task.ID:
		return p.t.Accent.Render(ink.SignNow)
	case t.Skipped != "":
		return ink.SignSkipped
	case t.Warns:
		return p.t.Off.Render(ink.SignOff)
	case t.Done:
		return p.t.Good.Render(ink.SignDone)
	case t.Open:
		return ink.SignOpen
	}
	return ink.SignLater
}

// item is one task of the list: sign, title, what is asked or what it was.
func (p panel) item(t work.Task) string {
	value, note := restNote(t)
	switch {
	case p.b.Unsaved != nil && batch.Task(p.b.Unsaved.keep.Fact) == t.ID:
		note = "not saved"
	case t.Skipped != "":
		note = "left out"
	case t.Done && (t.Do == work.Weigh || t.Do == work.Gross):
		value = t.Mass.At(t.Reads)
		off := t.Mass != t.Target && t.Do == work.Weigh
		switch {
		case t.ByEye && off:
			note = "by eye, of " + t.Target.At(t.Reads)
		case t.ByEye:
			note = "by eye"
		case off:
			note = "asked " + t.Target.At(t.Reads)
		}
	case t.Done && t.Do == work.Temperature:
		if r, ok := p.b.State.Temperature(t.ID); ok {
			note = r.Fact.Temperature.String()
		}
	case p.stage.Kind == work.SetOut && t.Target > 0:
		value = t.Target.Reading(t.Reads)
	case t.Do == work.Weigh:
		value = t.Target.At(t.Reads)
	}
	if value == "" && note == "" {
		return p.styled(t, " "+p.sign(t)+" ", ink.Cut(ink.Clean(t.Title), p.w-4))
	}
	name := ink.Fit(ink.Clean(t.Title), max(12, min(30, p.w-31, p.w-3-1-8-2-ink.Width(note)))) // A value and its note are whole.
	return p.styled(t, " "+p.sign(t)+" ", name+" "+ink.Right(value, 8)) + p.t.Quiet.Render("  "+note)
}

func (p panel) styled(t work.Task, sign, text string) string {
	if t.ID == p.task.ID {
		return sign + p.t.Strong.Render(text)
	}
	if t.Done {
		return sign + p.t.Quiet.Render(text)
	}
	return sign + text
}
