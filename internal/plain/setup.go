package plain

import (
	"fmt"
	"strconv"

	"bench/internal/batch"
	"bench/internal/front"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/reply"
	"bench/internal/steps"
)

// setUp asks for the loaves and shows the worked plan before anything begins.
func (s *session) setUp(r front.RecipeItem) {
	if len(r.Problems) > 0 {
		s.warn(r.Name + " cannot be started until its problems are mended:")
		for _, p := range r.Problems {
			s.say("  " + p)
		}
		return
	}
	if r.About != "" {
		s.say(r.About)
	}
	for loaves, said := max(1, r.Loaves), 0; ; {
		control, plan, problems := resolve(r, loaves)
		if said != loaves { // Once: a slip at the prompt brings nothing new.
			s.planned(plan, problems)
			said = loaves
		}
		text, ok := s.ask(fmt.Sprintf("%s: start, another number of loaves, or nothing to go back", quantity.Count(loaves, "loaf", "loaves")))
		n, err := strconv.Atoi(text)
		switch {
		case !ok:
			return
		case text == "":
			s.goHome()
			return
		case text == "start" && len(problems) > 0:
			s.warn("It cannot be started like this.")
		case text == "start":
			s.begin(control)
			return
		case err != nil || n < 1 || n > reply.MaxLoaves:
			s.warn(fmt.Sprintf("Type start, or a number of loaves from 1 to %d.", reply.MaxLoaves))
		default:
			loaves = n
		}
	}
}

func (s *session) begin(c recipe.Control) {
	code, first, err := s.Store.Start(c, s.now())
	if err != nil {
		s.warn("The batch was not started: " + err.Error())
		return
	}
	s.toBench(code, []batch.Entry{first})
	s.say("Begun: batch " + code + ".")
}

// planned says what the plan is, or what is wrong with it.
func (s *session) planned(plan steps.Plan, problems []string) {
	for _, p := range problems {
		s.warn(p)
	}
	if len(problems) == 0 {
		s.text(s.Texts.Plan(plan))
		s.clashes(plan)
	}
}

// clashes warns of what the plan wants and other batches have. A practice has the bench
// to itself.
func (s *session) clashes(p steps.Plan) {
	if s.Practice.On() {
		return
	}
	for _, words := range p.Clashes(front.Occupied(s.batches, "")) {
		s.warn("WARNING: " + words + ".")
	}
}
