// Package steps says what to do: control recipe + facts -> the plan.
//
// The rule: Plan is one total function. The first plan, the plan after a
// deviation and the plan after a restart are the same call, and whatever is
// still to come follows from what was weighed. Targets follow from targets as
// a scale can show them, so a fact equal to its target changes nothing.
package steps

import (
	"bench/internal/calc"
	"bench/internal/fill"
	"bench/internal/form"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/sure"
	"bench/internal/timer"
)

// Plan is everything that a screen or a printout shows of a batch.
type Plan struct {
	Recipe   string
	Loaves   int
	Mould    recipe.Mould
	Oils     quantity.Mass // Oils is the sum over all batters.
	Batters  []Batter
	Layers   []Layer // Layers are listed from the floor up.
	Stages   []Stage // Stages are in the order in which they are worked.
	Timers   []timer.Timer
	Warnings []string
	Closed   bool
	Balance  Balance

	Deviations []Deviation // Deviations are weights that were off, until it is decided how to go on.
	Holds      []Hold      // Holds are why the bars may not leave yet.
	Unread     []Unread    // Unread are those holds that nobody has read.

	planner *planner // planner works out what only some plans are asked.
}

// Amount is one ingredient: what is asked, and what there is.
type Amount struct {
	Name   string
	Task   string // Task is the id of its weighing.
	Target quantity.Mass
	Mass   quantity.Mass // Mass is what was weighed, or else the target.
	Known  bool          // Known says that it was weighed.
	ByEye  bool
}

// Batter is one pot's worth, as targets and facts now have it.
type Batter struct {
	Name          string
	Oils          []Amount
	Alkali        []Amount
	Water         Amount
	Additives     []Amount
	Mass          quantity.Mass // Mass is all that ends up in the soap, colours and scents included.
	Density       float64       // Density is in g/mL.
	Concentration float64       // Concentration of the lye solution, a fraction.
	Asked         quantity.Ratio
	Superfat      calc.Superfat
	Account       sure.Account        // Account is what the superfat is worked out from.
	Widens        []calc.Contribution // Widens says what makes the band wide, most first.
	MixAt         quantity.Temperature
	Peak          calc.Estimate // Peak is how hot the lye solution is expected to get; zero if that is not known.
	Own           []Own         // Own lists the values that the maker stated.
}

// Own is a value that the maker stated, in words.
type Own struct{ Name, Value, From string }

// Layer is one pour into every loaf.
type Layer struct {
	Name     string
	Batter   string
	Trace    recipe.Trace
	Mass     quantity.Mass // Mass leaves the pot for this layer, what clings to vessels included.
	Oils     quantity.Mass // Oils is the share of the batter's oils that this layer holds.
	Colours  []Amount
	Scents   []Scent
	Place    recipe.Place // Place is where its scents are stirred in.
	PlaceWhy string
	Loaves   []LoafPour
	Surface  quantity.Length // Surface is the finished height above the floor, the mean of the loaves.
	PourLine quantity.Length // PourLine is the height before this layer's embeds go in.
	Rim      quantity.Length // Rim is from the rim down to the pour line.

	Displaced []fill.Displaced // Displaced is what embeds take of its room in the first loaf.
	Left      quantity.Mass    // Left is what should stay in the vessel once every loaf has its part.
	LeftReads quantity.Mass    // LeftReads is that with the vessel; zero if its tare is not known.
	LeftIn    string
}

// ScentedIn says where a layer's scents are stirred in: the vessel that holds all of
// the layer, which of a shared pot is a jug, or what is not in it yet or any more.
func (l Layer) ScentedIn() string {
	if l.Place == recipe.InPot {
		return l.LeftIn
	}
	return "the " + string(l.Place)
}

// Scent is a layer's fragrance or essential oil.
type Scent struct {
	Amount
	Place    recipe.Place
	Portions []quantity.Mass // Portions are the loaves' shares.
	Stays    quantity.Mass   // Stays is what remains in the vessel with its batter; with the portions it is Mass.
}

// LoafPour is what one loaf gets of a layer. Of a sloped surface the heights are
// those in the middle of the mould; Face has all of it.
type LoafPour struct {
	Mass     quantity.Mass // Mass goes into the mould.
	PourLine quantity.Length
	Rim      quantity.Length
	Surface  quantity.Length
	Poured   bool
	Face     form.FaceLayer
}

// Sloped tells whether the mould is propped for the layer.
func (l LoafPour) Sloped() bool { return l.Face.PourLine.Slope != 0 }

// Kind is what a stage is for. The words are part of the JSON contract.
type Kind string

