package steps

import (
	"fmt"
	"slices"
	"strconv"

	"bench/internal/batch"
	"bench/internal/curing"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/timer"
	"bench/internal/work"
)

// The tasks that other rules ask about.
const (
	glovesID   = "clean up/gloves"
	WholeCure  = "cure/complete"
	alkaliTest = "test/alkali"
	LookTest   = "test/look"
	weightTest = "test/weight"
	DecideID   = "release/decide"
	mostMarked = 6 // mostMarked is how many bars are offered to be marked.
)

const gloves = "Gloves on: day-old soap can still burn. "

// rest is what follows the clean-up: gel, unmould, cut, cure, test, release.
func (p *planner) rest() []work.Stage {
	gel := p.gelLooks()
	out := p.unmould()
	out.After = []string{"clean up"}
	cut := p.cutStage()
	bars := p.barsStage()
	cure := p.cureStage()
	test := p.testStage()
	release := p.releaseStage()
	gel.After, cut.After, bars.After, cure.After = []string{"cover"}, []string{out.ID}, []string{cut.ID}, []string{cut.ID}
	test.After, release.After = []string{cure.ID}, []string{bars.ID, test.ID}
	return []work.Stage{gel, out, cut, bars, cure, test, release}
}

// do makes a task of the rest that is done when it was ticked or left out.
func (p *planner) do(do work.Do, id, title, hint string) work.Task {
	t := p.tick(id, title, hint)
	t.Do = do
	return t
}

// doneBy marks a task as answered by a fact.
func doneBy[F batch.Fact](p *planner, t work.Task) work.Task {
	if told, ok := batch.Last[F](p.s, t.ID); ok && !t.Done {
		t.Done, t.Seq, t.At = true, told.Seq, told.At
	}
	return t
}

// passedBy closes a task that was not answered in its time.
func passedBy(t work.Task, over bool, words string) work.Task {
	if over && !t.Done {
		t.Done, t.Skipped = true, words
	}
	return t
}

func (p *planner) unmouldedAny() bool {
	for loaf := range p.c.Loaves {
		if p.ticked(unmouldID(loaf)) {
			return true
		}
	}
	return false
}

func unmouldID(loaf int) string { return ofLoaf("unmould", loaf) }

func gelID(hours int) string { return fmt.Sprintf("gel/%d h", hours) }

// gelHours are when a look at the gel is due: after one hour and three, and an
// hour after each look that found it overheating (common practice, no source).
func (p *planner) gelHours() []int {
	hours := []int{1}
	for h := 2; h <= lastGelLook; h++ {
		if h == 3 || p.overheated(h-1) {
			hours = append(hours, h)
		}
	}
	return hours
}

// lastGelLook is the hour after which no look at the gel is asked for.
const lastGelLook = 12

func (p *planner) overheated(hour int) bool {
	look, ok := batch.Last[batch.GelLooked](p.s, gelID(hour))
	return ok && look.Fact.Look == batch.Rising
}

// pockets says what to look for in loaves that overheated, or "".
func (p *planner) pockets() string {
	for _, h := range p.gelHours() {
		if p.overheated(h) {
			return fmt.Sprintf("It overheated (look after %d h): search for wet or crumbly lye pockets, and do not touch them bare. ", h)
		}
	}
	return ""
}

func (p *planner) gelLooks() work.Stage {
	s := work.Stage{
		ID: "gel", Kind: work.GelStage, Title: "gel",
		Why: "Gel starts in the middle and spreads. Too hot it cracks and rises; half way it leaves a dark disc.",
	}
	if p.c.Recipe.Gel == recipe.GelPrevented {
		s.Why = "Gel is not wanted here: a dark middle means that it has begun, and wants cooling."
	}
	for _, h := range p.gelHours() {
		t := doneBy[batch.GelLooked](p, p.do(work.Choose, gelID(h), fmt.Sprintf("Look at the gel after %d h", h),
			"Dark to the edge? Cracks? Rising? Each has its remedy beside it. Type a temperature first if one was taken."))
		w, _ := p.s.Timer(fmt.Sprintf("%s%d", gelTimer, h))
		t = passedBy(t, w.Seen, "the timer was seen, and nothing was noted")
		s.Tasks = append(s.Tasks, passedBy(t, p.unmouldedAny(), "nothing was noted before the unmoulding"))
	}
	return s
}

func (p *planner) unmould() work.Stage {
	s := work.Stage{
		ID: "unmould", Kind: work.Unmould, Title: "unmould",
		Why: "When the timer says; too soft means another look later. Gloves: day-old soap can burn.",
	}
	s.Tasks = make([]work.Task, 0, p.c.Loaves)
	for loaf := range p.c.Loaves {
		s.Tasks = append(s.Tasks, p.tick(unmouldID(loaf), "Unmould loaf "+strconv.Itoa(loaf+1),
			gloves+"If it sticks or dents: s, too soft, look again in 12 h."))
	}
	return s
}

