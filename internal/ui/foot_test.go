package ui

import (
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/memory"
	"bench/internal/ui/ink"
	"bench/internal/ui/intent"
	"bench/internal/ui/keys"
	"bench/internal/work"
)

// TestFirstAidStaysInTheFoot: whatever else finds no room there, first aid does, and
// the key that clears what was typed.
func TestFirstAidStaysInTheFoot(t *testing.T) {
	const aid = "! first aid"
	p := arrives(t, memory.New()).starts().works("sea/olive").press("esc").waits(6*time.Minute).press("enter").sees("Where you were", aid)
	p.press("enter")
	for _, figure := range "1234.56" {
		p.types(string(figure)).sees("enter keep", "esc clear", aid)
	}
	p.press("esc").press("right", "right").sees(aid)
	p.press("esc").works("").sees("Nothing to do just now", aid)
	for w := 40; w < 160; w++ {
		line := keys.HelpLine(ink.NewTheme(ink.Bare, ink.Unknown), w, keys.Tick, keys.Figures, keys.Answers, keys.Back, keys.Correct, keys.Note, keys.Aid, keys.Keys)
		if !strings.Contains(line, aid) || ink.Width(line) > w || !strings.Contains(line, "tick") || !strings.Contains(line, "esc back") {
			t.Errorf("in %d cells: %q", w, line)
		}
	}
}

// TestAlarmKeysAreLettersInALine: where a note is written no key is said to answer an
// alarm, because a and z are letters of it.
func TestAlarmKeysAreLettersInALine(t *testing.T) {
	const says = "a seen z later"
	p := arrives(t, memory.New()).starts().works("dusk/shea").looks(6*time.Minute).sees("!! look at base", says)
	p.press("n").sees("!! look at base").seesNot(says).types("az").press("enter")
	if n, ok := p.last().(batch.Noted); !ok || n.Text != "az" {
		t.Errorf("kept %+v", p.last())
	}
	p.sees(says)
}

// TestNothingOnTheScale: where nothing stands on a scale no reading is asked for or
// taken; where the vessel is weighed next it is weighed once.
func TestNothingOnTheScale(t *testing.T) {
	p := arrives(t, memory.New()).starts().press("esc").waits(6*time.Minute).press("enter").sees("Nothing need stand on a scale.").seesNot("it reads otherwise", "what it reads")
	p.types("12").sees("Nothing need stand on a scale: enter goes on.").press("enter").seesNot("Where you were").recorded(0)
	for p.taskAtHand().Do != work.Gross {
		p.doesOne()
	}
	n := len(p.store.Facts(p.m.bench.Code))
	p.press("esc").waits(6*time.Minute).press("enter").sees("Where you were", "it is weighed next").seesNot("it reads otherwise").types("9").sees("enter goes on to that").press("enter").recorded(n)
}

// TestReadEarly: after a reading out of turn the next figures, typed at once, do not
// land in the task that came up by itself.
func TestReadEarly(t *testing.T) {
	p := arrives(t, memory.New()).starts()
	for _, stage, _ := p.m.bench.Current(p.moment()); stage.Kind != work.ScentOut; _, stage, _ = p.m.bench.Current(p.moment()) {
		p.doesOne()
	}
	next := p.task()
	for range 6 {
		if p.taskAtHand().ID == "sea/lye temperature" {
			break
		}
		p.press("right")
	}
	p.waits(15 * time.Minute).types("52").press("enter").types("41")
	if p.m.bench.Typed != "" || p.task() != next {
		t.Errorf("%q stands at %s:\n%s", p.m.bench.Typed, p.task(), p.m.View())
	}
	p.sees("This is another task").waits(2 * time.Second).types("41")
	if p.m.bench.Typed != "41" {
		t.Errorf("%q is typed:\n%s", p.m.bench.Typed, p.m.View())
	}
}

// TestNoTickWhereItIsRefused: where space is refused the line of keys shows the key that
// works in its place.
func TestNoTickWhereItIsRefused(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/meet").sees("enter it is so")
	n := len(p.store.Facts("26K25A"))
	p.looks(31 * time.Minute).sees("↑ read again").seesNot("it is so").press("enter").sees("again (up, and type)").recorded(n)
	p.press("up").types("38").press("enter").recorded(n + 1)

	p = arrives(t, memory.New()).starts().works("").waits(5 * time.Hour).press("down").press("right").sees("Unmould loaf 1")
	n = len(p.store.Facts("26K25A"))
	p.sees("s too soft, or before its time").seesNot("space done", "0-9 what it weighs").press("space").sees("to unmould early").recorded(n)
	p.press("s").sees("Unmould it before its time").press("esc")
	p.looks(20*time.Hour).sees("space done", "0-9 what it weighs", "s too soft")

	p = arrives(t, memory.New()).cures(1).press("enter", "enter")
	n = len(p.store.Facts("26K25A"))
	p.press("left", "down", "down", "down").sees("▶ The cure is over", "x test earlier").seesNot("space done").press("space").sees("The shortest cure is").recorded(n)
	p.sized(40, 14).sees("x test earlier").press("x").types("a trial").press("enter").recorded(n + 1)
	if f, ok := p.last().(batch.Skipped); !ok || f.Task != "cure/complete" {
		t.Errorf("kept %+v", p.last())
	}
}