// The kinds of stage.
const (
	SetOut       Kind = "set out"
	LyeSolution  Kind = "lye solution"
	Oils         Kind = "oils"
	ColourOils   Kind = "colour the oils"
	WetColours   Kind = "wet the colours"
	ScentOut     Kind = "weigh out the scent"
	ScentOils    Kind = "scent the oils"
	Gate         Kind = "temperature gate"
	LyeIntoOils  Kind = "lye solution into the oils"
	TraceStage   Kind = "trace"
	SplitLayers  Kind = "split by layer"
	ColourBatter Kind = "colour the batter"
	ScentPot     Kind = "scent the pot"
	Split        Kind = "split"
	Pour         Kind = "pour"
	ScentAndPour Kind = "scent and pour"
	HoldEmbeds   Kind = "wait until embeds stay put"
	Embeds       Kind = "embeds"
	StandEmbeds  Kind = "stand embeds"
	HoldLayer    Kind = "wait until firm"
	MicaLine     Kind = "mica line"
	Texture      Kind = "texture"
	Cover        Kind = "cover"
	CleanUp      Kind = "clean up"
	Unmould      Kind = "unmould"
	GelStage     Kind = "gel"
	CutStage     Kind = "cut"
	BarsStage    Kind = "weigh the bars"
	CureStage    Kind = "cure"
	ReleaseTest  Kind = "release test"
	Release      Kind = "release"
)

// Stage is a run of tasks with one purpose.
type Stage struct {
	N         int    // N counts from 1.
	ID        string // ID is stable across replans, such as "oils/sea".
	Kind      Kind
	Batter    string
	Layer     string
	Loaf      int // Loaf counts from 1; 0 is all loaves.
	Title     string
	Why       string
	After     []string // After lists the stages that come first.
	Ordered   bool     // Ordered tasks are done from the first to the last.
	Meanwhile bool     // Meanwhile stages are offered while something sets or cools.
	Tasks     []Task
	Done      bool
	Blocked   string // Blocked says what it waits for; empty is open.
	ReadBack  string // ReadBack says, once done, what was done.
}

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
	Confirm     Do = "confirm"     // Confirm is a pause point: what was done is read back; see Plan.ReadBack.
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
	MustType  bool          // MustType tasks are answered with a value, never with a reflex.
	Scale     string
	Reads     quantity.Mass // Reads is what the scale reads to.
	Max       quantity.Mass // Max is what the scale carries.
	Parts     int           // Parts is how many weighings the scale needs for it.
	Vessel    string        // Vessel stands on the scale.
	Tare      quantity.Mass
	TareKnown bool
	SoFar     quantity.Mass   // SoFar is in the vessel already.
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

	Done    bool
	Skipped string
	Mass    quantity.Mass // Mass was weighed so far.
	ByEye   bool
	Open    bool   // Open says that it can be done now.
	Waits   string // Waits says what for, when it is not open.
	Seq     int    // Seq numbers the last fact about it.
	At      timer.Moment

	Out bool // Out comes out of its vessel again.

	later  quantity.Mass // later is what was decided since: more of it, or below zero out again.
	wanted quantity.Mass // wanted is the tolerance before the scale had its say.
}

// Remaining gives what is still to go in: the target less what several
// containers brought already, never below zero.
func (t Task) Remaining() quantity.Mass { return max(0, t.Target-t.Mass) }

// Untared gives what the scale reads when the target is reached and nobody
// tared.
func (t Task) Untared() quantity.Mass {
	if t.Do == Portion {
		return t.StopAt
	}
	return t.Tare + t.SoFar + t.Remaining()
}

// Net gives what went in when m is what the scale reads at the target with the
// vessel and all that is in it; false when m is no such reading.
func (t Task) Net(m quantity.Mass) (net quantity.Mass, untared bool) {
	near := max(t.Tolerance, t.Reads)
	if t.Do != Weigh || t.Tare == 0 || (m-t.Untared()).Abs() > near || (m-t.Remaining()).Abs() <= near {
		return 0, false
	}
	return m - t.Tare - t.SoFar, true
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

// Stage gives the stage of that id.
func (p Plan) Stage(id string) (Stage, bool) {
	for _, s := range p.Stages {
		if s.ID == id {
			return s, true
		}
	}
	return Stage{}, false
}

// Task gives the task of that id and the stage it belongs to.
func (p Plan) Task(id string) (Task, Stage, bool) {
	for _, s := range p.Stages {
		for _, t := range s.Tasks {
			if t.ID == id {
				return t, s, true
			}
		}
	}
	return Task{}, Stage{}, false
}
