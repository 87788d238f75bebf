// Package plain is the batch line by line: prompt and answer, append-only, for
// screen readers, for terminals that can do nothing else and for scripts.
//
// The rule: what is written is printable text and ends of lines, and nothing
// else; the bell is rung by whoever has one. What was said is judged by the
// functions that judge it for the screen (reply, steps), and a fact is said to be
// kept when the store has handed it back, not before.
package plain

import (
	"io"
	"time"

	"bench/internal/batch"
	"bench/internal/front"
	"bench/internal/recipe"
	"bench/internal/reply"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/uses"
	"bench/internal/watch"
)

// Deps are what the talk stands on.
type Deps struct {
	In   io.Reader
	Out  io.Writer
	Echo bool // Echo repeats what was read, where no terminal shows it.

	Width int // Width is how many cells a line takes; 0 breaks none.

	Location *time.Location
	Now      func() timer.Moment
	Wait     func(time.Duration) <-chan time.Time // Wait tells when so much time of that clock is over.
	Stop     <-chan struct{}                      // Stop is closed when a signal asks for the end.
	Bell     func()                               // Bell is rung for alarms; nil is none.
	Manner   func() recipe.Manner                 // Manner is read with the recipes; nil is none stated.
	Recipes  func() []front.RecipeItem
	Store    front.Store
	Texts    Texts
	Practice front.Practice
}

// Texts are the printouts, as bench prints them without a talk.
type Texts struct {
	Plan   func(steps.Plan) string
	Record func(code string, s batch.State) string
	Why    func(batch.State) string
}

// session is a talk: where it stands, and what it has said.
type session struct {
	Deps
	out   writer
	lines <-chan line
	over  bool // over says that the input has ended, or that leaving was asked for.

	batches []front.UnderWay
	recipes []front.RecipeItem
	told    map[string]bool // told are the alarms that were said.
	ear     watch.Ear       // ear knows which alarms have rung.
	manner  recipe.Manner

	code   string // code is the batch on the bench, or "".
	state  batch.State
	plan   steps.Plan
	beside []uses.Occupied // beside are the vessels that hold something of other batches.
	cursor string          // cursor is a task that the person went to; "" is what is next.
	task   string          // task is what the prompt asks about; time alone does not change it.
	shown  string          // shown is the task that was described last.
	doubt  *reply.Doubted  // doubt is a value that must be said a second time.

	confirming bool // confirming says that it is asked what stands on the scale.
}

// Run talks until the input ends, a signal comes or leaving is asked for. A batch
// that was open stays open.
func Run(d Deps) error {
	s := newSession(d)
	s.lines = linesOf(d.In)
	s.say("bench, line by line. Type help for the words, ! for first aid; an end of input leaves.")
	s.caution()
	if s.Practice.On() {
		s.say("This is practice: nothing of it is kept, and your own batches stay as they are. " + s.Practice.Words() + "; speed changes that.")
	}
	s.goHome()
	for !s.over {
		if s.code == "" {
			s.home()
		} else {
			s.bench()
		}
	}
	s.leave()
	return s.out.err
}

// List writes what the first screen lists, and asks nothing.
func List(d Deps) error {
	s := newSession(d)
	s.goHome()
	s.listTimers()
	return s.out.err
}

func newSession(d Deps) *session {
	return &session{Deps: d, out: writer{to: d.Out}, told: map[string]bool{}}
}

// leave lets go of the batch on the bench.
func (s *session) leave() {
	if s.code == "" {
		s.say("Left.")
		return
	}
	code, open := s.code, "stays open"
	if s.plan.Closed {
		open = "is closed"
	}
	s.letGo()
	s.sayf("Left; batch %s %s.", code, open)
}

// letGo releases the batch on the bench. No fact is lost when that fails, but
// another bench will be refused.
func (s *session) letGo() {
	if err := s.Store.Release(s.code); err != nil {
		s.warn("Batch " + s.code + " was not let go: " + err.Error())
	}
	s.code, s.state, s.plan = "", batch.State{}, steps.Plan{}
	s.cursor, s.task, s.shown, s.doubt = "", "", "", nil
}

// board gathers what runs in all batches; that on the bench is the freshest.
func (s *session) board() watch.Board {
	list := make([]front.UnderWay, 0, len(s.batches)+1)
	for _, b := range s.batches {
		if b.Code != s.code {
			list = append(list, b)
		}
	}
	if s.code != "" {
		list = append(list, front.UnderWay{BatchItem: front.BatchItem{Code: s.code, State: s.state}, Plan: s.plan})
	}
	return watch.Board{Batches: list, Bench: s.code}
}

// resolve plans a recipe for so many loaves, or says in words what is wrong.
func resolve(r front.RecipeItem, loaves int) (recipe.Control, steps.Plan, []string) {
	c, problems := r.Resolve(loaves)
	if len(problems) > 0 {
		return recipe.Control{}, steps.Plan{}, problems
	}
	return c, steps.Of(batch.State{Control: c}), nil
}
