package batch

import (
	"maps"
	"slices"
	"time"

	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/timer"
)

// State is what is known of a batch: a value, folded from its facts. The zero
// State is a batch that has not begun.
type State struct {
	Control recipe.Control
	Entries []Entry // Entries are all facts in order, corrections and first values included.

	weighed map[string][]Weighing
	done    map[string]Done
	gross   map[string]Grossing
	temps   map[string]Reading
	timers  map[string]TimerWord
	decided map[string][]Decision
	closed  bool
	stopped *Stopped
	after   []Entry // after are the facts that follow the pour, as they now stand.

	replaced []Replacement
	answered map[asked]bool
	looks    []Look
}

// Weighing is one weighing as it now stands, with the fact it came from.
type Weighing struct {
	Fact Weighed
	Seq  int
	At   timer.Moment
}

// Grossing is a gross weight as it now stands, with the fact it came from.
type Grossing struct {
	Fact Grossed
	Seq  int
	At   timer.Moment
}

// Reading is a temperature as it now stands, with the fact it came from.
type Reading struct {
	Fact TemperatureTaken
	Seq  int
	At   timer.Moment
}

// Done says when and by which fact a task was ticked or skipped.
type Done struct {
	Seq     int
	At      timer.Moment
	Skipped string        // Skipped is the reason, when the task was not done.
	Mass    quantity.Mass // Mass was weighed with it; zero is not weighed.
	Why     string        // Why says why it was done although it was to wait.
}

// TimerWord is what was last said about a timer.
type TimerWord struct {
	Seen bool
	At   timer.Moment
	For  time.Duration
}

// Fold gives the state that the facts lead to: what Apply gives, fact by fact,
// without a copy of the state for each.
func Fold(entries []Entry) State {
	var s State
	entries = slices.Clone(entries)
	for i, e := range entries {
		s.Entries = entries[:i+1]
		if changes(e.Fact) {
			s = s.again()
		} else {
			s.take(e)
		}
	}
	return s
}

// Apply gives the state after one more fact. It is total: a fact about a task
// that no plan knows is kept and changes nothing else. The receiver stays valid.
func (s State) Apply(e Entry) State {
	next := s
	next.Entries = append(slices.Clip(s.Entries), e)
	if changes(e.Fact) {
		return next.again()
	}
	next.weighed = maps.Clone(s.weighed)
	next.done = maps.Clone(s.done)
	next.gross = maps.Clone(s.gross)
	next.temps = maps.Clone(s.temps)
	next.timers = maps.Clone(s.timers)
	next.decided = maps.Clone(s.decided)
	next.answered = maps.Clone(s.answered)
	next.take(e)
	return next
}

// With is Apply for a fact that has no number yet: it gets the next.
func (s State) With(f Fact, at timer.Moment) State {
	return s.Apply(Entry{Seq: len(s.Entries) + 1, At: at, Fact: f})
}

// take applies a fact that is not a correction to maps that this state owns.
func (s *State) take(e Entry) {
	switch f := e.Fact.(type) {
	case Started:
		s.Control = f.Control
	case Weighed:
		put(&s.weighed, f.Task, append(slices.Clip(s.weighed[f.Task]), Weighing{f, e.Seq, e.At}))
	case Ticked:
		at := e.At
		if !f.When.IsZero() {
			at = timer.Moment{Wall: f.When}
		}
		put(&s.done, f.Task, Done{Seq: e.Seq, At: at, Mass: f.Mass, Why: f.Why})
	case Skipped:
		put(&s.done, f.Task, Done{Seq: e.Seq, At: e.At, Skipped: f.Reason})
	case Grossed:
		put(&s.gross, f.Task, Grossing{f, e.Seq, e.At})
	case TemperatureTaken:
		put(&s.temps, f.Task, Reading{f, e.Seq, e.At})
	case TimerSeen:
		put(&s.timers, f.Timer, TimerWord{Seen: true, At: e.At})
	case TimerPutOff:
		put(&s.timers, f.Timer, TimerWord{At: e.At, For: f.For})
	case Closed:
		s.closed = true
	case Stopped:
		s.stopped = &f
	case Decided:
		put(&s.decided, f.Task, append(slices.Clip(s.decided[f.Task]), Decision{f, e.Seq, e.At}))
	case WarningSeen:
		put(&s.answered, asked{warning: true, about: f.Batter}, true)
	case GelLooked, UnmouldPutOff, BarsCut, BarsWeighed, SetAside, Marked, WeighedIn, Tested, Released, Held, Reworks, LimitStated, Complained, BarsWent:
		s.after = append(slices.Clip(s.after), e)
	case VesselReplaced:
		s.replaced = append(slices.Clip(s.replaced), Replacement{f, e.Seq, e.At})
	case SharedAnswered:
		put(&s.answered, asked{about: f.Shared}, true)
	case Noted:
		s.answeredIn(f.Text)
	case PotWeighed:
		s.looks = append(slices.Clip(s.looks), Look{f, e.Seq})
	case PotAnswered:
		put(&s.answered, asked{look: f.Look}, true)
	case Corrected, Withdrawn: // They are applied by again.
	}
}

func put[K comparable, V any](m *map[K]V, key K, v V) {
	if *m == nil {
		*m = map[K]V{}
	}
	(*m)[key] = v
}

// Weighings gives the weighings of a task, oldest first.
func (s State) Weighings(task string) []Weighing { return s.weighed[task] }

// Mass gives the sum that was weighed for a task, and whether the task is
// finished: no further container follows.
func (s State) Mass(task string) (sum quantity.Mass, finished bool) {
	for _, w := range s.weighed[task] {
		sum += w.Fact.Mass
		finished = !w.Fact.More
	}
	return sum, finished
}

// Done gives how a task was ticked or skipped.
func (s State) Done(task string) (Done, bool) {
	d, ok := s.done[task]
	return d, ok
}

// Gross gives the gross weight that was typed for a task.
func (s State) Gross(task string) (Grossing, bool) {
	g, ok := s.gross[task]
	return g, ok
}

// Temperature gives the temperature that was typed for a task.
func (s State) Temperature(task string) (Reading, bool) {
	t, ok := s.temps[task]
	return t, ok
}

// Timer gives what was last said about a timer.
func (s State) Timer(id string) (TimerWord, bool) {
	w, ok := s.timers[id]
	return w, ok
}

// Closed says that the batch was ended, and nothing of it stands in a vessel.
func (s State) Closed() bool { return s.closed }

// Stopped gives the last word on a batch that ended while vessels still hold something
// of it.
func (s State) Stopped() (Stopped, bool) {
	if s.stopped == nil || s.closed {
		return Stopped{}, false
	}
	return *s.stopped, true
}

// Ended says that nothing more is done of the batch, whether it is closed or only stopped.
func (s State) Ended() bool { return s.closed || s.stopped != nil }

// Begun says that the batch has its first fact.
func (s State) Begun() bool { return len(s.Entries) > 0 }

// LastDone gives the moment at which the last of several tasks was done, once all
// of them are.
func (s State) LastDone(tasks []string) (at timer.Moment, ok bool) {
	seq := 0
	for _, id := range tasks {
		d, done := s.Done(id)
		if !done {
			return timer.Moment{}, false
		}
		if d.Seq > seq {
			seq, at = d.Seq, d.At
		}
	}
	return at, true
}
