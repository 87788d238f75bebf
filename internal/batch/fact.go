// Package batch holds what happened: the facts of one batch, and the state that
// they fold into.
//
// The rule: a fact is something that was so, stamped when it was said, and is
// never edited. State follows from the facts alone; what is to be done about
// it is the business of steps.
package batch

import (
	"time"

	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/timer"
)

// Fact is one thing that happened. The set is sealed: a new kind is added here,
// in codec.go and in State.Apply.
//
//sumtype:decl
type Fact interface{ fact() }

// Started is the first fact of a batch: it freezes what the batch rests on.
type Started struct {
	Control recipe.Control
}

// How says how a weight became known.
type How string

// The ways in which a weight becomes known.
const (
	AtTarget How = "at target" // AtTarget was ticked: the scale showed what was asked.
	Typed    How = "typed"     // Typed was read from the scale and typed.
	ByEye    How = "by eye"    // ByEye was not weighed; the target stands in.
)

// Weighed says that a material went into a vessel. It keeps what was asked and
// by which instrument, so that the record can be judged later.
type Weighed struct {
	Task     string
	Material string
	Lot      string `json:",omitempty"`
	Target   quantity.Mass
	Mass     quantity.Mass
	How      How
	More     bool   `json:",omitempty"` // More says that another container follows.
	Scale    string `json:",omitempty"`
	Reads    quantity.Mass
	Vessel   string        `json:",omitempty"`
	Tare     quantity.Mass // Tare is the vessel's, empty.
	Within   quantity.Mass `json:",omitempty"` // Within is how far off it might be, either way, as it was asked; zero of an earlier fact is not known.
	// Look numbers the weighing of the vessel that found this in it already, or out of it.
	Look int `json:",omitempty"`
}

// Ticked says that a task without a number was done.
type Ticked struct {
	Task  string
	When  time.Time     `json:",omitzero"`  // When it was so, where that was corrected.
	Asked string        `json:",omitempty"` // Asked is what was asked, in words, as the plan had it then.
	Mass  quantity.Mass `json:",omitempty"` // Mass is what a loaf weighed that left its mould, or what went into one; zero was not weighed.
	Why   string        `json:",omitempty"` // Why says why it was done before its time, or although it was to wait.
}

// Grossed says what a vessel and its contents weighed together.
type Grossed struct {
	Task   string
	Vessel string
	Gross  quantity.Mass
	Tare   quantity.Mass // Tare is the vessel's, as stored or as typed.
	Scale  string        `json:",omitempty"`
	Reads  quantity.Mass
	Asked  quantity.Mass `json:",omitempty"` // Asked is what it was to weigh, as the plan had it then; zero of an earlier fact is not known.
}

// TemperatureTaken says how warm something was.
type TemperatureTaken struct {
	Task        string
	Temperature quantity.Temperature
	Asked       quantity.Temperature `json:",omitempty"` // Asked is how warm it was to be, as the plan had it then; zero of an earlier fact is not known.
}

// Skipped says that a task will not be done, and why.
type Skipped struct {
	Task   string
	Reason string
	Asked  string `json:",omitempty"` // Asked is what was asked, in words, as the plan had it then.
}

// TimerSeen acknowledges a timer.
type TimerSeen struct {
	Timer string
}

// TimerPutOff puts a timer off.
type TimerPutOff struct {
	Timer string
	For   time.Duration
}

// Noted is a note with the stage it was taken at.
type Noted struct {
	Stage string
	Text  string
}

// Corrected replaces what an earlier fact says. The first value stays in the
// record.
type Corrected struct {
	Seq    int // Seq numbers the fact that is replaced.
	Reason string
	With   Fact // With is of the same kind and about the same task.
}

// Withdrawn takes an earlier fact back: it was not so. It stays in the record, and
// counts no more.
type Withdrawn struct {
	Seq    int // Seq numbers the fact that is taken back.
	Reason string
}

// Closed ends a batch: nothing but notes follows.
type Closed struct {
	Reason string // Reason is empty when every task was done.
	Left   string `json:",omitempty"` // Left says what became of what stood in vessels.
}

// Stopped ends the work on a batch of which vessels still hold something. Once they are
// empty it is closed; said again, the last one counts.
type Stopped struct {
	Reason string // Reason is empty when every task was done.
	Left   []Left
}

// String says it in words.
func (l Left) String() string {
	how := "kept"
	if l.Emptied {
		how = "emptied"
	}
	return l.Vessel + " (" + l.Held + ") " + how + ": " + l.Answer
}

// Left says what becomes of what stands in a vessel when a batch ends.
type Left struct {
	Vessel  string
	Held    string // Held is what it held, such as "the sea lye solution".
	Emptied bool   // Emptied says that the vessel is empty and clean; else what it held is kept.
	Answer  string // Answer says how, or where and how it is marked.
}

func (Started) fact()          {}
func (Weighed) fact()          {}
func (Ticked) fact()           {}
func (Grossed) fact()          {}
func (TemperatureTaken) fact() {}
func (Skipped) fact()          {}
func (TimerSeen) fact()        {}
func (TimerPutOff) fact()      {}
func (Noted) fact()            {}
func (Corrected) fact()        {}
func (Withdrawn) fact()        {}
func (Closed) fact()           {}
func (Stopped) fact()          {}

// Entry is a fact with its number in the batch and the moment it was said.
type Entry struct {
	Seq  int
	At   timer.Moment
	Fact Fact
}

// Task gives the id of the task that a fact is about, or "".
func Task(f Fact) string {
	switch f := f.(type) {
	case Weighed:
		return f.Task
	case Ticked:
		return f.Task
	case Grossed:
		return f.Task
	case TemperatureTaken:
		return f.Task
	case Skipped:
		return f.Task
	case Corrected:
		return Task(f.With)
	case Decided:
		return "" // It asks for nothing of the task itself.
	case GelLooked:
		return f.Task
	case UnmouldPutOff:
		return f.Task
	case BarsCut:
		return f.Task
	case BarsWeighed:
		return f.Task
	case SetAside:
		return f.Task
	case Marked:
		return f.Task
	case WeighedIn:
		return f.Task
	case Tested:
		return f.Task
	case Released:
		return f.Task
	case Held:
		return f.Task
	case Reworks, LimitStated, Complained, BarsWent:
		return ""
	case Started, TimerSeen, TimerPutOff, Noted, Withdrawn, Closed, Stopped, WarningSeen, PotWeighed, PotAnswered, VesselReplaced, SharedAnswered:
		return ""
	}
	return ""
}
