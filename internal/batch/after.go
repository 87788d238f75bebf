package batch

import (
	"time"

	"bench/internal/quantity"
	"bench/internal/timer"
)

// Said is what many facts after the pour carry besides: they may be said later
// than they were so, and a value that was doubted is kept with what was asked
// and answered.
type Said struct {
	When   time.Time `json:",omitzero"`  // When it was so, where that is not when it was said.
	Asked  string    `json:",omitempty"` // Asked is the doubt, in words.
	Answer string    `json:",omitempty"` // Answer is what the person said to it.
}

func (s Said) said() Said { return s }

// SaidOf gives what a fact carries of its day and its doubt, which is nothing for
// most kinds.
func SaidOf(f Fact) Said {
	if carries, ok := f.(interface{ said() Said }); ok {
		return carries.said()
	}
	return Said{}
}

// GelLook is what a loaf looks like while it may gel.
type GelLook string

// What a loaf may look like in the hours after the pour. The words are the
// trade's.
const (
	NoGel      GelLook = "no gel"      // NoGel is pale and even all over.
	Gelling    GelLook = "gelling"     // Gelling is dark in the middle, and spreading.
	FullGel    GelLook = "full gel"    // FullGel is dark to the edge.
	PartialGel GelLook = "partial gel" // PartialGel is dark in the middle and has stopped there.
	Cracked    GelLook = "cracked"
	Rising     GelLook = "rising" // Rising swells, splits or oozes: it overheats.
)

// GelLooked says what a look at the loaves showed. A temperature of zero was not
// taken.
type GelLooked struct {
	Task        string
	Loaves      []int `json:",omitempty"` // Loaves are which, counted from 1; none named is all of them.
	Look        GelLook
	Temperature quantity.Temperature `json:",omitempty"`
	Said
}

// UnmouldPutOff says that a loaf was too soft to leave its mould, or to be cut,
// and when it will be looked at again.
type UnmouldPutOff struct {
	Task string
	Why  string
	For  time.Duration
	Said
}

// BarsCut says how many bars a loaf gave. Planned is what the cutting plan
// asked for; Why explains a difference.
type BarsCut struct {
	Task    string
	Loaf    int // Loaf counts from 1.
	Bars    int
	Planned int
	Why     string `json:",omitempty"`
	Said
}

// BarsWeighed says what one bar weighs, or several of them together.
type BarsWeighed struct {
	Task  string
	Loaf  int `json:",omitempty"` // Loaf counts from 1; 0 is any.
	Count int
	Mass  quantity.Mass // Mass is that of all Count bars.
	Scale string        `json:",omitempty"`
	Reads quantity.Mass
	Said
}

// Piece is a second output of a batch.
type Piece string

// The second outputs.
const (
	LeftoverBatter Piece = "leftover batter"
	SampleBar      Piece = "sample bar"
	RetainedBar    Piece = "retained bar" // RetainedBar is kept for later questions, not sold.
	EndPiece       Piece = "end piece"
	Offcut         Piece = "offcut"
)

// SetAside says that something besides the bars came out of the batch. A mass of
// zero was not weighed.
type SetAside struct {
	Task  string
	Piece Piece
	Count int           `json:",omitempty"`
	Mass  quantity.Mass `json:",omitempty"`
	Lot   string        `json:",omitempty"` // Lot is what is written on it.
	Note  string        `json:",omitempty"`
	Said
}

// Marked says which code stands on the tape of a mould, or on a bar.
type Marked struct {
	Task string
	On   string // On is what carries the mark, such as "loaf 1".
	Code string
}

// WeighedIn says what a marked bar weighs in the cure.
type WeighedIn struct {
	Task  string
	Bar   string // Bar is the mark on it.
	Mass  quantity.Mass
	Scale string `json:",omitempty"`
	Reads quantity.Mass
	Said
}

func (GelLooked) fact()     {}
func (UnmouldPutOff) fact() {}
func (BarsCut) fact()       {}
func (BarsWeighed) fact()   {}
func (SetAside) fact()      {}
func (Marked) fact()        {}
func (WeighedIn) fact()     {}

// Told is a fact of one kind as it now stands, with its number and moment.
type Told[F Fact] struct {
	Fact F
	Seq  int
	At   timer.Moment
}

// Moment gives when it was so: as it was said, or else when it was said. A time
// that was only said has no boot clock.
func (t Told[F]) Moment() timer.Moment {
	if when := SaidOf(t.Fact).When; !when.IsZero() {
		return timer.Moment{Wall: when}
	}
	return t.At
}

// All gives the facts of one kind that follow the pour, as they now stand,
// oldest first by their number.
func All[F Fact](s State) []Told[F] {
	var list []Told[F]
	for _, e := range s.after {
		if f, ok := e.Fact.(F); ok {
			list = append(list, Told[F]{f, e.Seq, e.At})
		}
	}
	return list
}

// Last gives the latest fact of one kind about a task.
func Last[F Fact](s State, task string) (Told[F], bool) {
	for i := len(s.after) - 1; i >= 0; i-- {
		if f, ok := s.after[i].Fact.(F); ok && Task(f) == task {
			return Told[F]{f, s.after[i].Seq, s.after[i].At}, true
		}
	}
	return Told[F]{}, false
}

// Late says that a fact may be added to a batch that is closed.
func Late(f Fact) bool {
	switch f.(type) {
	case Noted, Complained, BarsWent, Held, Released:
		return true
	default:
		return false
	}
}
