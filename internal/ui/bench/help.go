package bench

import (
	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/reply"
	"bench/internal/timer"
	"bench/internal/ui/ink"
	"bench/internal/ui/keys"
	"bench/internal/work"

	"github.com/charmbracelet/bubbles/key"
)

// help shows the keys that work now; one that does not says why.
func (b Screen) help(now timer.Moment) []key.Binding {
	rest := []key.Binding{keys.Correct, keys.Note, keys.Aid, keys.Keys}
	if b.Plan.Undecided() > 0 && !b.Plan.Closed {
		rest = append([]key.Binding{keys.Ways}, rest...)
	}
	if b.Plan.Closed {
		rest = append([]key.Binding{keys.Says(keys.Correct, "its record"), keys.Later}, rest[1:]...)
	}
	if b.Along.On {
		return b.Along.help()
	}
	if b.reopened {
		list := []key.Binding{keys.Says(keys.Accept, "go on")}
		if u, act := reply.KeepInAlready(b.Code, b.Plan, now); act != nil {
			list = []key.Binding{keys.Says(keys.Accept, "keep "+u.Mass.At(u.Task.Reads)), keys.Says(keys.LeaveOut, "it is not in")}
		}
		if b.unread(now) == "" {
			list = append(list, keys.Says(keys.Figures, "what it reads"))
		}
		return append(list, keys.Says(keys.WeighPot, "another pot"), keys.Correct, keys.Note, keys.Aid, keys.Keys)
	}
	if b.Unsaved != nil {
		return append([]key.Binding{keys.Retry, keys.Says(keys.Back, "let it go")}, keys.Aid, keys.Keys)
	}
	t, stage, ok := b.Current(now)
	switch {
	case b.Plan.Finished() && !b.Plan.Closed:
		return append([]key.Binding{keys.Says(keys.End, "close the batch")}, rest...)
	case !ok && b.open() != "":
		return append([]key.Binding{keys.Says(keys.Left, b.open()), keys.Back}, rest...)
	case !ok:
		return append([]key.Binding{keys.Back}, rest...)
	case b.doubt != nil && b.Typed == "":
		return []key.Binding{keys.Says(keys.Figures, "type it again"), keys.Says(keys.Back, "begin anew"), keys.Aid, keys.Keys}
	case b.Typed != "":
		return append(b.helpTyped(t), keys.Aid)
	case t.Do == work.Measure && reply.Again(t, stage):
		return append([]key.Binding{keys.Says(keys.Figures, "test it again"), keys.InWords, keys.Says(keys.Back, "to what is next")}, rest...)
	case reply.Again(t, stage):
		return append([]key.Binding{keys.Says(keys.Figures, "read it again"), keys.Says(keys.Back, "to what is next")}, rest...)
	case t.Done:
		return append([]key.Binding{keys.Says(keys.Back, "to what is next")}, rest...)
	}
	list := b.helpTask(t, now)
	if b.away(now) {
		list = append(list, keys.Says(keys.Back, "to what is next"))
	}
	if judge.Fills(t) != "" {
		rest = append(rest, keys.Instead)
	}
	return append(list, rest...)
}

// helpTyped leaves room for figures to come, so that the keys after them stay
// where they are.
func (b Screen) helpTyped(t work.Task) []key.Binding {
	list := []key.Binding{keys.Says(keys.Accept, "keep "+ink.Fit(b.Typed, max(ink.Width(b.Typed), len("1234.5"))))}
	if t.Do == work.Weigh {
		list = append(list, keys.Says(keys.More, "more to come"))
	}
	if (t.Do == work.Weigh || t.Do == work.Portion) && !t.MustType {
		list = append(list, keys.Says(keys.ByEye, "by eye"))
	}
	return append(list, keys.Erase, keys.Says(keys.Back, "clear"))
}

