package bench

import (
	"slices"
	"strings"
	"time"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/ui/ink"
	"bench/internal/work"
)

const (
	stagesMost = 4 // stagesMost is how many stages to come are named.
	notesMost  = 5
)

// saidBefore lists the notes and the last entries in at most room lines.
func (p panel) saidBefore(w, room int) []string {
	key := p.b.areaKey(p.t, w, room)
	key.day = p.now.Wall.In(p.b.at).Format(time.DateOnly)
	return p.b.kept.lines(whatWasSaid, key, func() []string { return p.notesAndSaid(w, room) })
}

func (p panel) notesAndSaid(w, room int) []string {
	var notes, said []string
	for _, e := range slices.Backward(batch.Standing(p.b.State.Entries)) {
		if _, ok := e.Fact.(batch.Noted); ok && len(notes) < notesMost {
			notes = append(notes, p.saidIn(e, w)...)
		} else if !ok && len(said) < room {
			for _, l := range p.saidIn(e, w) {
				said = append(said, p.t.Quiet.Render(l))
			}
		}
	}
	return p.titled(room, []string{""}, list{"Notes", notes}, list{"Said before", said})
}

// list is lines under a title.
type list struct {
	title string
	lines []string
}

// titled puts lists below each other, each behind some lines, as far as there is room.
func (p panel) titled(room int, before []string, lists ...list) []string {
	var lines []string
	for _, each := range lists {
		if left := room - len(lines) - len(before) - 1; len(each.lines) > 0 && left > 0 {
			lines = append(append(lines, before...), " "+p.t.Strong.Render(each.title))
			lines = append(lines, each.lines[:min(left, len(each.lines))]...)
		}
	}
	return lines
}

// saidIn is an entry in lines of its own.
func (p panel) saidIn(e batch.Entry, w int) []string {
	var lines []string
	for i, l := range ink.Wrap(p.b.said(e, p.now), w-9) {
		lines = append(lines, []string{" ", "        "}[min(i, 1)]+l)
	}
	return lines
}

// whatThen says in at most room lines which stages come next, what each waits for,
// and what may be begun meanwhile.
func (p panel) whatThen(w, room int) []string {
	key := p.b.areaKey(p.t, w, room)
	key.stage = p.stage.ID
	return p.b.kept.lines(whatComes, key, func() []string { return p.openAndComing(w, room) })
}

func (p panel) openAndComing(w, room int) []string {
	if p.b.Plan.Closed { // Nothing goes on.
		return nil
	}
	var coming, open []string
	stages := 0
	for _, s := range p.b.Plan.Stages {
		switch {
		case s.Done || s.ID == p.stage.ID:
		case s.Waits() == "":
			open = append(open, p.stageLines(s, w, quantity.Count(undone(s), "task", "tasks"))...)
		case s.N > p.stage.N && stages < stagesMost:
			coming = append(coming, p.stageLines(s, w, following(s.Waits()))...)
			stages++
		}
	}
	return p.titled(room, nil, list{"May be begun now", open}, list{"Then", coming})
}

// stageLines are a stage with a word on it, which stands below it where it is long.
func (p panel) stageLines(s work.Stage, w int, word string) []string {
	sign := ink.SignLater
	if s.Waits() == "" {
		sign = p.t.Accent.Render(ink.SignOpen)
	}
	title, word := ink.Clean(s.Title), ink.Clean(word)
	if ink.Width(title)+ink.Width(word)+5 <= w {
		return []string{" " + sign + " " + ink.Between(title, p.t.Quiet.Render(word)+" ", w-3)}
	}
	lines := []string{" " + sign + " " + ink.Cut(title, w-4)}
	for _, l := range ink.Wrap(word, w-8) {
		lines = append(lines, "      "+p.t.Quiet.Render(l))
	}
	return lines
}

// following says what comes first, in the words of what comes then.
func following(waits string) string {
	for _, words := range []string{"waits for: ", "waits for "} {
		if first, found := strings.CutPrefix(waits, words); found {
			return "after " + first
		}
	}
	return waits
}

func undone(s work.Stage) int {
	n := 0
	for _, t := range s.Tasks {
		if !t.Done && t.Skipped == "" {
			n++
		}
	}
	return n
}
