package main

import (
	"errors"
	"math/rand/v2"
	"os"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/console"
	"bench/internal/judge"
	"bench/internal/ledger"
	"bench/internal/steps"
)

// Keys at random are pressed this often, unless BENCH_KEYS says otherwise (make
// keys), and the store is looked into every so many.
const (
	someKeys  = 200
	lookEvery = 20
	// remembered is how many keys back a fact may have been asked for: a busy
	// machine answers late.
	remembered = 2 * lookEvery
)

// randomKeys are what a hand, a sleeve or a cat may press; q and ctrl+c are left
// for the end.
var randomKeys = []string{
	" ", " ", " ", " ", enter, enter, enter, "0", "1", "2", "5", "9", ".", ",", "+", "b", up, down, down, "\x1b[C", "\x1b[D", "\x1b[5~", "\x1b[6~",
	neutral, neutral, esc, esc, "n", "u", "x", "e", "r", "a", "z", "c", "s", "t", "d", "w", "f", "!", "?", "/", "\t", "\x1bOP",
	"é", "世", "\x01", "\x15", "\x1b[Z", "\x1b[1;5A", "\x1b[<0;3;4M", "\x1b]11;rgb:0000/0000/0000\x1b\\", "\x1b[?1u", "   ", "jk ", "\x1b ",
}

// pastes must do nothing but where a line is being written.
var pastes = []string{" ", "\r\r\r", "q", "312.0\r", "\x1b[31m\x00\x07\u202e", "\x1b[?1049l", strings.Repeat("garbage ", 500)}

// pressed is a key with the screen that it was pressed at.
type pressed struct{ key, screen string }

// TestRandomKeys presses keys at random in a real terminal at a real store, with
// changes of size and pastes between them. The program does not fail; no fact is
// lost, none is kept that the plan refuses or that no key asked for with its task
// in sight; and there is always a way back, and out.
func TestRandomKeys(t *testing.T) {
	t.Parallel()
	n := someKeys
	if text := os.Getenv("BENCH_KEYS"); text != "" {
		var err error
		if n, err = strconv.Atoi(text); err != nil {
			t.Fatal(err)
		}
	}
	chance := rand.New(rand.NewPCG(killSeed, uint64(n)))
	m := sits(t, t.TempDir(), dawn).begins("260302A")
	seen := map[string][]batch.Entry{}
	m.agreesWith(seen, nil)
	var last []pressed
	for i := range n {
		p := pressed{"", m.Screen()}
		switch chance.IntN(30) {
		case 0:
			m.Resize(1+chance.IntN(140), 1+chance.IntN(50))
		case 1:
			m.Resize(1, 1)
		case 2, 3:
			m.Resize(80, 24)
		case 4:
			m.Send("\x1b[200~" + pastes[chance.IntN(len(pastes))] + "\x1b[201~")
		case 5, 6, 7, 8, 9, 10, 11, 12, 13, 14: // What is asked for, so that the batch goes on.
			p.key = m.goesOnWith(p.screen)
			m.Send(p.key)
		default:
			p.key = randomKeys[chance.IntN(len(randomKeys))]
			m.Send(p.key)
		}
		m.settles(p.screen)
		last = append(last[max(0, len(last)-remembered):], p, pressed{"", m.Screen()})
		if i%lookEvery == lookEvery-1 {
			m.agreesWith(seen, last)
		}
	}
	m.Resize(80, 24)
	m.Wait("way home", func() bool {
		m.Send(esc)
		m.settles(m.Screen())
		return console.Holds(m.Screen(), "Under way") && console.Holds(m.Screen(), "Recipes")
	})
	m.agreesWith(seen, last)
	m.Send("q")
	if code := m.Exit(); code != exitClean {
		t.Errorf("exit status %d:\n%s", code, m.Screen())
	}
	m.Restored()
	m.agreesWith(seen, last)
	kept := 0
	for _, entries := range seen {
		kept += len(entries)
	}
	t.Logf("%d keys made %d facts in %d batches", n, kept, len(seen))
	if kept < 2 {
		t.Error("the keys made no fact: nothing was tried")
	}
}

// goesOnWith gives the keys that lead back to the batch, or do what it asks for
// next.
func (m *maker) goesOnWith(screen string) string {
	task, ok := m.knows("260302A").next()
	switch {
	case !ok || console.Holds(screen, "Where you were") || console.Holds(screen, "Recipes"):
		return enter
	case !console.Holds(screen, start(task.Title)):
		return esc
	case asked(task) != "":
		return asked(task) + enter
	}
	return neutral + " "
}

// settles gives the program a moment to answer a key, which may change nothing.
func (m *maker) settles(before string) {
	for range 12 {
		time.Sleep(5 * time.Millisecond)
		if m.Screen() != before {
			break
		}
	}
	m.sleeps(rest)
}

// agreesWith holds the store to what it was seen to have, and every fact that is
// new to one that the plan allows and a key asked for.
func (m *maker) agreesWith(seen map[string][]batch.Entry, last []pressed) {
	m.t.Helper()
	for _, code := range codes(m.t, m.home) {
		entries, before := kept(m.t, m.home, code), seen[code]
		if len(entries) < len(before) || !reflect.DeepEqual(facts(entries[:len(before)]), facts(before)) {
			m.t.Fatalf("batch %s: %d facts are not those that it had", code, len(before))
		}
		for at := max(1, len(before)); at < len(entries); at++ {
			state := batch.Fold(entries[:at])
			e := entries[at]
			if err := judge.Allows(steps.Of(state), e.Fact, e.At); err != nil {
				m.t.Errorf("kept %+v: %v", e.Fact, err)
			}
			if !wasAskedFor(e.Fact, steps.Of(state), last) {
				m.t.Errorf("nobody asked for %+v; the screen:\n%s", e.Fact, m.Screen())
			}
		}
		seen[code] = entries
	}
}

// codes gives every batch of a store.
func codes(t testing.TB, home string) []string {
	t.Helper()
	var list []string
	reads(t, home, func(l *ledger.Ledger) error {
		under, err1 := l.Batches()
		closed, err2 := l.Closed("")
		for _, b := range slices.Concat(under, closed.Batches) {
			list = append(list, b.Code)
		}
		return errors.Join(err1, err2)
	})
	return list
}

// wasAskedFor says whether a key was pressed lately that makes such a fact, and
// whether a screen showed what it is about.
func wasAskedFor(f batch.Fact, plan steps.Plan, last []pressed) bool {
	keys, words := enter, ""
	switch f := f.(type) {
	case batch.TimerSeen:
		keys, words = "a", "a seen"
	case batch.TimerPutOff:
		keys, words = "zxc", "later:"
	default:
		if id := reflect.ValueOf(f).FieldByName("Task"); id.IsValid() {
			keys = enter + " +bs"
			if t, _, ok := plan.Task(id.String()); ok {
				words = start(t.Title)
			}
		}
	}
	pressed, shown := false, words == ""
	for _, p := range last {
		pressed = pressed || strings.ContainsAny(p.key, keys)
		shown = shown || console.Holds(p.screen, words) || strings.Contains(p.screen, words)
	}
	return pressed && shown
}
