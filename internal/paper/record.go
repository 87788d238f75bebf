package paper

import (
	"fmt"
	"time"

	"bench/internal/batch"
	"bench/internal/steps"
	"bench/internal/timer"
)

// RecordText writes a batch's record: what it was begun from, every fact with
// its time in the given zone, and planned beside actual.
func RecordText(code string, s batch.State, in *time.Location) string {
	var p page
	plan := steps.Of(s)
	p.linef("BATCH %s  %s, %d × %s", code, plan.Recipe, plan.Loaves, plan.Mould.Name)
	p.linef("recipe document SHA-256 %s", s.Control.Hash)
	for _, w := range plan.Warnings {
		p.linef("! %s", w)
	}
	p.linef("")
	p.linef("WHAT HAPPENED")
	day := ""
	for _, e := range s.Entries {
		at := e.At.Wall.In(in)
		if d := at.Format("2006-01-02 MST"); d != day {
			day = d
			p.linef("%s", day)
		}
		p.linef("%4d  %s  %s", e.Seq, at.Format("15:04:05"), plan.Say(e, s))
	}
	p.linef("")
	p.linef("ASKED AND WEIGHED")
	for _, st := range plan.Stages {
		for _, t := range st.Tasks {
			p.weighed(st, t)
		}
	}
	for _, b := range plan.Batters {
		below := ""
		if b.Superfat.Low < 0 {
			below = "  ! the band reaches below zero: free alkali is possible"
		}
		p.linef("%s: superfat %.1f %% (%.1f to %.1f), asked %s%s", b.Name, b.Superfat.Percent, b.Superfat.Low, b.Superfat.High, b.Asked, below)
	}
	return p.String()
}

func (p *page) weighed(st steps.Stage, t steps.Task) {
	if !t.Done || (t.Do != steps.Weigh && t.Do != steps.Portion) {
		return
	}
	if t.Skipped != "" {
		p.linef("  %-18s %-30s left out: %s", st.Title, t.Title, t.Skipped)
		return
	}
	note := ""
	switch {
	case t.ByEye:
		note = "by eye, not weighed"
	case t.FromCup:
		note = "out of its cup"
	}
	p.linef("  %-18s %-30s asked %9s  weighed %9s g  lot %-10s %s",
		st.Title, t.Title, t.Target.At(t.Reads), t.Mass.At(t.Reads), dash(t.Lot), note)
}

func dash(s string) string {
	if s == "" {
		return "-"
	}
	return s
}

// DueText writes the timers, one a line.
func DueText(timers []Timer, now timer.Moment) string {
	var p page
	if len(timers) == 0 {
		p.linef("no timers")
	}
	for _, t := range timers {
		when := ""
		if !t.CountsUp() {
			when = t.DueAt(now).Format("Mon 2 Jan 15:04")
		}
		p.linef("%-9s %-8s %-44s %-18s %s", t.Batch, t.State(now), t.Label, t.Say(now), when)
	}
	return p.String()
}

// Where says in one line how far a batch has come.
func Where(s batch.State, now timer.Moment) string {
	plan := steps.Of(s)
	if plan.Closed {
		return "closed"
	}
	if id, ok := plan.Next(now); ok {
		t, st, _ := plan.Task(id)
		return fmt.Sprintf("%s: %s", st.Title, t.Title)
	}
	return "waits"
}
