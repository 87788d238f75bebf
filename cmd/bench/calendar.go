package main

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"bench/internal/agenda"
	"bench/internal/files"
	"bench/internal/front"
	"bench/internal/ledger"
	"bench/internal/paper"
)

func (a *app) calendarCommand() *cobra.Command {
	var replace bool
	c := &cobra.Command{
		Use:   "calendar FILE.ics",
		Short: "write the days ahead of the batches under way as a calendar",
		Long: `calendar writes unmould, cut, weigh-in, ready and second-test dates of the batches under way
as an iCalendar file (RFC 5545), which a phone accepts. Write it again, with
--replace, when dates have moved: the events are the same ones, and a day that was given up, or whose
batch has ended, is marked cancelled while it lies ahead.`,
		Args: func(_ *cobra.Command, args []string) error {
			switch {
			case len(args) != 1:
				return errors.New("calendar needs one file to write: bench calendar FILE.ics")
			case suffix(args[0]) != ".ics":
				return fmt.Errorf("calendar %s: phones and calendars go by the suffix .ics: name the file %s.ics", args[0], strings.TrimSuffix(args[0], filepath.Ext(args[0])))
			}
			return nil
		},
		RunE: func(_ *cobra.Command, args []string) error { return failed(a.calendar(args[0], replace)) },
	}
	replaceFlag(c, &replace)
	return c
}

// calendar writes what is sound even where a batch is damaged, and says so. A
// calendar without a day is one that nobody expects, so that is said, too.
func (a *app) calendar(file string, replace bool) error {
	clock, err := a.now()
	if err != nil {
		return err
	}
	var events []agenda.Event
	now := clock().Wall
	damage := a.reading(func(l *ledger.Ledger) error {
		items, err := l.Batches()
		past, gone := ended(l, now)
		for _, b := range append(items, past...) {
			events = append(events, agenda.Lasting(agenda.Of(b.Code, b.State), now)...)
		}
		return errors.Join(err, gone)
	})
	if _, err := files.Create(file, paper.Calendar(events, time.Local), files.Private, replace); err != nil {
		return errors.Join(err, damage)
	}
	if words := noDays(events); words != "" {
		_, _ = fmt.Fprintf(a.err, "%s: %s\n", file, words)
	}
	return damage
}

// noDays says that no day lies ahead, or "".
func noDays(events []agenda.Event) string {
	switch {
	case len(events) == 0:
		return "no day lies ahead of any batch, so the calendar is empty"
	case !slices.ContainsFunc(events, func(e agenda.Event) bool { return !e.Gone }):
		return "no day lies ahead of any batch; the calendar only cancels those that did"
	}
	return ""
}

// Batches that ended are looked at for days to cancel: so many, and as long as any
// usual cure.
const (
	mostLately = 100
	lately     = 400 * 24 * time.Hour
)

// ended gives the ended batches whose days may still stand in somebody's calendar.
func ended(l *ledger.Ledger, now time.Time) ([]front.BatchItem, error) {
	items, err := l.EndedSince(now.Add(-lately), mostLately)
	return slices.DeleteFunc(items, func(b front.BatchItem) bool { return !agenda.MayHaveDays(b.State, now) }), err
}
