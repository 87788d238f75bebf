package ui

import (
	"bench/internal/steps"
	"bench/internal/timer"

	"github.com/charmbracelet/bubbles/key"
)

// help shows the keys that work now; one that does not says why.
func (b bench) help(now timer.Moment) []key.Binding {
	rest := []key.Binding{keys.Correct, keys.Note, keys.Aid, keys.Keys}
	if b.plan.Closed {
		rest = rest[1:]
	}
	if b.reopened {
		return []key.Binding{says(keys.Accept, "go on"), keys.Aid, keys.Keys, keys.Quit}
	}
	if b.unsaved != nil {
		return append([]key.Binding{keys.Retry, says(keys.Back, "let it go")}, keys.Aid, keys.Keys)
	}
	t, stage, ok := b.current(now)
	switch {
	case b.plan.Finished() && !b.plan.Closed:
		return append([]key.Binding{says(keys.End, "close the batch")}, rest...)
	case !ok:
		return append([]key.Binding{keys.Back}, rest...)
	case b.doubt != nil && b.typed == "":
		return []key.Binding{says(keys.Figures, "type it again"), says(keys.Back, "begin anew"), keys.Aid, keys.Keys}
	case b.typed != "":
		return append(b.helpTyped(t), keys.Aid)
	case again(t, stage):
		return append([]key.Binding{says(keys.Figures, "read it again"), says(keys.Back, "to what is next")}, rest...)
	case t.Done:
		return append([]key.Binding{says(keys.Back, "to what is next")}, rest...)
	}
	list := b.helpTask(t)
	if b.away(now) {
		list = append(list, says(keys.Back, "to what is next"))
	}
	return append(list, rest...)
}

func (b bench) helpTyped(t steps.Task) []key.Binding {
	list := []key.Binding{says(keys.Accept, "keep "+b.typed)}
	if t.Do == steps.Weigh {
		list = append(list, says(keys.More, "more to come"))
	}
	if (t.Do == steps.Weigh || t.Do == steps.Portion) && !t.MustType {
		list = append(list, says(keys.ByEye, "by eye"))
	}
	return append(list, keys.Erase, says(keys.Back, "clear"))
}

// helpTask says what space would tick, with its value, so that a tick is never
// only a reflex.
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