func (p *planner) cutStage() work.Stage {
	s := work.Stage{
		ID: "cut", Kind: work.CutStage, Title: "cut", Ordered: true,
		Why: "As soon as the loaf cuts clean and before it turns brittle. The cure counts from here.",
	}
	planned := p.c.BarsPerLoaf()
	hint := p.pockets() + fmt.Sprintf("Planned %s of %s, %s off each end; end pieces are not bars. Too soft to cut clean: s, look again in 12 h.",
		bars(planned), p.c.Loaf().Bar, p.c.Loaf().Near)
	s.Tasks = make([]work.Task, 0, p.c.Loaves+3)
	side := p.tick("cut/side", "Lay the loaf on its side", gloves)
	if p.hasEmbeds() {
		side.Title += ", marked end to the stop"
		side.Hint = gloves + "Turned round, every seam between embeds lies in a bar."
	}
	s.Tasks = append(s.Tasks, side)
	for loaf := range p.c.Loaves {
		t := doneBy[batch.BarsCut](p, p.do(work.Count, curing.CutTask(loaf+1), fmt.Sprintf("Cut loaf %d and count the bars", loaf+1), hint))
		t.Count = planned
		if cut, ok := batch.Last[batch.BarsCut](p.s, t.ID); ok {
			t.Counted = cut.Fact.Bars
		}
		s.Tasks = append(s.Tasks, t)
	}
	s.Tasks = append(s.Tasks,
		p.aside("cut/ends", batch.EndPiece, "Weigh the end pieces and offcuts together", "For a sample, or to be made anew. 0 is none; space is some, not weighed."),
		p.aside("cut/retained", batch.RetainedBar, "Keep one bar back, marked with the batch code", "For later questions; not for sale. Its weight, or space; 0 is none."))
	return s
}

func (p *planner) hasEmbeds() bool {
	return slices.ContainsFunc(p.c.Recipe.Layers, func(l recipe.Layer) bool { return len(l.Embeds) > 0 })
}

// aside is a second output: weighed, or only said to be there, or none.
func (p *planner) aside(id string, piece batch.Piece, title, hint string) work.Task {
	t := doneBy[batch.SetAside](p, p.do(work.Aside, id, title, hint))
	t.Material = string(piece)
	t.Scale, t.Reads, t.Max = p.bars.Name, p.bars.Reads, p.bars.Max
	if told, ok := batch.Last[batch.SetAside](p.s, id); ok {
		t.Mass, t.Counted = told.Fact.Mass, told.Fact.Count
	}
	return t
}

// moulded gives what each mould holds, embeds by their outline included.
func (p *planner) moulded() []quantity.Mass {
	embeds := quantity.Mass(0)
	for _, l := range p.c.Recipe.Layers {
		for _, e := range l.Embeds {
			embeds += quantity.FromGrams(e.Area() * p.c.Mould.Along().Millimetres() / 1000 * recipe.DefaultDoughDensity)
		}
	}
	masses := make([]quantity.Mass, p.c.Loaves)
	for loaf := range masses {
		masses[loaf] = embeds
		for i := range p.pours {
			masses[loaf] += p.pours[i].layer.Loaves[loaf].Mass
		}
	}
	return masses
}

// barMass is what a bar is expected to weigh fresh.
func (p *planner) barMass(loaf int) quantity.Mass {
	return quantity.FromGrams(p.loaves[loaf].Grams() * p.c.BarShare())
}

func (p *planner) barsStage() work.Stage {
	s := work.Stage{
		ID: "bars", Kind: work.BarsStage, Title: "weigh the bars",
		Why: "Fresh weights show the spread, and say later what the cure took.",
	}
	s.Tasks = make([]work.Task, 0, p.c.Loaves)
	for loaf := range p.c.Loaves {
		s.Tasks = append(s.Tasks, p.barsTask(ofLoaf("bars", loaf), loaf+1, "Weigh the bars of loaf "+strconv.Itoa(loaf+1)))
	}
	return s
}

// barsTask asks for the weights of a loaf's bars, one by one or several
// together; of loaf 0, of any.
func (p *planner) barsTask(id string, loaf int, title string) work.Task {
	t := p.do(work.Bars, id, title, "One by one, or t: several together (10 x 1124). Space when that is all that you weigh.")
	t.Loaf = loaf
	t.Target = p.barMass(max(0, loaf-1)) // The mean that is expected, as a guide.
	if loaf > 0 {
		if cut, ok := batch.Last[batch.BarsCut](p.s, curing.CutTask(loaf)); ok {
			t.Count = cut.Fact.Bars
		} else {
			t.Count = p.c.BarsPerLoaf()
		}
	}
	t.Scale, t.Reads, t.Max = p.bars.Name, p.bars.Reads, p.bars.Max
	for _, w := range batch.All[batch.BarsWeighed](p.s) {
		if w.Fact.Task == id {
			t.Counted, t.Mass = t.Counted+w.Fact.Count, t.Mass+w.Fact.Mass
			t.Seq, t.At = w.Seq, w.At
		}
	}
	t.Done = t.Done || t.Count > 0 && t.Counted >= t.Count
	return t
}

