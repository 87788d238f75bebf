package plain

import (
	"slices"
	"strconv"
	"strings"

	"bench/internal/batch"
	"bench/internal/reply"
)

// correct replaces the value of an entry. The first value stays in the record.
func (s *session) correct(number string) {
	if s.plan.Closed {
		s.warn("The batch is closed: only notes, complaints and where bars went can be added.")
		return
	}
	if number == "" {
		for _, e := range s.state.Entries {
			if reply.Correctable(e.Fact) && !s.state.Withdrawn(e.Seq) {
				s.sayf("  %d  %s", e.Seq, reply.Said(s.plan, s.state, e))
			}
		}
		number, _ = s.ask("number of the entry, or nothing to go back")
	}
	if number == "last" {
		number = strconv.Itoa(s.lastEntry(reply.Correctable))
	}
	n, err := strconv.Atoi(number)
	switch {
	case number == "":
		return
	case err != nil || n < 1 || n > len(s.state.Entries):
		s.warn("There is no entry " + number + ".")
		return
	case !reply.Correctable(s.state.Entries[n-1].Fact):
		s.warn("This entry holds no value. A note can say what was wrong.")
		return
	}
	s.newValue(n)
}

// lastEntry gives the number of the last entry of a kind that was not taken back,
// or 0.
func (s *session) lastEntry(is func(batch.Fact) bool) int {
	for _, e := range slices.Backward(s.state.Entries) {
		if is(e.Fact) && !s.state.Withdrawn(e.Seq) {
			return e.Seq
		}
	}
	return 0
}

// takeBack takes an entry back, with the reason: the one whose number comes first,
// or the last that can be.
func (s *session) takeBack(rest string) {
	number, why, _ := strings.Cut(rest, " ")
	seq, err := strconv.Atoi(number)
	if err != nil {
		why, seq = rest, s.lastEntry(func(f batch.Fact) bool { return batch.Task(f) != "" })
	}
	if seq < 1 || seq > len(s.state.Entries) {
		s.warn("There is no such entry to take back.")
		return
	}
	if _, word := reply.TakeBack(s.code, s.plan, seq, "?", s.now()); word != "" {
		s.warn(word)
		return
	}
	e := s.state.Entries[seq-1]
	s.sayf("Entry %d: %s", e.Seq, reply.Said(s.plan, s.state, e))
	if why = strings.TrimSpace(why); why == "" {
		why, _ = s.ask("why it is taken back, or nothing to go back")
	}
	if why == "" {
		s.say("Nothing was kept.")
		return
	}
	s.perform(reply.TakeBack(s.code, s.plan, seq, why, s.now()))
}

// newValue asks for the value, twice when it looks like a slip, and then for the
// reason.
func (s *session) newValue(seq int) {
	entry := s.state.Entries[seq-1]
	s.sayf("Entry %d: %s", seq, reply.ValuePrompt(s.plan, s.state, entry))
	var doubt *reply.Doubted
	for {
		value, ok := s.ask("new value, or nothing to go back")
		if !ok || value == "" {
			return
		}
		var word string
		doubt, word = reply.NewValue(s.state, s.plan, seq, value, doubt, s.now())
		switch {
		case word != "":
			s.warn(word)
			continue
		case doubt != nil:
			s.warn(doubt.Asks())
			continue
		}
		why, ok := s.ask("why")
		if ok && why != "" {
			s.perform(reply.Correct(s.code, s.state, s.plan, seq, value, why, s.now()))
		} else {
			s.say("Nothing was kept: a correction needs its reason.")
		}
		return
	}
}
