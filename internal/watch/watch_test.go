package watch

import (
	"slices"
	"strings"
	"testing"
	"time"

	"bench/internal/front"
	"bench/internal/steps"
	"bench/internal/timer"
)

// TestForemost: what is due comes first, by what it costs to miss it (the three
// priorities of IEC 62682) and that of the batch on the bench before others; what is
// only listed covers nothing that falls due within two hours.
func TestForemost(t *testing.T) {
	due := func(id string, p timer.Priority, in time.Duration) timer.Timer {
		return timer.Timer{ID: id, Start: moment(-24 * time.Hour), After: 24*time.Hour + in, Priority: p}
	}
	seen := due("seen", timer.ActNow, -time.Minute)
	seen.Seen = true
	here := []timer.Timer{
		due("days", timer.Later, 30*time.Hour),
		{ID: "up", Start: moment(-time.Minute)},
		due("hour", timer.Later, time.Hour),
		due("list", timer.Later, -time.Minute), due("soon", timer.Soon, -time.Minute), due("sooner", timer.Soon, -2*time.Minute),
		due("now", timer.ActNow, -time.Minute), seen,
	}
	there := []timer.Timer{due("list", timer.Later, -time.Minute), due("soon", timer.Soon, -time.Minute), due("now", timer.ActNow, -time.Minute)}
	board := Board{Bench: "A", Batches: []front.UnderWay{
		{BatchItem: front.BatchItem{Code: "B", HeldBy: "process 7"}, Plan: steps.Plan{Timers: there}},
		{BatchItem: front.BatchItem{Code: "A"}, Plan: steps.Plan{Timers: here}},
		{BatchItem: front.BatchItem{Code: "C"}, Plan: steps.Plan{Timers: there, Closed: true}},
	}}
	const usual = "A now, B now!, A sooner, A soon, B soon!, A hour, A list, A days, A up, B list!"
	for name, c := range map[string]struct {
		board Board
		want  string
	}{
		"by what it costs":         {board, usual},
		"a question is open":       {with(board, func(b *Board) { b.Asked = Name{"A", "days"} }), "A days, " + strings.Replace(usual, ", A days", "", 1)},
		"another bench writes it":  {with(board, func(b *Board) { b.Along = true }), strings.ReplaceAll(strings.ReplaceAll(usual, ",", "!,"), "!!", "!")},
		"at home, none is at hand": {with(board, func(b *Board) { b.Bench = "" }), "B now!, A now, A sooner, B soon!, A soon, A hour, A days, A up, B list!, A list"},
	} {
		t.Run(name, func(t *testing.T) {
			var got []string
			for _, each := range c.board.Timers(moment(0)) {
				word := each.Code + " " + each.ID
				if each.There {
					word += "!"
				}
				got = append(got, word)
			}
			if want := strings.Split(c.want, ", "); !slices.Equal(got, want) {
				t.Errorf("\n got %q\nwant %q", got, want)
			}
		})
	}
}

func with(b Board, change func(*Board)) Board {
	change(&b)
	return b
}

// TestUntilNext: a practice goes to ten seconds before what asks next, whatever its
// priority; what asks already and what counts up is no place to go to.
func TestUntilNext(t *testing.T) {
	at := func(in time.Duration) timer.Timer {
		return timer.Timer{Start: moment(-time.Hour), After: time.Hour + in}
	}
	for name, c := range map[string]struct {
		timers []timer.Timer
		want   time.Duration
	}{
		"none":            {nil, 0},
		"due already":     {[]timer.Timer{at(-time.Minute), {Start: moment(-time.Minute)}}, 0},
		"in five seconds": {[]timer.Timer{at(5 * time.Second)}, 0},
		"the nearest":     {[]timer.Timer{at(28 * 24 * time.Hour), at(-time.Minute), at(24 * time.Hour)}, 24*time.Hour - 10*time.Second},
	} {
		board := Board{Batches: []front.UnderWay{{BatchItem: front.BatchItem{Code: "A"}, Plan: steps.Plan{Timers: c.timers}}}}
		if got, ok := board.UntilNext(moment(0)); got != c.want || ok != (c.want > 0) {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
}
