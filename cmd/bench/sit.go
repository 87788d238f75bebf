package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"syscall"
	"time"

	"bench/internal/batch"
	"bench/internal/documents"
	"bench/internal/front"
	"bench/internal/journal"
	"bench/internal/ledger"
	"bench/internal/paper"
	"bench/internal/plain"
	"bench/internal/recipe"
	"bench/internal/timer"
	"bench/internal/ui/ink"
	"bench/internal/why"
)

// wish says how bench was asked to sit down at the bench.
type wish struct{ plain, practice bool }

// seat is what a front stands on.
type seat struct {
	home     string // home has the maker's recipes and workshop.
	now      func() timer.Moment
	speed    func() float64
	ledger   *ledger.Ledger
	practice front.Practice
}

// sit opens the store and runs the front that fits the terminal.
func (a *app) sit(how wish) error {
	s := seat{speed: func() float64 { return a.speed }}
	var err error
	if s.now, err = a.now(); err != nil {
		return err
	}
	if s.home, err = a.home(); err != nil {
		return err
	}
	folder, end := s.home, func() error { return nil }
	if how.practice {
		if folder, end, err = a.practise(&s); err != nil {
			return failed(err)
		}
	}
	opened := a.saysIfSlow("the store is slow to open: a busy disk, or another program at it")
	store, err := journal.Open(folder, journal.Options{})
	opened()
	if err != nil {
		return failed(errors.Join(err, end()))
	}
	s.ledger = ledger.Of(store, folder)
	err = a.sitDown(how, s)
	return failed(errors.Join(err, store.Close(), end()))
}

// saysIfSlow says what is waited for, if done is not called within a second: a
// start must not look dead. After done it says nothing any more.
func (a *app) saysIfSlow(what string) (done func()) {
	said := make(chan struct{})
	late := time.AfterFunc(time.Second, func() {
		defer close(said)
		_, _ = fmt.Fprintln(a.err, "bench:", what)
	})
	return func() {
		if !late.Stop() {
			<-said
		}
	}
}

// sitDown runs the screen where there is one, and else what can be read line by
// line: a talk if it was asked for or the terminal can do no more, or a list.
func (a *app) sitDown(how wish, s seat) error {
	terminal := isTerminal(a.in) && isTerminal(a.terminal)
	switch {
	case how.plain || terminal && a.getenv("TERM") == "dumb":
		return a.talk(s)
	case !terminal:
		return plain.List(a.plainDeps(s))
	}
	return a.screen(s)
}

// practise makes a folder for facts that nobody keeps, and a clock whose speed
// can be chosen; end takes the folder away again.
func (a *app) practise(s *seat) (folder string, end func() error, err error) {
	c, err := a.setClock()
	if err != nil {
		return "", nil, err
	}
	if folder, err = os.MkdirTemp("", "bench-practice-"); err != nil {
		return "", nil, fmt.Errorf("no folder for the practice: %w", err)
	}
	s.now, s.practice = func() timer.Moment { return c.Now().Fixed() }, front.Practice{Speed: c.Pace, Turn: c.Turn, Forward: c.Forward}
	s.speed = func() float64 { return float64(c.Pace()) }
	return folder, func() error {
		if err := os.RemoveAll(folder); err != nil {
			return fmt.Errorf("the practice was not taken away: %w", err)
		}
		_, err := fmt.Fprintln(a.out, "Practice is over: nothing of it is kept. Your own batches are as they were.")
		return err
	}, nil
}

// talk runs the batch line by line. A signal ends it like the end of the input:
// what is being kept is kept, and the batch is let go.
func (a *app) talk(s seat) error {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM, syscall.SIGHUP, syscall.SIGPIPE)
	defer stop()
	d := a.plainDeps(s)
	d.Stop = ctx.Done()
	return plain.Run(d)
}

func (a *app) plainDeps(s seat) plain.Deps {
	width := 0
	if isTerminal(a.terminal) {
		width = ink.MinWidth - 1
	}
	var bell func()
	if isTerminal(a.terminal) {
		bell = func() { _, _ = io.WriteString(a.raw, "\a") } // A terminal that is gone is told by the next line.
	}
	return plain.Deps{
		Bell: bell, Manner: func() recipe.Manner { return a.manner(s.home) },
		In: a.in, Width: width, Out: a.raw, Echo: !isTerminal(a.in),
		Location: time.Local, Now: s.now,
		Wait:    func(d time.Duration) <-chan time.Time { return time.After(time.Duration(float64(d) / s.speed())) },
		Recipes: func() []front.RecipeItem { return documents.Items(s.home, s.ledger.SticksUsed) },
		Store:   s.ledger,
		Texts: plain.Texts{
			Plan: paper.PlanText,
			Record: func(code string, state batch.State) string {
				r, err := s.ledger.Record(code, state)
				if err != nil {
					return r.Text() + "\nNot all could be read: " + err.Error() + "\n"
				}
				return r.Text()
			},
			Why: func(state batch.State) string { return paper.WhyText(why.Of(state)) },
		},
		Practice: s.practice,
	}
}