// helpTask says what space would tick, with its value, so that a tick is never
// only a reflex.
func (b Screen) helpTask(t work.Task, now timer.Moment) []key.Binding {
	tick := keys.Says(keys.Tick, "done")
	if instead, refused := b.helpRefused(t, now); refused {
		return instead
	}
	if rest := b.helpRest(t); rest != nil {
		return rest
	}
	switch {
	case t.Do == work.Confirm && t.Open:
		return []key.Binding{keys.Says(keys.Accept, "it is so")}
	case !t.Open:
		tick = keys.Off(keys.Tick, ink.Cut(ink.Clean(t.Waits), 34))
	case t.Numeric() && (t.MustType || t.Do == work.Gross || t.Do == work.Temperature):
		tick = keys.Off(keys.Tick, "type it")
	case t.Do == work.Portion:
		tick = keys.Says(keys.Tick, "it reads "+t.StopAt.At(t.Reads))
	case t.Numeric():
		tick = keys.Says(keys.Tick, "it is "+t.Remaining().At(t.Reads))
	}
	list := []key.Binding{tick}
	if t.Numeric() {
		list = append(list, keys.Says(keys.Figures, "what it is"))
	}
	return list
}

// helpRefused shows the key that works where a tick, or that it is so, would be
// refused.
func (b Screen) helpRefused(t work.Task, now timer.Moment) (instead []key.Binding, refused bool) {
	if !t.Open || t.Do != work.Tick && t.Do != work.Confirm || judge.Allows(b.Plan, batch.Ticked{Task: t.ID}, now) == nil {
		return instead, false
	}
	switch b.stageOf(t).Kind {
	case work.Unmould:
		return []key.Binding{keys.Says(keys.Answers, "too soft, or before its time")}, true
	case work.CureStage:
		return []key.Binding{keys.Says(keys.LeaveOut, "test earlier")}, true
	case work.Gate:
		instead = []key.Binding{keys.Says(keys.Up, "read again")}
		if len(judge.Choices(b.Plan, t.ID, "")) > 0 {
			instead = append(instead, keys.Says(keys.Answers, "too hot"))
		}
		return instead, true
	default:
		return []key.Binding{keys.Off(keys.Tick, "after d")}, b.Plan.Undecided() > 0
	}
}

func (b Screen) stageOf(t work.Task) work.Stage {
	_, stage, _ := b.Plan.Task(t.ID)
	return stage
}

// helpRest shows the keys of a task after the pour, or nil.
func (b Screen) helpRest(t work.Task) []key.Binding {
	if !t.Open {
		return nil
	}
	others := len(judge.Choices(b.Plan, t.ID, "")) > 0
	var list []key.Binding
	switch t.Do {
	case work.Choose:
		list = []key.Binding{keys.Says(keys.Accept, "answers")}
		if takesFigures(t, b.stageOf(t)) {
			list = append(list, keys.Says(keys.Figures, "temperature"))
		}
		return list
	case work.Count:
		list = []key.Binding{keys.Says(keys.Tick, "as planned"), keys.Says(keys.Figures, "bars"), keys.InWords}
	case work.Bars:
		list = []key.Binding{keys.Says(keys.Figures, "a bar"), keys.Says(keys.InWords, "several")}
		if t.Counted > 0 {
			list = append(list, keys.Says(keys.Tick, "that is all"))
		}
	case work.Aside:
		list = []key.Binding{keys.Says(keys.Figures, "what it weighs"), keys.Says(keys.Tick, "not weighed")}
	case work.WeighIn, work.Measure:
		list = []key.Binding{keys.Says(keys.Figures, "what it is"), keys.InWords}
	default:
		if !others {
			return nil
		}
		list = []key.Binding{keys.Says(keys.Tick, "done")}
		if b.stageOf(t).Kind == work.Unmould {
			list = append(list, keys.Says(keys.Figures, "what it weighs"))
		}
	}
	if others {
		list = append(list, keys.Says(keys.Answers, "too soft"))
	}
	return list
}
