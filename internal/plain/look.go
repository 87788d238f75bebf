package plain

import (
	"slices"
	"strconv"
	"strings"

	"bench/internal/reply"
	"bench/internal/work"
)

// why says why the stage at hand comes now, or the reason of every figure.
func (s *session) why(all string) {
	t, stage, some := s.plan.Task(s.task)
	switch {
	case all == "all":
		s.text(s.Texts.Why(s.state))
	case !some:
		s.say("There is nothing to do just now; why all gives the reason of every figure.")
	default:
		s.say(stage.Title + ": " + stage.Why)
		if t.Hint != "" {
			s.say(t.Hint)
		}
	}
}

// listTasks lists the stage at hand with its tasks, and the stages that are open.
func (s *session) listTasks(string) {
	_, at, _ := s.plan.Task(s.task)
	for _, st := range s.plan.Stages {
		here := st.ID == at.ID
		if st.Done && !here || st.Waits() != "" && !here {
			continue
		}
		s.sayf("%d  %s%s", st.N, st.Title, map[bool]string{true: ", here", false: ", may be done now"}[here])
		for i, t := range st.Tasks {
			if !here {
				break
			}
			words := "open"
			switch {
			case t.Done || t.Skipped != "":
				words = doneWords(t)
			case !t.Open:
				words = t.Waits
			}
			if number, unit := reply.Asked(t, st); number != "" && !t.Done {
				words = number + " " + unit + ", " + words
			}
			s.sayf("  %d.%d  %s: %s", st.N, i+1, t.Title, words)
		}
	}
}

// goTo goes to a stage, to a task of it, or back to what is next.
func (s *session) goTo(where string) {
	s.cursor, s.doubt, s.shown = "", nil, ""
	if where == "" {
		return
	}
	stage, task, _ := strings.Cut(where, ".")
	n, err := strconv.Atoi(stage)
	if err != nil || n < 1 || n > len(s.plan.Stages) {
		s.warn("There is no stage " + stage + ": tasks lists them.")
		return
	}
	tasks := s.plan.Stages[n-1].Tasks
	i := max(0, slices.IndexFunc(tasks, func(t work.Task) bool { return t.Open }))
	if task != "" {
		if i, err = strconv.Atoi(task); err != nil || i < 1 || i > len(tasks) {
			s.warn("There is no task " + where + ": tasks lists them.")
			return
		}
		i--
	}
	if len(tasks) > 0 {
		s.cursor = tasks[i].ID
	}
}
