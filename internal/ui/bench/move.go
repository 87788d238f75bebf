package bench

import (
	"slices"

	"bench/internal/reply"
	"bench/internal/say"
	"bench/internal/timer"
	"bench/internal/ui/ink"
	"bench/internal/ui/intent"
	"bench/internal/ui/keys"
	"bench/internal/work"
)

// figure adds a figure to the number that is being typed.
func (b Screen) figure(r rune, p keys.Press) Screen {
	now := p.At
	if b.Typed == "" && keys.Within(now, b.flung, p.Startle()) {
		b.Word = "This is another task: look first, then type."
		return b
	}
	if b.anew {
		b.anew, b.Typed = false, ""
	}
	t, stage, ok := b.Current(now)
	switch {
	case !ok && b.open() != "":
		b.Word = "No number is asked for now: " + keys.Left.Help().Key + " goes to " + ink.Clean(b.open()) + "."
	case ok && t.Done && !reply.Again(t, stage):
		b.Word = "This is done: " + keys.Correct.Help().Key + " corrects it."
	case ok && !t.Done && !t.Open && t.Numeric():
		b.Word = "No number is taken yet: it " + ink.Clean(t.Waits) + "."
	case !ok || !takesFigures(t, stage):
		b.Word = "No number is asked for here."
	case len(b.Typed) == keys.MaxFigures:
		b.Word = "No more figures fit; backspace takes one away."
	default:
		b.Typed = keys.WithFigure(b.Typed, r)
	}
	return b
}

// move answers the keys that make no fact of themselves.
func (b Screen) move(p keys.Press) (Screen, intent.Action) {
	switch {
	case keys.Matches(p, keys.Erase):
		b.anew = false
		if b.Typed != "" {
			b.Typed = b.Typed[:len(b.Typed)-1]
		}
	case keys.Matches(p, keys.Up):
		return b.step(-1, p.At), nil
	case keys.Matches(p, keys.Down):
		return b.step(+1, p.At), nil
	case keys.Matches(p, keys.First):
		return b.step(-all, p.At), nil
	case keys.Matches(p, keys.Last):
		return b.step(+all, p.At), nil
	case keys.Matches(p, keys.Left):
		return b.turn(-1, p.At), nil
	case keys.Matches(p, keys.Right):
		return b.turn(+1, p.At), nil
	case keys.Matches(p, keys.Back):
		return b.back(p)
	case p.Held:
	case keys.Matches(p, keys.Note):
		return b, intent.Of(b.askNote(p.At))
	case keys.Matches(p, keys.Face):
		return b, intent.Overlay{Page: intent.PageFace}
	case keys.Matches(p, keys.Correct):
		return b, intent.Correct{}
	case keys.Matches(p, keys.Answers):
		return b.answers(p.At)
	case keys.Matches(p, keys.InWords):
		return b.inWords(p.At)
	case keys.Matches(p, keys.Later):
		return b.afterwards()
	case keys.Matches(p, keys.Ways):
		return b.decideNow()
	case keys.Matches(p, keys.WeighPot):
		return b.weighPot(p.At)
	case keys.Matches(p, keys.Instead):
		return b.instead(p.At)
	case keys.Matches(p, keys.LeaveOut):
		return b.leaveOut(p.At)
	case keys.Matches(p, keys.End):
		return b.end()
	case keys.Matches(p, keys.Switch) && b.Typed != "":
		b.Word = "First: enter keeps " + b.Typed + ", esc clears it."
	case keys.Matches(p, keys.Switch):
		return b, intent.SwitchBatch{}
	}
	return b, nil
}

// back goes one level up: what was typed, then what is next, then home.
func (b Screen) back(p keys.Press) (Screen, intent.Action) {
	switch {
	case b.Typed != "" || b.doubt != nil:
		b.Typed, b.doubt = "", nil
	case b.away(p.At):
		return b.settled(p.At), nil
	case !p.Held:
		return b, intent.Back{}
	}
	return b, nil
}

// all is more tasks than a stage has.
const all = 1 << 20