// spaceAsTold holds the line of keys to what space does: where it says so, space keeps a fact
// or asks for words; where it does not, or says it in brackets, space does neither.
func (p *person) spaceAsTold() {
	p.t.Helper()
	line := p.foot()
	told := strings.Contains(line, " space ")
	_, act := p.m.bench.Update(keys.Press{KeyMsg: keyOf("space"), At: p.moment()})
	if _, page := act.(intent.Choose); (act != nil && !page) != told {
		p.t.Errorf("%s: space comes to %T, and the keys are %q:\n%s", p.task(), act, line, p.m.View())
	}
	if strings.Contains(line, "type it)") || strings.Contains(line, "…") {
		p.t.Errorf("%s: the keys are %q", p.task(), line)
	}
}

// foot is the line of keys.
func (p *person) foot() string {
	lines := strings.Split(strings.TrimRight(p.m.View(), "\n"), "\n")
	return lines[len(lines)-1]
}

// TestSpaceIsAsTold goes through whole batches, and places where a tick is refused or asked
// about, and holds the line of keys to naming what space does.
func TestSpaceIsAsTold(t *testing.T) {
	for i := range builtin(t) {
		p := arrives(t, memory.New())
		for range i {
			p.press("down")
		}
		p.press("enter", "enter")
		for range 300 {
			if p.m.bench.Code == "" || p.task() == "" {
				break
			}
			p.waits(5 * time.Second)
			p.spaceAsTold()
			p.press("right")
			p.spaceAsTold()
			p.press("esc")
			if p.task() == "" {
				break
			}
			p.doesOne()
		}
	}
	heavy := func(p *person) {
		p.starts().works("sea/sodium hydroxide")
		p.types("125").press("enter").types("125").press("enter").works("sea/dissolve")
	}
	for name, lead := range map[string]func(p *person){
		"more alkali than the oils can take": heavy,
		"another batch has the jug": func(p *person) {
			p.starts().works("sea/castor").press("esc").press("down", "enter", "enter").works("sea/water")
		},
		"another batch has moulds": func(p *person) {
			p.starts().works("").press("esc").press("down", "enter", "enter").works("set out/moulds")
		},
		"scent over its limit": func(p *person) { p.overscents().works("sea/base/scent in") },
		"a pot that is short": func(p *person) {
			p.starts().works("sea/base/loaf 3").types("1250").press("enter").types("1250").press("enter")
		},
		"the bars of a loaf": func(p *person) {
			p.starts().works("").looks(26 * time.Hour).works("bars/loaf 1")
		},
		"pH":                         func(p *person) { p.tested(11.3) },
		"the end of the cure, early": func(p *person) { p.cures(1).press("enter", "enter", "left", "down", "down", "down") },
		"a loaf before its time":     func(p *person) { p.starts().works("").waits(5*time.Hour).press("down", "right") },
		"the gate, grown old":        func(p *person) { p.starts().works("sea/meet").looks(31 * time.Minute) },
	} {
		t.Run(name, func(t *testing.T) {
			p := arrives(t, memory.New())
			lead(p)
			for range 4 {
				p.waits(5 * time.Second)
				p.spaceAsTold()
				t.Log(p.task(), p.foot())
				p.press("down")
			}
		})
	}
}

// TestAnotherVesselIsInSight: in the smallest window the key for another vessel stands in the
// line wherever nothing is in the vessel yet, or it is weighed to be told from others, also
// while something is to be decided at a stage that was gone to.
func TestAnotherVesselIsInSight(t *testing.T) {
	p := arrives(t, memory.New()).starts()
	seen := map[work.Do]int{}
	for p.task() != "" {
		task := p.taskAtHand()
		if task.Do == work.Gross || task.Do == work.Weigh && task.SoFar == 0 || task.Do == work.Portion && task.Mass == 0 {
			if seen[task.Do]++; !strings.Contains(p.foot(), "i other vessel") {
				t.Errorf("%s: %q", task.ID, p.foot())
			}
		}
		p.doesOne()
	}
	if seen[work.Weigh] < 5 || seen[work.Gross] == 0 || seen[work.Portion] == 0 {
		t.Errorf("seen %v", seen)
	}
	arrives(t, memory.New()).overweighs().press("right", "right").sees("▶ shea butter", "i other vessel", "esc to next", "! first aid")
}
