package plain

import (
	"fmt"
	"strconv"
	"strings"

	"bench/internal/judge"
	"bench/internal/phrase"
	"bench/internal/quantity"
	"bench/internal/reply"
	"bench/internal/say"
	"bench/internal/steps"
)

func (s *session) note(text string) {
	_, stage, _ := s.plan.Task(s.task)
	s.perform(s.question(reply.Note(s.code, stage.ID), text), "")
}

func (s *session) leaveOut(why string) {
	t, _, some := s.plan.Task(s.task)
	if !some {
		s.say("There is nothing to leave out.")
		return
	}
	s.asked(why)(reply.LeaveOut(s.code, s.plan, t, s.now()))
}

// instead says that another vessel was taken than the plan names.
func (s *session) instead(which string) {
	t, _, _ := s.plan.Task(s.task)
	s.asked(which)(reply.Instead(s.code, s.plan, t, s.beside))
}

func (s *session) end(why string) { s.asked(why)(reply.End(s.code, s.plan)) }

// asked answers a question with what was said together with the word.
func (s *session) asked(said string) func(reply.Act, string) {
	return func(act reply.Act, word string) {
		if q, ok := act.(reply.Question); ok {
			act = s.question(q, said)
		}
		s.perform(act, word)
	}
}

// choose takes one of the answers by its number; warm is a temperature that goes
// with it, or "".
func (s *session) choose(list []judge.Choice, number, warm string) {
	n, err := strconv.Atoi(number)
	if err != nil || n < 1 || n > len(list) {
		s.warn("Type a number from 1 to " + strconv.Itoa(len(list)) + ".")
		return
	}
	s.takeChoice(list[n-1], warm)
}

func (s *session) takeChoice(c judge.Choice, warm string) {
	s.perform(reply.Choice(s.code, s.plan, c, warm, s.now()))
}

// choiceTitles are answers as they are listed, each with what follows from it.
func choiceTitles(list []judge.Choice) []string {
	titles := make([]string, len(list))
	for i, c := range list {
		titles[i] = strings.TrimSuffix(c.Title+". "+c.Why, ". ")
	}
	return titles
}

// answers asks which of the other answers it is.
func (s *session) answers(string) {
	list := judge.Choices(s.plan, s.task, "")
	t, stage, some := s.plan.Task(s.task)
	switch {
	case !some || len(list) == 0:
		s.say("There is no other answer here.")
	case !t.Open && !reply.Again(t, stage):
		s.warn(t.Waits)
	default:
		s.pickChoice(list)
	}
}

func (s *session) afterwards(string) { s.pickChoice(judge.Afterwards(s.plan)) }

func (s *session) pickChoice(list []judge.Choice) {
	if n, ok := s.pick("answer", choiceTitles(list)); ok {
		s.takeChoice(list[n], "")
	}
}

// ways shows how to go on: the weights that were off, since a way may mend what a
// warning is about, then the warnings that are to be read once.
func (s *session) ways(string) {
	var titles []string
	for _, d := range s.plan.Deviations {
		titles = append(titles, d.Words)
	}
	for _, u := range s.plan.Unread {
		titles = append(titles, u.Brief)
	}
	if len(titles) == 0 {
		s.say(say.Settled(s.plan))
		return
	}
	at := 0
	if len(titles) > 1 {
		var ok bool
		if at, ok = s.pick("weight or warning", titles); !ok {
			return
		}
	}
	if warning := at - len(s.plan.Deviations); warning >= 0 {
		s.challenge(s.plan.Unread[warning])
		return
	}
	s.decide(s.plan.Deviations[at])
}

// challenge asks for the figure that shows that a warning was read.
func (s *session) challenge(u steps.Unread) {
	s.warn(u.Words)
	for {
		text, ok := s.ask("type " + u.Ask + ", or nothing to go back")
		if !ok || text == "" {
			return
		}
		f, err := judge.Respond(u, text)
		if err == nil {
			s.keep(reply.Keep{Code: s.code, Fact: f})
			return
		}
		s.warn(phrase.Sentence(err))
	}
}

func (s *session) decide(d steps.Deviation) {
	s.warn(d.Words)
	ways := s.plan.Ways(d)
	if len(ways) == 0 {
		s.say(reply.NoWay)
		return
	}
	titles := make([]string, len(ways))
	for i, w := range ways {
		titles[i] = fmt.Sprintf("%s. %s; %s", w.Title, w.Outcome, w.Until)
		if w.Keeps() == nil {
			titles[i] = w.Title + "; " + w.Until
		}
		if w.Default {
			titles[i] += " (usual)"
		}
	}
	n, ok := s.pick("way", titles)
	switch {
	case ok && ways[n].Look != nil && ways[n].Look.Kind == steps.WeighAgain:
		s.weighPot("")
	case ok && ways[n].Look != nil:
		s.asked("")(reply.AnswerLook(s.code, s.plan, *ways[n].Look, s.now()))
	case ok:
		if err := judge.Allows(s.plan, ways[n].Fact, s.now()); err != nil {
			s.warn(phrase.Sentence(err))
			return
		}
		s.keep(reply.Keep{Code: s.code, Fact: ways[n].Fact})
	}
}

// weighPot asks what a vessel weighs, all in all; the plan says whether that fits
// the facts.
func (s *session) weighPot(string) {
	if s.plan.Closed {
		s.warn("The batch is closed: only notes, complaints and where bars went can be added.")
		return
	}
	vessels := s.plan.Vessels()
	titles := make([]string, len(vessels))
	for i, v := range vessels {
		titles[i] = fmt.Sprintf("%s, %s, empty %s g", v.Vessel, v.Holds, v.Tare.At(v.Reads))
	}
	s.say("Put the vessel on its scale with all that is in it, untared.")
	n, ok := s.pick("vessel", titles)
	if !ok {
		return
	}
	text, _ := s.ask("what it reads, g, vessel included, or nothing to go back")
	if text == "" {
		return
	}
	m, err := quantity.ParseNumberMass(text, quantity.Gram)
	if err != nil {
		s.warn(phrase.Sentence(err))
		return
	}
	found, err := s.plan.PotCheck(vessels[n].Vessel, m)
	if err != nil {
		s.warn(phrase.Sentence(err))
		return
	}
	s.keep(reply.Keep{Code: s.code, Fact: found.Fact})
}
