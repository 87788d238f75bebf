package bench

import (
	"slices"
	"strings"

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
			list = []key.Binding{keys.Says(keys.Accept, "keep "+u.Mass.At(u.Task.Reads)), keys.Says(keys.LeaveOut, "it is "+notSo(u))}
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
	case reply.StillFull(b.Plan) != "":
		return append([]key.Binding{keys.Says(keys.End, "it is empty"), keys.Back}, rest...)
	case !ok && b.open() != "" && !b.Plan.Closed:
		return append([]key.Binding{keys.Says(keys.Left, b.open()), keys.Back}, rest...)
	case !ok:
		return append([]key.Binding{keys.Back}, rest...)
	case b.doubt != nil && b.Typed == "":
		return []key.Binding{keys.Says(keys.Figures, "type it again"), keys.Says(keys.Back, "begin anew"), keys.Aid, keys.Keys}
	case b.Typed != "":
		return append(b.helpTyped(t), keys.Aid)
	case t.Do == work.Measure && reply.Again(t, stage):
		return append([]key.Binding{keys.Says(keys.Figures, "test it again"), keys.InWords, keys.Says(keys.Back, "to next")}, rest...)
	case t.Do == work.Bars && reply.Again(t, stage):
		return append([]key.Binding{keys.Says(keys.Figures, "another bar"), keys.Says(keys.InWords, "several"), keys.Says(keys.Back, "to next")}, rest...)
	case reply.Again(t, stage):
		return append([]key.Binding{keys.Says(keys.Figures, "read it again"), keys.Says(keys.Back, "to next")}, rest...)
	case t.Done:
		return append([]key.Binding{keys.Says(keys.Back, "to next")}, rest...)
	}
	list := b.helpTask(t, now)
	if b.away(now) {
		list = append(list, keys.Says(keys.Back, "to next"))
	}
	switch {
	case judge.Fills(t) == "":
	case choosesVessel(t):
		list = append(list, keys.Says(keys.Instead, "other vessel"))
	default:
		rest = append(rest, keys.Instead)
	}
	return append(list, slices.DeleteFunc(rest, func(k key.Binding) bool { return names(list, k) })...)
}

// choosesVessel says that a vessel stands to be chosen, because nothing is in it yet, or to
// be told from others.
func choosesVessel(t work.Task) bool {
	switch t.Do {
	case work.Weigh:
		return t.Open && t.SoFar == 0
	case work.Portion:
		return t.Open && t.Mass == 0
	case work.Gross:
		return t.Open
	default:
		return false
	}
}

// names says that a key is in a list.
func names(list []key.Binding, k key.Binding) bool {
	return slices.ContainsFunc(list, func(each key.Binding) bool { return slices.Equal(each.Keys(), k.Keys()) })
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

// helpTask says what space would tick, with its value, so that a tick is never only a
// reflex; or which key works in its place.
func (b Screen) helpTask(t work.Task, now timer.Moment) []key.Binding {
	if q, shared := reply.AskShared(b.Code, b.Plan, t, b.beside); shared {
		return []key.Binding{keys.Says(ticks(t), strings.ToLower(q.Title))}
	}
	switch rest := b.helpRest(t); {
	case !t.Open:
		return []key.Binding{keys.Off(keys.Tick, "not yet")}
	case t.Do == work.Choose:
		return rest
	case b.refuses(t, now):
		return b.helpInstead(t, rest)
	case rest != nil:
		return rest
	case t.Do == work.Portion:
		return []key.Binding{keys.Says(keys.Tick, "it reads "+t.StopAt.At(t.Reads)), keys.Says(keys.Figures, "type it")}
	case t.Numeric():
		return []key.Binding{keys.Says(keys.Tick, "it is "+t.Remaining().At(t.Reads)), keys.Says(keys.Figures, "type it")}
	case t.Do == work.Confirm:
		return []key.Binding{keys.Says(keys.Accept, "it is so")}
	}
	list := []key.Binding{keys.Says(keys.Tick, "done")}
	if t.Poured() {
		list = append(list, keys.Says(keys.Figures, "weighed"))
	}
	return list
}

// ticks is the key that says that a task is as it should be.
func ticks(t work.Task) key.Binding {
	if t.Do == work.Confirm {
		return keys.Accept
	}
	return keys.Tick
}

// refuses says that a tick, or that it is so, would be refused.
func (b Screen) refuses(t work.Task, now timer.Moment) bool {
	f, err := judge.Fact(b.Plan, t.ID, judge.Answer{How: batch.AtTarget})
	return err != nil || judge.Allows(b.Plan, f, now) != nil
}

// helpInstead shows the keys that work where a tick would be refused; rest are those of a
// task after the pour, or nil.
func (b Screen) helpInstead(t work.Task, rest []key.Binding) []key.Binding {
	kind := b.stageOf(t).Kind
	switch {
	case kind == work.Unmould:
		return []key.Binding{keys.Says(keys.Answers, "too soft, or before its time")}
	case kind == work.CureStage && t.Do == work.Tick:
		return []key.Binding{keys.Says(keys.LeaveOut, "test earlier")}
	case kind == work.Gate && t.Do == work.Confirm:
		instead := []key.Binding{keys.Says(keys.Up, "read again")}
		if len(judge.Choices(b.Plan, t.ID, "")) > 0 {
			instead = append(instead, keys.Says(keys.Answers, "too hot"))
		}
		return instead
	case rest != nil:
		return slices.DeleteFunc(rest, func(k key.Binding) bool { return names([]key.Binding{keys.Tick}, k) })
	case t.Do == work.Gross:
		return []key.Binding{keys.Says(keys.Figures, "the whole weight")}
	case t.Do == work.Weigh:
		return []key.Binding{keys.Says(keys.Figures, "weigh it")}
	case t.Numeric():
		return []key.Binding{keys.Says(keys.Figures, "what it reads")}
	case b.Plan.Undecided() > 0:
		return []key.Binding{keys.Off(ticks(t), "after "+keys.Ways.Help().Key)}
	}
	return []key.Binding{keys.Off(ticks(t), "not yet"), keys.Says(keys.Correct, "correct what was said")}
}

func (b Screen) stageOf(t work.Task) work.Stage {
	_, stage, _ := b.Plan.Task(t.ID)
	return stage
}

// helpRest shows the keys of a task after the pour, or nil.
func (b Screen) helpRest(t work.Task) []key.Binding {
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
	switch {
	case others && b.stageOf(t).Kind == work.Unmould:
		list = append(list, keys.Says(keys.Answers, "too soft, stuck"))
	case others:
		list = append(list, keys.Says(keys.Answers, "too soft"))
	}
	return list
}
