package ui

import (
	"strings"
	"testing"
	"time"

	"bench/internal/memory"
	"bench/internal/reply"
	"bench/internal/work"

	"github.com/charmbracelet/x/ansi"
)

// mayBeCut is all that a screen of a batch may cut, because it stands whole elsewhere: titles
// of stages and tasks (at hand they are whole), entries (whole in the record), what is wrong
// with a recipe (whole once it is chosen), and another batch (whole on the first screen).
func (p *person) mayBeCut() string {
	var all []string
	b := p.m.bench
	for _, st := range b.Plan.Stages {
		all = append(all, st.Title)
		for _, t := range st.Tasks {
			all = append(all, t.Title)
		}
	}
	for _, e := range b.State.Entries {
		all = append(all, reply.Said(b.Plan, b.State, e))
	}
	for _, r := range p.m.home.Recipes {
		all = append(all, r.Problems...)
	}
	for _, other := range p.m.home.Batches {
		all = append(all, other.Code+" "+other.Plan.Recipe)
	}
	return strings.Join(all, "\n")
}

// cutOff gives the ends of what is cut on the screen and may not be.
func (p *person) cutOff() []string {
	var list []string
	may := p.mayBeCut()
	for _, line := range strings.Split(ansi.Strip(p.m.View()), "\n") {
		for _, part := range strings.Split(line, "│") {
			before, _, cut := strings.Cut(part, "…")
			if !cut {
				continue
			}
			end := []rune(strings.TrimLeft(strings.TrimSpace(before), "✓▶○·→!×? 0123456789/"))
			if tail := string(end[max(0, len(end)-16):]); !strings.Contains(may, strings.TrimSpace(tail)) {
				list = append(list, tail+"…")
			}
		}
	}
	return list
}

// TestOnlyWhatIsWholeElsewhereIsCut: in the smallest full window nothing ends in the mark of a
// cut but what is read whole when it is at hand, on every screen that is kept and through whole
// batches.
func TestOnlyWhatIsWholeElsewhereIsCut(t *testing.T) {
	for _, scene := range scenes {
		p := arrives(t, memory.New())
		scene.lead(p)
		for _, end := range p.sized(80, 24).cutOff() {
			t.Errorf("%s: %q is cut:\n%s", scene.name, end, p.m.View())
		}
	}
	for i := range builtin(t) {
		p := arrives(t, memory.New())
		for range i {
			p.press("down")
		}
		p.press("enter", "enter")
		p.cutsNothing()
		if p.looks(26 * time.Hour).cutsNothing(); p.m.bench.Code != "" {
			p.sees("In cure") // Nothing of it was passed by.
		}
	}
}

// cutsNothing works as long as there is something to do, and holds each screen to that.
func (p *person) cutsNothing() {
	p.t.Helper()
	for n := 0; n < 300 && p.m.bench.Code != "" && p.task() != "" && p.taskAtHand().Do != work.Choose; n++ {
		for _, end := range p.cutOff() {
			p.t.Errorf("%s: %q is cut:\n%s", p.task(), end, p.m.View())
		}
		p.doesOne()
	}
}
