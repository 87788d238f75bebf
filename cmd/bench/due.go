package main

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"github.com/spf13/cobra"

	"bench/internal/ledger"
	"bench/internal/paper"
	"bench/internal/quantity"
	"bench/internal/steps"
	"bench/internal/timer"
)

// dueFlags are what the due command is asked.
type dueFlags struct {
	json, quiet bool
	within      string
}

func (a *app) dueCommand() *cobra.Command {
	var f dueFlags
	c := &cobra.Command{
		Use:   "due",
		Short: "print the timers of the batches under way",
		Long: `due prints the timers that nobody has answered, the most urgent first.

Exit status, for a shell prompt or cron: 0 nothing is due, 3 something is due,
1 the facts could not be read, 2 wrong usage. With --quiet it only exits:

    bench due --quiet; [ $? -eq 3 ] && echo "look at the soap"`,
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error { return a.due(f) },
	}
	c.Flags().BoolVar(&f.json, "json", false, "print JSON")
	c.Flags().BoolVarP(&f.quiet, "quiet", "q", false, "print nothing: only the exit status")
	c.Flags().StringVar(&f.within, "within", "", "what falls due within this time counts as due, such as \"30 min\"")
	return c
}

func (a *app) due(f dueFlags) error {
	var within time.Duration
	if f.within != "" {
		var err error
		if within, err = quantity.ParseDuration(f.within); err != nil {
			return fmt.Errorf("--within: %w", err)
		}
	}
	now, err := a.now()
	if err != nil {
		return err
	}
	timers, err := a.unanswered()
	if err != nil {
		return failed(err)
	}
	at := now()
	slices.SortStableFunc(timers, func(x, y paper.Timer) int {
		return cmp.Or(cmp.Compare(urgency(x, at), urgency(y, at)), cmp.Compare(x.Left(at), y.Left(at)))
	})
	if !f.quiet {
		err := printAs(a, f.json, timers, func(list []paper.Timer) string { return paper.DueText(list, at) },
			func(list []paper.Timer) ([]byte, error) { return paper.DueJSON(list, at) })
		if err != nil {
			return err
		}
	}
	soon := at
	soon.Wall, soon.SinceBoot = at.Wall.Add(within), at.SinceBoot+within
	if slices.ContainsFunc(timers, func(t paper.Timer) bool { return t.State(soon) == timer.Due }) {
		return dueError{}
	}
	return nil
}

// urgency ranks what is due by its priority, before all that only runs.
func urgency(t paper.Timer, at timer.Moment) int {
	if t.State(at) == timer.Due {
		return int(t.PriorityAt(at))
	}
	return int(timer.Later) + 1
}

// unanswered gives the timers of the batches under way that nobody has seen.
func (a *app) unanswered() ([]paper.Timer, error) {
	var timers []paper.Timer
	err := a.reading(func(l *ledger.Ledger) error {
		items, err := l.Batches()
		for _, b := range items {
			for _, t := range steps.Of(b.State).Timers {
				if !t.Seen {
					timers = append(timers, paper.Timer{Batch: b.Code, Timer: t})
				}
			}
		}
		return err
	})
	return timers, err
}
