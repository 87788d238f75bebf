package ui

import (
	"slices"
	"strings"
	"time"

	"bench/internal/batch"
	"bench/internal/steps"
	"bench/internal/timer"

	"github.com/charmbracelet/bubbles/key"
)

// maxFigures keeps a typed number within what the large figures can show.
const maxFigures = 8

// bench is one batch at work: one thing is next, and everything else is quiet.
type bench struct {
	code  string
	state batch.State
	plan  steps.Plan
	at    *time.Location

	next     string   // next was next when it came into sight; time alone does not change it.
	cursor   string   // cursor is a task that the person moved to; "" is what is next.
	typed    string   // typed is the number so far.
	doubt    *doubted // doubt is a value that must be typed a second time.
	sending  string   // sending is the task of the fact in flight, or "".
	unsaved  *notSaved
	word     string
	reopened bool // reopened shows where the person was, until the first key.
}

// doubted is a proposed fact that looks like a slip.
type doubted struct {
	fact  batch.Fact
	words string
}

// notSaved is a fact that the store could not keep, and why.
type notSaved struct {
	keep keep
	why  string
}

func newBench(code string, s batch.State, at *time.Location, reopened bool, now timer.Moment) bench {
	return bench{code: code, state: s, plan: steps.Of(s), at: at, reopened: reopened}.settled(now)
}

// settled takes up what is next. It is called when something was said, never
// because time has passed: an alarm must not put another task under a hand that
// is on its way to a key.
func (b bench) settled(now timer.Moment) bench {
	b.next, _ = b.plan.Next(now)
	b.cursor = ""
	return b
}

// sent notes that a fact is on its way to the store.
func (b bench) sent(k keep) bench {
	b.sending = batch.Task(k.fact)
	b.typed, b.doubt, b.word, b.unsaved = "", nil, "", nil
	return b
}

// refused keeps a fact that was not saved, to be tried again.
func (b bench) refused(msg appendedMsg) bench {
	b.sending, b.typed = "", ""
	b.unsaved = &notSaved{msg.keep, msg.err.Error()}
	return b
}

// entered applies a fact that is durable, and plans anew. A number that is
// being typed stays with its task.
func (b bench) entered(e batch.Entry, now timer.Moment) bench {
	at := b.cursor
	b.sending = ""
	b.state = b.state.Apply(e)
	b.plan = steps.Of(b.state)
	task := batch.Task(e.Fact)
	switch {
	case task == "" && (b.typed != "" || b.doubt != nil || at != ""):
	case at != "" && at != task:
	default:
		b = b.settled(now)
		if at != "" {
			b.cursor = b.openAfter(task)
		}
	}
	return b
}

// openAfter gives the next open task of the same stage, or "" to go on with
// what is next.
func (b bench) openAfter(task string) string {
	_, stage, _ := b.plan.Task(task)
	at := slices.IndexFunc(stage.Tasks, func(t steps.Task) bool { return t.ID == task })
	for i := range stage.Tasks {
		if t := stage.Tasks[(at+1+i)%len(stage.Tasks)]; t.Open {
			return t.ID
		}
	}
	return ""
}

// current gives the task that the keys are about.
func (b bench) current(now timer.Moment) (steps.Task, steps.Stage, bool) {
	if t, s, ok := b.plan.Task(b.cursor); ok {
		return t, s, true
	}
	if t, s, ok := b.plan.Task(b.next); ok && t.Open {
		return t, s, true
	}
	next, ok := b.plan.Next(now)
	if !ok {
		return steps.Task{}, steps.Stage{}, false
	}
	return b.plan.Task(next)
}

// away says that what is at hand is not what is next.
func (b bench) away(now timer.Moment) bool {
	next, ok := b.plan.Next(now)
	return b.cursor != "" && b.cursor != next || ok && b.cursor == "" && b.next != next
}

func (b bench) update(p press) (bench, action) {
	if b.reopened {
		b.reopened = false
		if answers(p) {
			return b, nil // The first key confirms what was read; it ticks nothing.
		}
	}
	b.word = ""
	if r, ok := figure(p); ok {
		return b.figure(r, p.at), nil
	}
	if b.unsaved != nil {
		return b.updateUnsaved(p)
	}
	if answers(p) {
		return b.answer(p)
	}
	return b.move(p)
}

// answers says that the key answers the current task.
func answers(p press) bool { return matches(p, keys.Tick, keys.Accept, keys.More, keys.ByEye) }

// updateUnsaved offers to save again, or to let go; nothing overtakes a fact
// that is not saved.
func (b bench) updateUnsaved(p press) (bench, action) {
	switch {
	case matches(p, keys.Retry):
		return b, b.unsaved.keep
	case matches(p, keys.Back):
		b.unsaved = nil
		b.word = "Let go: it is not in the record."
	case !p.held:
		b.word = "First: r saves it again, esc lets it go."
	}
	return b, nil
}

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
		return b, correct{}
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

// step moves among the open tasks of the stage, or among all when none is.
func (b bench) step(by int, now timer.Moment) bench {
	t, stage, ok := b.current(now)
	if !ok {
		return b
	}
	var ids []string
	for _, each := range stage.Tasks {
		if each.Open || each.ID == t.ID {
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

func (b bench) help(now timer.Moment) []key.Binding {
	rest := []key.Binding{keys.Correct, keys.Note, keys.Aid, keys.Keys}
	if b.unsaved != nil {
		return append([]key.Binding{keys.Retry, says(keys.Back, "let it go")}, keys.Aid, keys.Keys)
	}
	t, _, ok := b.current(now)
	switch {
	case b.plan.Finished() && !b.plan.Closed:
		return append([]key.Binding{says(keys.End, "close the batch")}, rest...)
	case !ok:
		return append([]key.Binding{keys.Back}, rest...)
	case t.Done:
		return append([]key.Binding{says(keys.Back, "to what is next")}, rest...)
	case b.typed != "":
		return append(b.helpTyped(t), keys.Aid)
	}
	return append(b.helpTask(t), rest...)
}

func (b bench) helpTyped(t steps.Task) []key.Binding {
	list := []key.Binding{says(keys.Accept, "keep "+b.typed)}
	if t.Do == steps.Weigh {
		list = append(list, says(keys.More, "more to come"))
	}
	return append(list, keys.Erase, says(keys.Back, "clear"))
}

func (b bench) helpTask(t steps.Task) []key.Binding {
	tick := says(keys.Tick, "done")
	switch {
	case !t.Open:
		tick = off(keys.Tick, "waits")
	case t.Numeric() && (t.MustType || t.Do == steps.Gross || t.Do == steps.Temperature):
		tick = off(keys.Tick, "type it")
	case t.Do == steps.Portion:
		tick = says(keys.Tick, "it reads "+t.StopAt.At(t.Reads))
	case t.Numeric():
		tick = says(keys.Tick, "it is "+t.Remaining().At(t.Reads))
	}
	list := []key.Binding{tick}
	if t.Numeric() {
		list = append(list, says(keys.Figures, "what it is"))
	}
	return list
}
