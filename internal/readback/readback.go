// Package readback gives what was done beside what was asked, for a pause point.
//
// The rule: it follows from the facts and is kept nowhere; what cannot be taken out again
// comes first.
package readback

import (
	"fmt"
	"strings"

	"bench/internal/quantity"
	"bench/internal/steps"
	"bench/internal/work"
)

// Line is one line of a pause point: what, how much was asked, how much it
// was, and by which instrument.
type Line struct {
	What  string
	Asked string
	Was   string // Was has its unit.
	By    string
	Off   bool // Off says that it was off by more than its tolerance, or left out.
	Burns bool // Burns says that it is alkali or lye, or how much of it the oils leave.
}

// Of gives the lines to compare at a pause point, or none for another
// task.
func Of(p steps.Plan, task string) []Line {
	t, st, ok := p.Task(task)
	switch {
	case !ok || t.Do != work.Confirm:
		return nil
	case st.Kind == work.Gate:
		return beforeLye(p, st)
	case st.Kind != work.ScentAndPour:
		return linesOf(p, st)
	}
	var lines []Line
	for _, each := range p.Stages {
		if each.Kind == work.ScentAndPour && each.Layer == st.Layer {
			lines = append(lines, linesOf(p, each)...)
		}
	}
	return lines
}

// beforeLye gives what meets, all of it and the alkali first: from here on
// nothing can be taken out again. What was weighed out for later is told where it was off.
func beforeLye(p steps.Plan, gate work.Stage) []Line {
	var first, lines []Line
	for _, b := range p.Batters {
		if b.Name == gate.Batter {
			first = append(first, Line{
				What: "superfat", Asked: b.Asked.String(), Was: fmt.Sprintf("%.1f %%", b.Superfat.Percent),
				By: fmt.Sprintf("%.1f to %.1f %%", b.Superfat.Low, b.Superfat.High), Off: b.Superfat.Low < 0 || b.AsAsked() != 0, Burns: true,
			})
		}
	}
	for _, st := range p.Stages {
		if st.Batter != gate.Batter {
			continue
		}
		meets := st.Kind == work.LyeSolution || st.Kind == work.Oils || st.Kind == work.ScentOils
		for _, t := range st.Tasks {
			switch l, ok := decidedLine(p, t, st); {
			case !ok || t.Do == work.Gross || !meets && (!l.Off || !t.Done || t.Do != work.Weigh):
			case t.MustType:
				first = append(first, l)
			default:
				lines = append(lines, l)
			}
		}
	}
	return append(first, lines...)
}

// linesOf gives what a stage weighed or poured.
func linesOf(p steps.Plan, st work.Stage) []Line {
	var lines []Line
	for _, t := range st.Tasks {
		if l, ok := decidedLine(p, t, st); ok {
			lines = append(lines, l)
		}
	}
	return lines
}

// decidedLine gives the line of a task with what was decided upon it: what came in or out
// since stands in its weight, and in no line of its own.
func decidedLine(p steps.Plan, t work.Task, st work.Stage) (Line, bool) {
	l, ok := line(t)
	switch {
	case t.OfBatter():
		return evenedLine(l, t), ok && t.Do == work.Portion
	case !ok || t.Do != work.Weigh:
		return l, ok
	}
	since, follows := p.UponDecisions(t.ID, st.Batter)
	if follows || since == 0 {
		return l, !follows
	}
	was := t.Mass
	t.Mass += since
	l.Was, l.Off = t.Mass.Reading(t.Reads), t.Off() != 0
	if l.By = was.Reading(t.Reads) + fmt.Sprintf(" and %s more", since.Reading(t.Reads)); since < 0 {
		l.By = was.Reading(t.Reads) + fmt.Sprintf(" less %s out again", (-since).Reading(t.Reads))
	}
	return l, ok
}

// evenedLine is that of a portion with what was poured back or over since.
func evenedLine(l Line, t work.Task) Line {
	if t.Later == 0 || t.Do != work.Portion {
		return l
	}
	l.Was, l.By = t.There().Reading(t.Reads), fmt.Sprintf("%s and %s poured in", t.Mass.Reading(t.Reads), t.Later.Reading(t.Reads))
	if t.Later < 0 {
		l.By = fmt.Sprintf("%s less %s poured out", t.Mass.Reading(t.Reads), (-t.Later).Reading(t.Reads))
	}
	l.Off = l.Off && (t.There()-t.Target).Abs() > t.Tolerance
	return l
}

// line gives the line of a task, if it has a weight or a height.
func line(t work.Task) (Line, bool) {
	l := Line{What: t.Material, Asked: t.Target.At(max(t.Reads, quantity.Milligram)), By: t.Scale, Burns: t.MustType && t.Do != work.Temperature}
	switch {
	case t.Do == work.Gross:
		l.What = t.Vessel + ", full"
	case t.Do == work.Portion && work.LoafOf(t.ID) > 0:
		l.What = fmt.Sprintf("loaf %d", work.LoafOf(t.ID))
	case t.Do == work.Portion:
		l.What = t.Title
	case t.Do == work.Weigh && strings.HasPrefix(t.Title, t.Material+", "): // What came on top has a line of its own.
		_, what, _ := strings.Cut(t.Title, ", ")
		l.What = strings.TrimSuffix(strings.TrimPrefix(what, "the "), " part") + " " + t.Material
	case t.Do == work.Weigh:
	case t.Poured() && t.Mass > 0:
		l = Line{What: fmt.Sprintf("loaf %d", work.LoafOf(t.ID)), Asked: t.Target.At(t.Reads), Was: t.Mass.Reading(t.Reads), By: max(0, t.SoFar-t.Mass).Reading(t.Reads) + " stay in its jug"}
	case t.PourLine > 0:
		l = Line{What: fmt.Sprintf("loaf %d", work.LoafOf(t.ID)), Asked: t.PourLine.String(), Was: "poured", By: t.Target.Reading(t.Reads) + " into it"}
	default:
		return l, false
	}
	switch {
	case t.Skipped != "":
		l.Was, l.Off = "left out", true
	case l.Was == "":
		l.Was = t.Mass.Reading(t.Reads)
		l.Off = t.Off() != 0
	}
	if t.ByEye {
		l.By = "by eye"
	}
	return l, true
}
