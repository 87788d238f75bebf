package plain

import (
	"slices"
	"strconv"
	"strings"

	"bench/internal/batch"
	"bench/internal/front"
	"bench/internal/phrase"
	"bench/internal/quantity"
	"bench/internal/reply"
	"bench/internal/say"
	"bench/internal/steps"
)

// goHome reads and lists the batches under way and the recipes.
func (s *session) goHome() {
	batches, err := s.Store.Batches()
	s.batches = nil
	for _, b := range batches {
		s.batches = append(s.batches, front.Planned(b))
	}
	s.recipes = s.Recipes()
	if s.Manner != nil {
		s.manner = s.Manner()
	}
	s.say("")
	s.say("Under way:")
	if len(batches) == 0 {
		s.say("  no batch; choose a recipe to begin one")
	}
	if len(batches) == 0 && err == nil && !s.Practice.On() && s.Store.Empty() {
		s.say("  " + reply.Newcomer)
	}
	for i, b := range s.batches {
		s.sayf("  %d  %s  %s: %s", i+1, b.Code, b.Plan.Recipe, s.whereAt(b))
	}
	if err != nil {
		s.warn("Not all could be read: " + err.Error())
	}
	s.say("Recipes:")
	for i, r := range s.recipes {
		s.listRecipe(len(s.batches)+i+1, r)
	}
}

// whereAt says who else has a batch, or what is next in it and what was last.
func (s *session) whereAt(b front.UnderWay) string {
	where := reply.WhereAt(b, s.now())
	switch {
	case b.HeldBy != "":
		return "! " + b.HeldBy
	case b.Left != "":
		where = b.Left + "; " + where
	}
	if n := len(b.State.Entries); n > 0 {
		where += "; last " + s.stamped(b.State.Entries[n-1], b.Plan, b.State)
	}
	return where
}

// stamped is a fact with its time.
func (s *session) stamped(e batch.Entry, p steps.Plan, state batch.State) string {
	return phrase.Stamp(e.At, s.now(), s.Location) + " " + say.Fact(e, p, state)
}

func (s *session) listRecipe(n int, r front.RecipeItem) {
	if len(r.Problems) > 0 {
		s.sayf("  %d  %s: cannot be started, %s to mend", n, r.Name, quantity.Count(len(r.Problems), "problem", "problems"))
		return
	}
	whose := "your own"
	if r.BuiltIn {
		whose = "built in"
	}
	s.sayf("  %d  %s: %s, %s", n, r.Name, quantity.Count(r.Loaves, "loaf", "loaves"), whose)
}

// home asks what to open.
func (s *session) home() {
	text, ok := s.ask("number of a batch or a recipe, or help")
	n, err := strconv.Atoi(text)
	switch {
	case !ok:
	case text == "":
		s.goHome()
	case err == nil && n >= 1 && n <= len(s.batches):
		s.open(s.batches[n-1].BatchItem)
	case s.coded(text) >= 0:
		s.open(s.batches[s.coded(text)].BatchItem)
	case err == nil && n > len(s.batches) && n <= len(s.batches)+len(s.recipes):
		s.setUp(s.recipes[n-1-len(s.batches)])
	case !s.command(text):
		s.warn("Type the number or code of a batch, the number of a recipe, or a word: help lists them.")
	}
}

// coded gives which batch under way has that code, or -1.
func (s *session) coded(text string) int {
	return slices.IndexFunc(s.batches, func(b front.UnderWay) bool { return strings.EqualFold(b.Code, text) })
}

// open takes hold of a batch, or reads it along while somebody else has it.
func (s *session) open(b front.BatchItem) {
	entries, err := s.Store.Open(b.Code, s.now())
	if err == nil {
		s.toBench(b.Code, entries)
		s.whereYouWere()
		return
	}
	s.warn("Batch " + b.Code + " was not opened: " + err.Error())
	if b.HeldBy == "" {
		return
	}
	if entries, _, err = s.Store.Follow(b.Code); err == nil {
		s.say("Reading along, it stands like this:")
		s.lastFacts(batch.Fold(entries), 5)
	}
}

func (s *session) toBench(code string, entries []batch.Entry) {
	s.code, s.state = code, batch.Fold(entries)
	s.plan = steps.Of(s.state)
	s.beside = front.Occupied(s.batches, code)
}

// closed lists the batches that are closed and have all the words, and opens one:
// notes, complaints and where bars went can still be said. Those under way that have the
// words are named.
func (s *session) closed(words string) {
	past, err := s.Store.Closed(words)
	if err != nil {
		s.warn("Not all could be read: " + err.Error())
	}
	titles := make([]string, len(past.Batches))
	for i, b := range past.Batches {
		titles[i] = b.Code + "  " + b.State.Control.Recipe.Name
		if way := past.Way(b.Code); way != "" {
			titles[i] += ", " + way
		}
	}
	for _, code := range past.UnderWay {
		line := "Not closed, with " + words + ": " + code
		if way := past.Way(code); way != "" {
			line += ", " + way
		}
		s.say(line)
	}
	if past.More {
		s.say("There are older ones: say more words, such as closed lighthouse.")
	}
	if n, ok := s.pick("batch", titles); ok {
		s.open(past.Batches[n])
	}
}

// other goes on with the next batch under way that nobody else has.
func (s *session) other(string) {
	batches, err := s.Store.Batches()
	if err != nil {
		s.warn("Not all could be read: " + err.Error())
	}
	at := slices.IndexFunc(batches, func(b front.BatchItem) bool { return b.Code == s.code })
	for i := range batches {
		b := batches[(at+1+i)%len(batches)]
		if b.Code == s.code || b.HeldBy != "" {
			continue
		}
		entries, err := s.Store.Open(b.Code, s.now())
		if err != nil {
			s.warn("Batch " + b.Code + " was not opened: " + err.Error())
			return
		}
		if s.code != "" {
			s.batches = append(s.board().Batches, front.Planned(b))
			s.letGo()
		}
		s.toBench(b.Code, entries)
		s.whereYouWere()
		return
	}
	s.say("No other batch is under way.")
}
