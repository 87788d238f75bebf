// Package steps says what to do: control recipe + facts -> the plan.
//
// The rule: Plan is one total function. The first plan, the plan after a
// deviation and the plan after a restart are the same call, and whatever is
// still to come follows from what was weighed. Targets follow from targets as
// a scale can show them, so a fact equal to its target changes nothing.
package steps

import (
	"slices"

	"bench/internal/calc"
	"bench/internal/form"
	"bench/internal/next"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/solution"
	"bench/internal/sure"
	"bench/internal/timer"
	"bench/internal/work"
)

// Plan is everything that a screen or a printout shows of a batch.
type Plan struct {
	Recipe   string
	Loaves   int
	Mould    recipe.Mould
	Oils     quantity.Mass // Oils is the sum over all batters.
	Batters  []Batter
	Layers   []Layer      // Layers are listed from the floor up.
	Stages   []work.Stage // Stages are in the order in which they are worked.
	Timers   []timer.Timer
	Warnings []string
	Closed   bool // Closed says that nothing more is done of it; see batch.State.Stopped.
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
	MetAt         quantity.Temperature // MetAt is what lye solution and oils gave together by their readings; zero before they met, or without one.
	Peak          solution.Estimate    // Peak is how hot the lye solution is expected to get; zero if that is not known.
	Own           []Own                // Own lists the values that the maker stated.
}

// Ingredients are what a batter is weighed together from, colours and scents left out.
func (b Batter) Ingredients() []Amount {
	return slices.Concat(b.Oils, b.Alkali, []Amount{b.Water}, b.Additives)
}

// Weighed says that its oils, its alkali and its water were all weighed, or left out.
func (b Batter) Weighed() bool {
	return !slices.ContainsFunc(slices.Concat(b.Oils, b.Alkali, []Amount{b.Water}), func(a Amount) bool { return !a.Known })
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

	Left      quantity.Mass // Left is what should stay in the vessel once every loaf has its part.
	LeftReads quantity.Mass // LeftReads is that with the vessel; zero if its tare is not known.
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
	Reads    quantity.Mass   // Reads is what the scale reads to that weighs it.
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

// Stage gives the stage of that id.
func (p Plan) Stage(id string) (work.Stage, bool) {
	for _, s := range p.Stages {
		if s.ID == id {
			return s, true
		}
	}
	return work.Stage{}, false
}

// Task gives the task of that id and the stage it belongs to.
func (p Plan) Task(id string) (work.Task, work.Stage, bool) {
	for _, s := range p.Stages {
		for _, t := range s.Tasks {
			if t.ID == id {
				return t, s, true
			}
		}
	}
	return work.Task{}, work.Stage{}, false
}

// Title gives a task's words, or its id where the plan no longer has it.
func (p Plan) Title(id string) string {
	if t, _, ok := p.Task(id); ok {
		return t.Title
	}
	return id
}

// About names the layer, the batter or the stage that a task belongs to.
func (p Plan) About(task string) string {
	_, st, ok := p.Task(task)
	switch {
	case !ok:
		return ""
	case st.Layer != "":
		return st.Layer + ": "
	case st.Batter != "":
		return st.Batter + ": "
	default:
		return st.Title + ": "
	}
}

// Next gives the one task that is next, or false when there is nothing to do: the
// batch is finished, or waits for a timer.
func (p Plan) Next(now timer.Moment) (task string, ok bool) {
	if p.Closed {
		return "", false
	}
	return next.Among{Stages: p.Stages, Timers: p.Timers, State: p.State()}.Task(now)
}

// Finished says that every task is done.
func (p Plan) Finished() bool {
	for _, st := range p.Stages {
		if !st.Done {
			return false
		}
	}
	return len(p.Stages) > 0
}
