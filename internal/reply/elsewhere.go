package reply

import (
	"bench/internal/front"
	"bench/internal/timer"
)

// Elsewhere is another batch that asks for something, for hands that have nothing to do
// at the one before them.
type Elsewhere struct {
	Code, Recipe string
	Round        int      // Round is how many batches one goes on to come to it.
	Waits        []string // Waits is what does not wait: alarms, lye solution that stands, batter that thickens.
	Now          string   // Now is the task that can be done, or "".
}

// AskedElsewhere gives which of the others ask for something, in the order in which one
// goes round them: first those where something does not wait.
func AskedElsewhere(others []front.UnderWay, now timer.Moment) []Elsewhere {
	var pressing, rest []Elsewhere
	for i, b := range others {
		e := Elsewhere{Code: b.Code, Recipe: b.Plan.Recipe, Round: i + 1}
		for _, t := range b.Plan.Timers {
			switch {
			case t.State(now) == timer.Due:
				e.Waits = append(e.Waits, t.Label+", "+t.Say(now))
			case t.State(now) == timer.Running && t.CountsUp():
				e.Waits = append(e.Waits, t.Label+" "+t.Say(now))
			}
		}
		if task, ok := b.Plan.Next(now); ok {
			next, stage, _ := b.Plan.Task(task)
			e.Now = stage.Title + ": " + next.Title
		}
		switch {
		case len(e.Waits) > 0:
			pressing = append(pressing, e)
		case e.Now != "":
			rest = append(rest, e)
		}
	}
	return append(pressing, rest...)
}
