// Package work is what there is to do, in the words that plans, screens and
// printouts share: stages, and their tasks.
//
// The rule: a task holds what a person must see and what its scale will show;
// how that was worked out is steps' affair.
package work

import "slices"

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

// TakesWeight says that the tick of a task may come with a weight: of a loaf that leaves
// its mould, or of what went into one.
func (s Stage) TakesWeight(t Task) bool { return t.Do == Tick && s.Kind == Unmould || t.Poured() }

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
	EachLoaf  bool     // EachLoaf stages begin with the first loaf that the stage before is done with.
	Meanwhile bool     // Meanwhile stages are offered while something sets or cools.
	Tasks     []Task
	Done      bool
	Blocked   string // Blocked says what it waits for; empty is open.
	ReadBack  string // ReadBack says, once done, what was done.
}

// Waits says for what a stage waits or, where it is open and none of its tasks can be
// done yet, the first of them; empty is that it can be begun.
func (s Stage) Waits() string {
	if s.Blocked != "" || slices.ContainsFunc(s.Tasks, func(t Task) bool { return t.Open }) {
		return s.Blocked
	}
	for _, t := range s.Tasks {
		if !t.Done {
			return t.Waits
		}
	}
	return ""
}