// step moves among the open tasks of the stage and the temperatures that can be
// read again, or among all when none is.
func (b Screen) step(by int, now timer.Moment) Screen {
	t, stage, ok := b.Current(now)
	if !ok {
		return b
	}
	var ids []string
	for _, each := range stage.Tasks {
		if each.Open || each.ID == t.ID || reply.Again(each, stage) {
			ids = append(ids, each.ID)
		}
	}
	if len(ids) == 1 && !t.Open || stage.Kind == work.ReleaseTest && stage.Done {
		ids = nil
		for _, each := range stage.Tasks {
			ids = append(ids, each.ID)
		}
	}
	at := min(max(0, slices.Index(ids, t.ID)+by), len(ids)-1)
	return b.moveTo(ids[at])
}

// open gives the title of the last stage with a task that can be done now, where
// nothing is next, or "".
func (b Screen) open() string {
	for _, s := range slices.Backward(b.Plan.Stages) {
		if firstOpen(s) >= 0 {
			return s.Title
		}
	}
	return ""
}

func firstOpen(s work.Stage) int {
	return slices.IndexFunc(s.Tasks, func(t work.Task) bool { return t.Open })
}

// turn moves to the stage before or after, to its first open task; from where
// nothing is next it passes the stages that are done or wait.
func (b Screen) turn(by int, now timer.Moment) Screen {
	_, stage, ok := b.Current(now)
	at := slices.IndexFunc(b.Plan.Stages, func(s work.Stage) bool { return s.ID == stage.ID })
	if !ok && by < 0 {
		at = len(b.Plan.Stages)
	}
	for at += by; at >= 0 && at < len(b.Plan.Stages); at += by {
		first := firstOpen(b.Plan.Stages[at])
		if tasks := b.Plan.Stages[at].Tasks; len(tasks) > 0 && (ok || first >= 0) {
			return b.moveTo(tasks[max(0, first)].ID)
		}
	}
	return b
}

// moveTo puts the cursor on a task. A half-typed number stays behind: it was
// meant for the task that was left.
func (b Screen) moveTo(task string) Screen {
	if task != b.cursor {
		b.Typed, b.doubt = "", nil
	}
	b.cursor = task
	return b
}

func (b Screen) askNote(now timer.Moment) reply.Question {
	_, stage, _ := b.Current(now)
	q := reply.Note(b.Code, stage.ID)
	if b.Typed != "" {
		q.Hint += " " + b.Typed + " stays typed where it was."
	}
	return q
}

// leaveOut asks why, where a task may be left out.
func (b Screen) leaveOut(now timer.Moment) (Screen, intent.Action) {
	t, _, ok := b.Current(now)
	if !ok {
		b.Word = "There is nothing to leave out."
		return b, nil
	}
	act, word := reply.LeaveOut(b.Code, b.Plan, t, now)
	b.Word = word
	return b, intent.Of(act)
}

// instead asks which vessel was taken in place of the one of the task.
func (b Screen) instead(now timer.Moment) (Screen, intent.Action) {
	t, _, _ := b.Current(now)
	act, word := reply.Instead(b.Code, b.Plan, t, b.beside)
	b.Word = word
	return b, intent.Of(act)
}

// decideNow opens the ways to go on, when there is something to decide.
func (b Screen) decideNow() (Screen, intent.Action) {
	if b.Plan.Undecided() == 0 {
		b.Word = say.Settled(b.Plan)
		return b, nil
	}
	return b, intent.Decide{}
}

// weighPot looks into the vessel of the task at hand first.
func (b Screen) weighPot(now timer.Moment) (Screen, intent.Action) {
	if b.Plan.Closed {
		b.Word = "The batch is closed: only notes, complaints and where bars went can be added."
		return b, nil
	}
	t, _, _ := b.Current(now)
	return b, intent.WeighPot{Vessel: t.Vessel}
}

// end closes a batch, or asks whether it is to be abandoned.
func (b Screen) end() (Screen, intent.Action) {
	act, word := reply.End(b.Code, b.Plan)
	b.Word = word
	return b, intent.Of(act)
}
