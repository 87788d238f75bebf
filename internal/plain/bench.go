package plain

import (
	"fmt"
	"strconv"
	"strings"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/phrase"
	"bench/internal/reply"
	"bench/internal/steps"
	"bench/internal/work"
)

// bench asks for the task at hand. The answer belongs to the task that was in the
// prompt, whatever has fallen due meanwhile.
func (s *session) bench() {
	s.settle()
	t, stage, some := s.plan.Task(s.task)
	prompt := "nothing to do just now, or help"
	if some {
		prompt = s.promptFor(t)
	}
	if key := s.code + " " + s.task; s.shown != key {
		s.shown = key
		s.describe(t, stage, some)
	}
	text, ok := s.askUntil(prompt, func() bool { return !some && s.comesUp() })
	switch {
	case !ok:
	case text == "":
		s.shown = ""
	case some && isAnswer(t, stage, text):
		s.answer(t, text)
	case !s.command(text):
		s.notUnderstood(t, some)
	}
}

// settle takes up what is next, unless the person went elsewhere.
func (s *session) settle() {
	before := s.task
	s.task = s.cursor
	if s.task == "" {
		s.task, _ = s.plan.Next(s.now())
	}
	if s.task != before {
		s.doubt = nil
	}
}

// comesUp says that something is to be done where nothing was.
func (s *session) comesUp() bool {
	_, some := s.plan.Next(s.now())
	return some
}

// isAnswer says that a line is meant for the task: it begins with a figure, and
// the task takes one. A choice is picked by its number.
func isAnswer(t work.Task, stage work.Stage, text string) bool {
	figure := strings.ContainsAny(text[:1], "0123456789.,-")
	return figure && (t.Numeric() || stage.TakesWeight(t) && t.Open || t.Do == work.Choose && (t.Open || reply.Again(t, stage)))
}

func (s *session) notUnderstood(t work.Task, some bool) {
	switch {
	case some && t.Numeric():
		s.warn("That is neither a figure nor a word: help lists the words.")
	case some:
		s.warn("Done is said with the word done, or =; help lists the words.")
	default:
		s.warn("That is no word here: help lists them.")
	}
}

// answer makes an answer of a line.
func (s *session) answer(t work.Task, text string) {
	if t.Do == work.Choose {
		number, warm, _ := strings.Cut(text, " ")
		list, warm, err := ofLoaf(s.plan, judge.Choices(s.plan, t.ID, ""), warm)
		if err != nil {
			s.warn(phrase.Sentence(err))
			return
		}
		s.choose(list, number, warm)
		return
	}
	a := judge.Answer{How: batch.Typed, Text: text, Now: s.now().Wall}
	if some, more := strings.CutSuffix(text, "+"); more {
		if t.Do != work.Weigh {
			s.warn("This comes from one vessel: leave the + out.")
			return
		}
		a.Text, a.More = strings.TrimSpace(some), true
	}
	s.reply(t, a)
}

// ofLoaf makes answers those of one loaf, where a line names one ("4 loaf 2 78"), and gives
// what is left of the line.
func ofLoaf(p steps.Plan, list []judge.Choice, words string) ([]judge.Choice, string, error) {
	words = strings.TrimSpace(words)
	loaf := 0
	if rest, named := strings.CutPrefix(words, "loaf "); named {
		number, rest, _ := strings.Cut(strings.TrimSpace(rest), " ")
		n, err := strconv.Atoi(number)
		if err != nil || n < 1 {
			return nil, "", fmt.Errorf("%q is no loaf: write it like 4 loaf 2", number)
		}
		loaf, words = n, strings.TrimSpace(rest)
	}
	for i := range list {
		list[i] = judge.OfLoaf(p, list[i], loaf)
	}
	return list, words, nil
}

// asAsked says that it is done, or that the scale shows what was asked.
func (s *session) asAsked(string) {
	t, _, some := s.plan.Task(s.task)
	switch {
	case !some:
		s.say("There is nothing to do just now.")
	case t.Do == work.Choose:
		s.warn("Choose one of the answers by its number.")
	case s.doubt != nil:
		s.warn("Type it a second time; go gives it up.")
	default:
		s.reply(t, judge.Answer{How: batch.AtTarget})
	}
}

func (s *session) byEye(figure string) {
	t, _, some := s.plan.Task(s.task)
	if !some || t.Do != work.Weigh && t.Do != work.Portion {
		s.warn("Nothing is weighed here.")
		return
	}
	s.reply(t, judge.Answer{How: batch.ByEye, Text: figure})
}

// reply does what becomes of an answer.
func (s *session) reply(t work.Task, a judge.Answer) {
	if q, shared := reply.AskShared(s.code, s.plan, t, s.beside); shared {
		s.perform(q, "")
		return
	}
	act, doubt, word := reply.To(s.code, s.plan, t, a, s.doubt, s.now())
	s.doubt = doubt
	if act == nil && word == "" {
		s.warn(doubt.Asks())
		return
	}
	s.perform(act, word)
}

// perform does what a reply asks for, or says why nothing was kept.
func (s *session) perform(act reply.Act, word string) {
	if word != "" {
		s.warn(word)
	}
	switch act := act.(type) {
	case reply.Keep:
		s.keep(act)
	case reply.Question:
		s.perform(s.question(act, ""), "")
	default: // Replies ask for no more than that.
	}
}

// question asks for a line of text until it will do; said is one that was said
// already.
func (s *session) question(q reply.Question, said string) reply.Act {
	if said == "" {
		s.say(q.Title)
		s.say(q.Hint)
	}
	for {
		text, ok := said, true
		if said == "" {
			text, ok = s.ask("in words, or nothing to go back")
		}
		if !ok || text == "" {
			s.say("Nothing was kept.")
			return nil
		}
		act, word := q.Make(text, s.now())
		if act != nil {
			return act
		}
		s.warn(word)
		said = ""
	}
}

// number lists titles by their numbers.
func (s *session) number(titles []string) {
	for i, t := range titles {
		s.sayf("  %d  %s", i+1, t)
	}
}

// pick asks for one of a list by its number.
func (s *session) pick(what string, titles []string) (int, bool) {
	if len(titles) == 0 {
		s.say("There is none.")
		return 0, false
	}
	s.number(titles)
	for {
		text, ok := s.ask("number of the " + what + ", or nothing to go back")
		if !ok || text == "" {
			return 0, false
		}
		if n, err := strconv.Atoi(text); err == nil && n >= 1 && n <= len(titles) {
			return n - 1, true
		}
		s.warn("Type a number from 1 to " + strconv.Itoa(len(titles)) + ".")
	}
}
