package main

import (
	"errors"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"bench/internal/batch"
	"bench/internal/documents"
	"bench/internal/front"
	"bench/internal/journal"
	"bench/internal/ledger"
	"bench/internal/timer"
	"bench/internal/ui"
	"bench/internal/ui/ink"
	"bench/internal/work"
)

// sitting is the screen over the ledger over the store, without a process
// around them: the disk below can then be made to fail at any change.
type sitting struct {
	maker
	store *journal.Store
	books *ledger.Ledger
	model tea.Model
	clock time.Time
	msgs  chan tea.Msg
}

// sitsDown opens the store with its disk under the screen.
func sitsDown(t testing.TB, home, disk string) *sitting {
	t.Helper()
	store, err := journal.Open(home, journal.Options{VFS: disk})
	if err != nil {
		t.Fatal(err)
	}
	s := &sitting{maker: maker{t: t, home: home, speed: 1e9}, store: store, books: ledger.Of(store, home), clock: dawn, msgs: make(chan tea.Msg, 100)}
	s.model = ui.New(ui.Deps{
		Theme: ink.NewTheme(ink.Bare, ink.Unknown), Location: time.UTC, Now: func() timer.Moment { return timer.Moment{Wall: s.clock} },
		Recipes: func() []front.RecipeItem { return documents.Items(home, nil) }, Store: s.books, Home: home,
	})
	s.run(s.model.Init())
	s.gets(tea.WindowSizeMsg{Width: 120, Height: 40})
	s.shows("Lighthouse at dusk", "Tide lines")
	return s
}

// run starts what a command does; its message comes back on the channel.
func (s *sitting) run(cmd tea.Cmd) {
	if cmd != nil {
		go func() { s.msgs <- cmd() }()
	}
}

// gets hands over a message, and all that follows from it while the store works.
func (s *sitting) gets(msg tea.Msg) {
	if batch, ok := msg.(tea.BatchMsg); ok {
		for _, cmd := range batch {
			s.run(cmd)
		}
		return
	}
	var cmd tea.Cmd
	s.model, cmd = s.model.Update(msg)
	s.run(cmd)
}

// settles takes what comes back until it is as wanted.
func (s *sitting) settles(what string, done func() bool) {
	s.t.Helper()
	late := time.After(2 * time.Minute)
	for !done() {
		select {
		case msg := <-s.msgs:
			s.gets(msg)
		case <-late:
			s.t.Fatalf("no %s:\n%s", what, s.model.View())
		}
	}
}

func (s *sitting) busy() bool { return s.model.(ui.Model).Busy() }

// press presses keys with time between them, and waits for the store.
func (s *sitting) press(keys string) {
	s.t.Helper()
	for _, r := range keys {
		s.clock = s.clock.Add(300 * time.Millisecond)
		key := tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}}
		switch string(r) {
		case enter:
			key = tea.KeyMsg{Type: tea.KeyEnter}
		case neutral:
			key = tea.KeyMsg{Type: tea.KeyBackspace}
		case " ":
			key = tea.KeyMsg{Type: tea.KeySpace, Runes: []rune{' '}}
		}
		s.gets(key)
		s.settles("answer of the store", func() bool { return !s.busy() })
	}
}

func (s *sitting) says(words string) bool {
	return strings.Contains(strings.Join(strings.Fields(s.model.View()), " "), words)
}

func (s *sitting) shows(words ...string) {
	s.t.Helper()
	for _, w := range words {
		s.settles(w, func() bool { return s.says(w) })
	}
}

// next waits until a new stage can be ticked, and gives the task at hand, the
// keys that answer it and the fact they make.
func (s *sitting) next() (task work.Task, keys string, f batch.Fact, more bool) {
	s.t.Helper()
	task, more = s.maker.next()
	if !more {
		return task, "", nil, false
	}
	s.clock = s.clock.Add(2 * time.Second)
	if task.Do == work.Temperature {
		s.clock = s.clock.Add(15 * time.Minute) // A lye solution takes its time to cool.
	}
	keys, f = s.keysFor(task)
	return task, keys, f, true
}

// begins starts a batch by the keys.
func (s *sitting) begins() {
	s.t.Helper()
	s.press(enter)
	s.shows("enter start the batch")
	s.clock = s.clock.Add(time.Second)
	s.gets(tea.KeyMsg{Type: tea.KeyUp})
	s.press(enter)
}

// ends lets go of the batch, whose record may still be being copied, and closes
// the store.
func (s *sitting) ends() {
	s.t.Helper()
	if err := errors.Join(s.books.Release(s.code), s.store.Close()); err != nil {
		s.t.Fatal(err)
	}
}