func (p *planner) cureStage() work.Stage {
	c := curing.Of(p.s)
	s := work.Stage{
		ID: "cure", Kind: work.CureStage, Title: "cure",
		Why: "Weeks of cure are mainly water leaving: marked bars tell when that has become slow.",
	}
	over := p.ticked(WholeCure)
	next := 1
	for _, m := range c.Marks {
		t := p.markedTask(m.Bar, fmt.Sprintf("Weigh marked bar %s", m.Bar))
		last := m.Last()
		t.Target = max(0, last.Mass)
		t.Mass, t.Seq, t.At, t.Counted = last.Mass, last.Seq, last.At, len(m.Readings)
		s.Tasks = append(s.Tasks, passedBy(t, over, ""))
		if n, err := strconv.Atoi(m.Bar); err == nil {
			next = max(next, n+1)
		}
	}
	if len(c.Marks) < mostMarked {
		title := "Mark a bar as bar " + strconv.Itoa(next) + " and weigh it"
		if len(c.Marks) > 0 {
			title = "If you like: mark another as bar " + strconv.Itoa(next) + ", too"
		}
		s.Tasks = append(s.Tasks, passedBy(p.markedTask(strconv.Itoa(next), title), over, "not marked"))
	}
	s.Tasks = append(s.Tasks, p.tick(WholeCure, "The cure is over: on to the release test", fmt.Sprintf(
		"Shortest cure %s from the cut, usual %s. Leave it out with the reason to test earlier.", timer.Words(c.Rules.Least), timer.Words(c.Rules.Usual))))
	return s
}

func (p *planner) markedTask(mark, title string) work.Task {
	t := p.do(work.WeighIn, curing.BarTask(mark), title, "Always the same bars, the same scale. t: with the day, 108.4 on 2026-12-01.")
	t.Bar, t.Target = mark, p.barMass(0) // What is expected, as a guide.
	t.Scale, t.Reads, t.Max = p.bars.Name, p.bars.Reads, p.bars.Max
	return t
}

// curedBar is what a cured bar is expected to weigh: what the marked bars weighed
// last, or zero, which is not known.
func (p *planner) curedBar() quantity.Mass {
	marks := curing.Of(p.s).Marks
	if len(marks) == 0 {
		return 0
	}
	sum := quantity.Mass(0)
	for _, m := range marks {
		sum += max(0, m.Last().Mass)
	}
	return sum / quantity.Mass(len(marks))
}

func (p *planner) testStage() work.Stage {
	s := work.Stage{
		ID: "release test", Kind: work.ReleaseTest, Title: "release test",
		Why: "A bar with free alkali burns, however well it looks.",
	}
	alkali := doneBy[batch.Tested](p, p.do(work.Measure, alkaliTest, "pH, or free alkali", fmt.Sprintf(
		"Gloves and goggles. pH of a 1 %% solution in distilled water, passed up to %.1f; or t: free alkali as 0.02 %%, passed up to %.2f %%. Strips read soap poorly; the test's own sheet and local rules come first.",
		HighestPH, MostFreeAlkali)))
	look := doneBy[batch.Tested](p, p.do(work.Choose, LookTest, "Look: no white pockets, beads, orange spots or cracks",
		"Cut one bar through the middle."))
	weight := p.barsTask(weightTest, 0, "Weigh the cured bars")
	weight.Target = p.curedBar()
	weight.Hint = "As many as you can: the label's weight rests on them. Space when that is all."
	s.Tasks = []work.Task{alkali, look, weight}
	return s
}

func (p *planner) releaseStage() work.Stage {
	t := p.do(work.Choose, DecideID, "Release the bars, or hold them", "An open warning asks for a reason, and stands in the record.")
	released, held, e := p.s.Verdict()
	if released {
		t.Done, t.Seq, t.At = true, e.Seq, e.At
	}
	s := work.Stage{
		ID: "release", Kind: work.Release, Title: "release", Tasks: []work.Task{t},
		Why: "Who releases them answers for them; safety assessment and local rules are the maker's to meet.",
	}
	if held {
		s.Title = "release: held"
		s.Why = "The bars are held: they may be tested again, made anew, or thrown away safely."
	}
	return s
}
