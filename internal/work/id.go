package work

import (
	"strconv"
	"strings"

	"bench/internal/batch"
)

// OfLoaf makes an id that of a loaf, counted from 0.
func OfLoaf(id string, loaf int) string { return id + "/loaf " + strconv.Itoa(loaf+1) }

// LoafOf gives the number of the loaf that a task is about, counted from 1, by
// its id; 0 is none.
func LoafOf(id string) int {
	_, after, _ := strings.Cut(id, "/loaf ")
	number, _, _ := strings.Cut(after, "/")
	n, _ := strconv.Atoi(number)
	return n
}

// Ticked makes a task that is ticked, done if the facts say so.
func Ticked(s batch.State, id, title, hint string) Task {
	t := Task{ID: id, Do: Tick, Title: title, Hint: hint}
	if d, ok := s.Done(id); ok {
		t.Done, t.Skipped, t.Seq, t.At = true, d.Skipped, d.Seq, d.At
	}
	return t
}

// LookTimer begins the id of a timer that asks for a look at a layer that sets.
const LookTimer = "look/"
