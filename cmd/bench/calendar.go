package main

import (
	"errors"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"bench/internal/agenda"
	"bench/internal/paper"
)

func (a *app) calendarCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "calendar FILE.ics",
		Short: "write the days ahead of the batches under way as a calendar",
		Long: `calendar writes unmould, cut, weigh-in and ready dates of the batches under way
as an iCalendar file (RFC 5545), which a phone accepts. Write it again when dates
have moved: the events are the same ones, and what is done is marked cancelled.`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) != 1 || !strings.HasSuffix(strings.ToLower(args[0]), ".ics") {
				return errors.New("calendar needs one file to write: bench calendar FILE.ics")
			}
			return nil
		},
		RunE: func(_ *cobra.Command, args []string) error { return failed(a.calendar(args[0])) },
	}
}

// calendar writes what is sound even where a batch is damaged, and says so.
func (a *app) calendar(file string) error {
	var events []agenda.Event
	damage := a.reading(func(l *ledger) error {
		items, err := l.Batches()
		for _, b := range items {
			events = append(events, agenda.Of(b.Code, b.State)...)
		}
		return err
	})
	return errors.Join(writeOutput(file, paper.Calendar(events, time.Local)), damage)
}
