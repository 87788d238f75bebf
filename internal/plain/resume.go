package plain

import (
	"fmt"
	"strings"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/reply"
	"bench/internal/resume"
	"bench/internal/steps"
	"bench/internal/work"
)

// whereYouWere restates what was last done, what is next, and what should stand on
// the scale, which is confirmed before going on.
func (s *session) whereYouWere() {
	s.say("")
	s.sayf("Batch %s, %s, %s. Where you were:", s.code, s.plan.Recipe, quantity.Count(s.plan.Loaves, "loaf", "loaves"))
	for _, e := range s.state.Entries[max(0, len(s.state.Entries)-2):] {
		s.say("LAST " + s.stamped(e, s.plan, s.state))
	}
	s.settle()
	t, stage, some := s.plan.Task(s.task)
	switch {
	case s.plan.Closed:
		return
	case !some:
		s.say("NEXT nothing to do just now")
		s.sayElsewhere()
		return
	}
	next := stage.Title + ": " + t.Title
	if number, unit := reply.Asked(t, stage); number != "" {
		next += ", " + number + " " + unit
	}
	s.say("NEXT " + next)
	s.confirmScale()
}

// confirmScale asks whether what should stand on the scale does. An empty line says
// that it is so; a reading is held against the facts.
func (s *session) confirmScale() {
	code := s.code
	s.confirming = true
	defer func() { s.confirming = false }()
	for on, ok := resume.OnScale(s.plan, s.task); ok && !s.over && s.code == code; on, ok = resume.OnScale(s.plan, s.task) {
		words := fmt.Sprintf("Now on %s: %s, with what is in it", on.Scale, on.Vessel)
		if on.Gross > 0 {
			words += "; untared it reads " + on.Gross.Reading(on.Reads)
		}
		if t, _, _ := s.plan.Task(s.task); t.Do == work.Gross {
			s.say(words + "; it is weighed next.")
			return
		}
		u, offer := reply.KeepInAlready(s.code, s.plan, s.now())
		asks := "nothing if it is so, or what it reads, g"
		if words += "."; offer != nil {
			words = reply.Found(u)
			asks = "nothing keeps " + u.Mass.Reading(u.Task.Reads) + ", no if that is not so, or what it reads, g"
		}
		s.say(words)
		text, _ := s.ask(asks)
		switch {
		case text == "" && offer != nil:
			s.perform(offer, "")
			return
		case text == "no" && offer != nil:
			return
		case text == "":
			return
		case !strings.ContainsAny(text[:1], "0123456789.,"):
			if !s.command(text) {
				s.warn("First: an empty line, if that is what stands there; or what the scale reads.")
			}
			continue
		}
		act, so, word := reply.OnScale(s.code, s.plan, s.task, text)
		s.perform(act, word)
		if so {
			return
		}
	}
}

func (s *session) lastFacts(state batch.State, most int) {
	plan := steps.Of(state)
	for _, e := range state.Entries[max(0, len(state.Entries)-most):] {
		s.say("  " + s.stamped(e, plan, state))
	}
}
