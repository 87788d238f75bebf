package work

import (
	"bench/internal/quantity"
	"bench/internal/timer"
)

// Do is what a task asks of the person.
type Do string

// What a task may ask. The words are part of the JSON contract.
const (
	Tick        Do = "tick"        // Tick is done and said so.
	Weigh       Do = "weigh"       // Weigh is put on a scale up to a target.
	Portion     Do = "portion"     // Portion is poured out of a vessel that stands on the scale.
	Gross       Do = "gross"       // Gross is a vessel and all that is in it.
	Temperature Do = "temperature" // Temperature is read from a thermometer.
	Look        Do = "look"        // Look is judged by eye, again and again.
	Confirm     Do = "confirm"     // Confirm is a pause point: what was done is read back; see readback.Of.
	Choose      Do = "choose"      // Choose is one of several answers; see judge.Choices.
	Count       Do = "count"       // Count is how many bars a loaf gave.
	Bars        Do = "bars"        // Bars are weighed one by one, or several together.
	Aside       Do = "set aside"   // Aside is a second output, weighed or not.
	WeighIn     Do = "weigh in"    // WeighIn is a marked bar, again and again.
	Measure     Do = "measure"     // Measure is a release test with a value.
)

// Task is one thing to do.
type Task struct {
	ID        string
	Do        Do
	Title     string // Title is the order, in the imperative.
	Signal    string // Signal is a word or two of it, to be read from afar; empty is the title's beginning.
	Hint      string // Hint is one line of how, or a caution.
	Material  string
	Lot       string
	Target    quantity.Mass
	Tolerance quantity.Mass // Tolerance is either way; zero is none.
	Loss      quantity.Mass // Loss may be missing beyond that, and is no fault.
	Lost      string        // Lost says what took that.
	MustType  bool          // MustType tasks are answered with a value, never with a reflex.
	Scale     string
	Reads     quantity.Mass // Reads is what the scale reads to.
	Max       quantity.Mass // Max is what the scale carries.
	Parts     int           // Parts is how many weighings the scale needs for it.
	Vessel    string        // Vessel stands on the scale.
	Tare      quantity.Mass
	TareKnown bool
	SoFar     quantity.Mass   // SoFar is in the vessel already; of what goes in out of its cup, in the cup.
	Into      string          // Into is where it ends up, when that is another vessel.
	PourLine  quantity.Length // PourLine is the height to pour a mould to, for an eye to see.
	Shows     string          // Shows is a number that is neither, with its unit, to be read from afar: "8 mm", "38 °C".
	StopAt    quantity.Mass   // StopAt is the reading at which to stop pouring a portion out.
	Wanted    quantity.Temperature
	Loaf      int    // Loaf counts from 1; 0 is any.
	Bar       string // Bar is the mark of a bar that is weighed in.
	Count     int    // Count is how many bars are asked for.
	Counted   int    // Counted is how many were counted, or weighed so far.
	FromCup   bool   // FromCup was weighed before, into its cup: it counts once.
	Wetted    bool   // Wetted is in its cup with oil that nobody weighed: a scale does not tell how much of it goes in.
	Out       bool   // Out comes out of its vessel again.

	Done    bool
	Again   bool // Again says that it may be read again although it is done.
	Skipped string
	Mass    quantity.Mass // Mass was weighed so far.
	ByEye   bool
	Warns   bool   // Warns says that what it found keeps bars from being released without a reason.
	Open    bool   // Open says that it can be done now.
	Waits   string // Waits says what for, when it is not open.
	Seq     int    // Seq numbers the last fact about it.
	At      timer.Moment

	Reckoned
}

// Reckoned is what only the plan reckons with; no front asks for it.
type Reckoned struct {
	Later  quantity.Mass // Later is what was decided since: more of it, or below zero out again.
	Within quantity.Mass // Within is the tolerance before the scale had its say.
}

// Remaining gives what is still to go in: the target less what several
// containers brought already, never below zero.
func (t Task) Remaining() quantity.Mass { return max(0, t.Target-t.Mass) }

// Batter is what portions are of, and what is poured over between them.
const Batter = "batter"

// OfBatter says that batter is weighed, which goes by its title: a portion, or what is
// poured back or over.
func (t Task) OfBatter() bool {
	return t.Do == Portion || t.Do == Weigh && t.Material == Batter
}

// Poured says that a task is the pour of a layer into a mould.
func (t Task) Poured() bool { return t.Do == Tick && t.Material == Batter }

// There gives what is there of it by now: what was weighed, with what was decided since.
func (t Task) There() quantity.Mass { return max(0, t.Mass+t.Later) }

// Stays gives what is to stay in the cup that a task is poured out of.
func (t Task) Stays() quantity.Mass {
	if !t.FromCup {
		return 0
	}
	return max(0, t.SoFar-t.Remaining())
}

// Part gives which part of its cup goes in, in per cent: of what is wetted, only that can
// be told.
func (t Task) Part() int {
	if t.Stays() == 0 || t.SoFar == 0 {
		return 100
	}
	return int((100*t.Remaining() + t.SoFar/2) / t.SoFar)
}

// Untared gives what the scale reads when the target is reached and nobody
// tared: of a cup that is not emptied, with what stays; of one that is, before.
func (t Task) Untared() quantity.Mass {
	switch {
	case t.Do == Portion:
		return t.StopAt
	case t.Stays() > 0:
		return t.Tare + t.Stays()
	case t.FromCup:
		return t.Tare + t.Remaining()
	}
	return t.Tare + t.SoFar + t.Remaining()
}

// Net gives what went in when m is what the scale reads at the target with the
// vessel and all that is in it; false when m is no such reading.
func (t Task) Net(m quantity.Mass) (net quantity.Mass, untared bool) {
	near := max(t.Tolerance, t.Reads)
	if t.Do != Weigh || t.Tare == 0 || t.Wetted || (m-t.Untared()).Abs() > near || (m-t.Remaining()).Abs() <= near {
		return 0, false
	}
	if t.Stays() > 0 {
		return t.Tare + t.SoFar - m, true
	}
	return t.Remaining() + m - t.Untared(), true
}

// Off gives how far off it is, where that is more than its tolerance and what may be
// lost.
func (t Task) Off() quantity.Mass {
	if off := t.Mass - t.Target; t.Tolerance > 0 && (off > t.Tolerance || -off > t.Tolerance+t.Loss) {
		return off
	}
	return 0
}

// Numeric says that the task is answered with a number.
func (t Task) Numeric() bool {
	switch t.Do {
	case Weigh, Portion, Gross, Temperature, Count, Bars, Aside, WeighIn, Measure:
		return true
	case Tick, Look, Confirm, Choose:
	}
	return false
}
