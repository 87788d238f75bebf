package plain

import (
	"fmt"
	"strings"

	"bench/internal/reply"
	"bench/internal/timer"
)

// word is something that can be said at a prompt: a word or its key.
type word struct {
	name, key string
	about     string
	at        place
	do        func(s *session, rest string)
}

// place is where a word means something.
type place int

const (
	anywhere place = iota
	atHome
	atBench
	atTask // atTask is at the bench, once it is confirmed what stands on the scale.
	inPractice
)

// words is the table of words. Keys are those of the screen where it has them.
func words() []word {
	return []word{
		{"done", "=", "done; or the scale shows exactly what was asked", atTask, (*session).asAsked},
		{"eye", "b", "by eye, not weighed; a figure after it is kept: b 340", atTask, (*session).byEye},
		{"out", "x", "leave this task out, and why: x no scale here", atTask, (*session).leaveOut},
		{"answers", "s", "other answers to this task, such as too soft", atTask, (*session).answers},
		{"tasks", "l", "the tasks of this stage, and the stages that are open", atBench, (*session).listTasks},
		{"go", "g", "to a stage, or to a task of it: g 7, g 7.2; alone, to what is next", atTask, (*session).goTo},
		{"why", "y", "why this stage comes now; why all gives the reason of every figure", atBench, (*session).why},
		{"note", "n", "a note: n window open", atBench, (*session).note},
		{"correct", "u", "correct an entry by its number: u 12; the last one: u last", atBench, (*session).correct},
		{"takeback", "<", "take the last entry back, or one by its number, and why: < 12 wrong pot", atBench, (*session).takeBack},
		{"ways", "d", "how to go on after a weight that was off", atBench, (*session).ways},
		{"weigh", "w", "weigh a pot: is everything in, once?", atBench, (*session).weighPot},
		{"instead", "i", "another vessel was taken: i spare jug 214.0 g", atTask, (*session).instead},
		{"afterwards", "c", "complaint, where bars went, made of an earlier batch", atBench, (*session).afterwards},
		{"cure", "k", "how the bars dry", atBench, (*session).cure},
		{"plan", "p", "the worked plan, as the weights have it", atBench, func(s *session, _ string) { s.text(s.Texts.Plan(s.plan)) }},
		{"record", "r", "the whole record", atBench, func(s *session, _ string) { s.text(s.Texts.Record(s.code, s.state)) }},
		{"end", "e", "close the batch, or abandon it", atBench, (*session).end},
		{"home", "h", "let this batch go and list what there is", atBench, func(s *session, _ string) { s.letGo(); s.goHome() }},
		{"closed", "c", "the batches that are closed, by recipe, lot or note: closed lighthouse", atHome, (*session).closed},
		{"list", "l", "list again what there is", atHome, func(s *session, _ string) { s.goHome() }},
		{"other", "o", "the next batch under way", anywhere, (*session).other},
		{"timers", "t", "what runs: what, since when, due when", anywhere, func(s *session, _ string) { s.listTimers() }},
		{"seen", "a", "the alarm that was said last is seen", anywhere, (*session).seen},
		{"later", "z", "put that alarm off, for 5, 10 or 30 minutes: z 10", anywhere, (*session).later},
		{"aid", "!", "first aid and spills; ! works at any prompt", anywhere, func(s *session, _ string) { s.firstAid() }},
		{"speed", "v", "how fast the practice clock runs", inPractice, (*session).speed},
		{"forward", ">", "the practice clock to just before what is due next", inPractice, (*session).forward},
		{"help", "?", "these words", anywhere, func(s *session, _ string) { s.help() }},
		{"leave", "q", "leave; a batch stays open", anywhere, func(s *session, _ string) { s.over = true }},
	}
}

// here says whether a word means something at this prompt.
func (s *session) here(w word) bool {
	switch w.at {
	case atHome:
		return s.code == ""
	case atBench:
		return s.code != ""
	case atTask:
		return s.code != "" && !s.confirming
	case inPractice:
		return s.Practice.On()
	case anywhere:
	}
	return true
}

// command does what a line says, when it begins with a word or its key.
func (s *session) command(text string) bool {
	first, rest, _ := strings.Cut(text, " ")
	first = strings.ToLower(first)
	for _, w := range words() {
		if s.here(w) && (first == w.name || first == w.key) {
			w.do(s, strings.TrimSpace(rest))
			return true
		}
	}
	return false
}

func (s *session) help() {
	s.say("A word or its key, then enter. An empty line says again what is asked.")
	if s.code != "" {
		s.say("  a figure       what the scale shows; 100.5+ is this much, more to come from another container")
	}
	for _, w := range words() {
		if s.here(w) {
			s.out.print(printable(fmt.Sprintf("  %-10s %-3s %s\n", w.name, w.key, w.about)))
		}
	}
}

// caution stands before everything else.
func (s *session) caution() { s.warn(reply.Caution) }

func (s *session) firstAid() {
	s.say("FIRST AID. LYE BURNS.")
	for _, a := range reply.FirstAid() {
		s.say(a.On + ": " + a.Do)
	}
	s.say(reply.AidSource)
}

func (s *session) speed(string) {
	s.Practice.Turn()
	s.say(s.Practice.Words() + ".")
}

func (s *session) forward(string) {
	by, ok := s.board().UntilNext(s.now())
	if !ok || s.Practice.Forward == nil {
		s.say("Nothing falls due.")
		return
	}
	s.Practice.Forward(by)
	s.say("Put forward by " + timer.Words(by) + ".")
}
