package ui

import (
	"slices"
	"strings"

	"bench/internal/batch"
	"bench/internal/steps"
	"bench/internal/timer"
)

// figure adds a figure to the number that is being typed.
func (b bench) figure(r rune, now timer.Moment) bench {
	t, _, ok := b.current(now)
	switch {
	case !ok || !t.Numeric():
		b.word = "No number is asked for here."
	case len(b.typed) == maxFigures:
		b.word = "No more figures fit; backspace takes one away."
	case r == '.' && strings.Contains(b.typed, "."):
	case r == '.' && b.typed == "":
		b.typed = "0."
	default:
		b.typed += string(r)
	}
	return b
}

// move answers the keys that make no fact of themselves.
func (b bench) move(p press) (bench, action) {
	switch {
	case matches(p, keys.Erase):
		if b.typed != "" {
			b.typed = b.typed[:len(b.typed)-1]
		}
	case matches(p, keys.Up):
		return b.step(-1, p.at), nil
	case matches(p, keys.Down):
		return b.step(+1, p.at), nil
	case matches(p, keys.Left):
		return b.turn(-1, p.at), nil
	case matches(p, keys.Right):
		return b.turn(+1, p.at), nil
	case matches(p, keys.Back):
		return b.back(p)
	case p.held:
	case matches(p, keys.Note):
		return b, question{b.askNote(p.at)}
	case matches(p, keys.Correct):
		if b.plan.Closed {
			b.word = "The batch is closed: only notes can be added."
			return b, nil
		}
		return b, correct{}
	case matches(p, keys.Ways):
		return b.decideNow()
	case matches(p, keys.WeighPot):
		return b.weighPot(p.at)
	case matches(p, keys.LeaveOut):
		return b.leaveOut(p.at)
	case matches(p, keys.End):
		return b.end()
	case matches(p, keys.Switch):
		return b, switchBatch{}
	}
	return b, nil
}

// back goes one level up: what was typed, then what is next, then home.
func (b bench) back(p press) (bench, action) {
	switch {
	case b.typed != "" || b.doubt != nil:
		b.typed, b.doubt = "", nil
	case b.away(p.at):
		return b.settled(p.at), nil
	case !p.held:
		return b, back{}
	}
	return b, nil
}

// again says that a task may be answered once more: what cools is read until
// its stage is done.
func again(t steps.Task, stage steps.Stage) bool {
	return t.Do == steps.Temperature && t.Done && t.Skipped == "" && !stage.Done
}

// step moves among the open tasks of the stage and the temperatures that can be
// read again, or among all when none is.
func (b bench) step(by int, now timer.Moment) bench {
	t, stage, ok := b.current(now)
	if !ok {
		return b
	}
	var ids []string
	for _, each := range stage.Tasks {
		if each.Open || each.ID == t.ID || again(each, stage) {
			ids = append(ids, each.ID)
		}
	}
	if len(ids) == 1 && !t.Open {
		ids = nil
		for _, each := range stage.Tasks {
			ids = append(ids, each.ID)
		}
	}
	at := min(max(0, slices.Index(ids, t.ID)+by), len(ids)-1)
	return b.moveTo(ids[at])
}

// turn moves to the stage before or after, to its first open task.
func (b bench) turn(by int, now timer.Moment) bench {
	_, stage, ok := b.current(now)
	at := slices.IndexFunc(b.plan.Stages, func(s steps.Stage) bool { return s.ID == stage.ID })
	if !ok {
		at = len(b.plan.Stages)
	}
	for at += by; at >= 0 && at < len(b.plan.Stages); at += by {
		if tasks := b.plan.Stages[at].Tasks; len(tasks) > 0 {
			open := max(0, slices.IndexFunc(tasks, func(t steps.Task) bool { return t.Open }))
			return b.moveTo(tasks[open].ID)
		}
	}
	return b
}

// moveTo puts the cursor on a task. A half-typed number stays behind: it was
// meant for the task that was left.
func (b bench) moveTo(task string) bench {
	if task != b.cursor {
		b.typed, b.doubt = "", nil
	}
	b.cursor = task
	return b
}

func (b bench) askNote(now timer.Moment) ask {
	_, stage, _ := b.current(now)
	return ask{
		purpose: forNote, code: b.code, stage: stage.ID, title: "Note",
		hint: "One line; it goes into the record with the time.",
	}
}

// leaveOut asks for the reason, after the plan was asked whether the task may be
// left out at all.
func (b bench) leaveOut(now timer.Moment) (bench, action) {
	t, _, ok := b.current(now)
	if !ok {
		b.word = "There is nothing to leave out."
		return b, nil
	}
	if err := b.plan.Allows(batch.Skipped{Task: t.ID, Reason: "?"}, now); err != nil {
		b.word = sentence(err)
		return b, nil
	}
	return b, question{ask{
		purpose: forLeavingOut, code: b.code, task: t.ID, title: "Leave out: " + clean(t.Title),
		hint: "Say why. It stays in the record as left out.",
	}}
}

// decideNow opens the ways to go on, when there is something to decide.
func (b bench) decideNow() (bench, action) {
	if undecided(b.plan) == 0 {
		b.word = "Nothing is to be decided: no weight was off."
		return b, nil
	}
	return b, decide{}
}

// weighPot looks into the vessel of the task at hand first.
func (b bench) weighPot(now timer.Moment) (bench, action) {
	if b.plan.Closed {
		b.word = "The batch is closed: only notes can be added."
		return b, nil
	}
	t, _, _ := b.current(now)
	return b, weighPot{t.Vessel}
}

// end closes a batch whose tasks are all done, or asks for the word that
// abandons it.
func (b bench) end() (bench, action) {
	if b.plan.Closed {
		b.word = "The batch is closed."
		return b, nil
	}
	if b.plan.Finished() {
		return b, keep{code: b.code, fact: batch.Closed{}}
	}
	return b, question{ask{
		purpose: forEnding, code: b.code, title: "Abandon this batch?",
		hint: "Tasks are still open. To end it here for good, type the word " + abandonWord +
			" and then why. To go on another day just leave with q: the batch stays open.",
	}}
}
