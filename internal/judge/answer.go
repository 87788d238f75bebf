// Package judge says what becomes of an answer: a fact, a doubt, or a refusal in
// words.
//
// The rule: what is impossible or unsafe is refused, what looks like a slip is
// asked about once, and what is merely unwise is left to the maker.
package judge

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/work"
)

// Answer is what the person said to a task.
type Answer struct {
	How  batch.How
	Text string    // Text is what was typed; empty when nothing was.
	More bool      // More says that another container follows.
	Now  time.Time // Now is where and when it is said, for an answer that brings a day.
}

// Fact turns what the person said into a fact, or says why it cannot be one.
// A number is a weight in grams unless it brings its unit; for a portion it is
// what the scale under the vessel reads after pouring.
func Fact(p steps.Plan, task string, a Answer) (batch.Fact, error) {
	t, _, ok := p.Task(task)
	if !ok {
		return nil, fmt.Errorf("there is no task %q in this batch", task)
	}
	if t.Numeric() && a.How == batch.Typed && strings.TrimSpace(a.Text) == "" {
		return nil, errors.New("type a number first")
	}
	switch t.Do {
	case work.Tick, work.Look, work.Confirm:
		if _, st, _ := p.Task(task); st.TakesWeight(t) && a.How == batch.Typed {
			return loafAnswer(t, a)
		}
		return batch.Ticked{Task: t.ID, Asked: t.Title}, nil
	case work.Temperature:
		return temperatureAnswer(t, a)
	case work.Gross:
		return grossAnswer(t, a)
	case work.Weigh, work.Portion:
		return weightAnswer(t, a)
	case work.Choose, work.Count, work.Bars, work.Aside, work.WeighIn, work.Measure:
		return restAnswer(t, a)
	}
	return nil, fmt.Errorf("%s: nothing to answer", t.Title)
}

// loafAnswer is a loaf that is out of its mould, and what it weighs; or a pour, and what
// went into the mould.
func loafAnswer(t work.Task, a Answer) (batch.Fact, error) {
	m, err := quantity.ParseNumberMass(a.Text, quantity.Gram)
	switch {
	case err != nil || m > 0:
	case t.Poured():
		err = errors.New("a pour weighs something; where nothing is poured leave it out (x)")
	default:
		err = errors.New("a loaf weighs something; without a figure it is out and was not weighed")
	}
	f := batch.Ticked{Task: t.ID, Mass: m}
	if t.Poured() {
		f.Asked = t.Title
	}
	return f, err
}

func temperatureAnswer(t work.Task, a Answer) (batch.Fact, error) {
	if a.How != batch.Typed {
		return nil, errors.New("type what the thermometer says")
	}
	text := strings.TrimSpace(a.Text)
	if strings.Trim(text, "0123456789.,") == "" {
		text += " °C"
	}
	c, err := quantity.ParseTemperature(text)
	if err != nil {
		return nil, err
	}
	return batch.TemperatureTaken{Task: t.ID, Temperature: c, Asked: t.Wanted}, nil
}

func grossAnswer(t work.Task, a Answer) (batch.Fact, error) {
	if a.How != batch.Typed {
		return nil, errors.New("type the whole weight, vessel included")
	}
	m, err := quantity.ParseNumberMass(a.Text, quantity.Gram)
	if err != nil {
		return nil, err
	}
	return batch.Grossed{Task: t.ID, Vessel: t.Vessel, Gross: m, Tare: t.Tare, Scale: t.Scale, Reads: t.Reads, Asked: t.Target}, nil
}

func weightAnswer(t work.Task, a Answer) (batch.Fact, error) {
	f := batch.Weighed{
		Task: t.ID, Material: t.Material, Lot: t.Lot, Target: t.Target, Mass: t.Remaining(), How: a.How, More: a.More,
		Scale: t.Scale, Reads: t.Reads, Vessel: t.Vessel, Tare: t.Tare, Within: t.Tolerance,
	}
	if strings.TrimSpace(a.Text) == "" {
		return f, nil
	}
	m, err := quantity.ParseNumberMass(a.Text, quantity.Gram)
	if err != nil {
		return nil, err
	}
	switch net, untared := t.Net(m); {
	case t.Do == work.Portion:
		f.Mass = t.SoFar - t.Mass - m
	case untared && a.How == batch.Typed:
		f.Mass = net
	default:
		f.Mass = m
	}
	return f, nil
}

// Doubt says why a value looks like a slip, or "". The screen then asks for it
// a second time; it is never refused for that.
func Doubt(p steps.Plan, f batch.Fact) string { return DoubtNow(p, f, timer.Moment{}) }

// DoubtNow is Doubt at a moment, which tells how fast a bar lost what it did, and a lye
// solution cooled.
func DoubtNow(p steps.Plan, f batch.Fact, now timer.Moment) string {
	switch f := f.(type) {
	case batch.Weighed:
		t, _, ok := p.Task(f.Task)
		if !ok || f.How != batch.Typed {
			return ""
		}
		return doubtWeight(t, f, t.Remaining())
	case batch.Grossed:
		t, _, ok := p.Task(f.Task)
		if !ok {
			return ""
		}
		if other, ok := lookAlike(p, t, f.Gross); ok {
			return fmt.Sprintf("asked %s, typed %s: that is nearer to %s", t.Target.At(t.Reads), f.Gross.At(t.Reads), other)
		}
		if whole := f.Gross + t.Tare; t.Tare > 0 && (whole-t.Target).Abs() <= max(t.Tolerance, t.Reads)+t.Loss {
			return fmt.Sprintf("asked %s, typed %s: without the vessel (then type %s)?", t.Target.At(t.Reads), f.Gross.At(t.Reads), whole.At(t.Reads))
		}
		return doubtGross(t, f.Gross)
	case batch.TemperatureTaken:
		if f.Temperature < 10*quantity.Degree || f.Temperature > 100*quantity.Degree {
			return fmt.Sprintf("%s is unusual here", f.Temperature)
		}
		if now != (timer.Moment{}) {
			return p.Implausible(f.Task, f.Temperature, now)
		}
	case batch.Ticked:
		return doubtLoaf(p, f, now.Wall)
	case batch.Corrected:
		return doubtCorrected(p, f)
	case batch.Started, batch.Skipped, batch.TimerSeen, batch.TimerPutOff, batch.Noted, batch.Withdrawn, batch.Closed, batch.Stopped, batch.Decided, batch.WarningSeen, batch.PotWeighed, batch.PotAnswered,
		batch.VesselReplaced, batch.SharedAnswered:
	case batch.GelLooked, batch.UnmouldPutOff, batch.BarsCut, batch.BarsWeighed, batch.SetAside, batch.Marked, batch.WeighedIn,
		batch.Tested, batch.Released, batch.Held, batch.Reworks, batch.LimitStated, batch.Complained, batch.BarsWent:
		return doubtAt(p, f, now.Wall)
	}
	return ""
}

// doubtCorrected holds a corrected value to what was asked when it was first
// said.
func doubtCorrected(p steps.Plan, f batch.Corrected) string {
	w, ok := f.With.(batch.Weighed)
	if !ok {
		return doubtAfresh(p, f)
	}
	t, _, ok := p.Task(w.Task)
	if !ok {
		return ""
	}
	return doubtful(w.Mass, w.Target, spread(t, w.Target), w.Reads, w.More)
}

// doubtAfresh holds a corrected value to the batch without the first: the two are not
// together.
func doubtAfresh(p steps.Plan, f batch.Corrected) string {
	_, warm := f.With.(batch.TemperatureTaken)
	if s := p.State(); f.Seq >= 1 && f.Seq <= len(s.Entries) && (warm || afterPour(f.With)) {
		first := s.Entries[f.Seq-1]
		p = p.With(batch.Withdrawn{Seq: f.Seq, Reason: "?"}, first.At)
		if warm {
			return DoubtNow(p, f.With, first.At)
		}
		return doubtAt(p, f.With, first.At.Wall)
	}
	return Doubt(p, f.With)
}

// lookAlike names the lye jug that still stands full and whose weight is nearer
// to the one typed, when it is a lye jug that is asked for.
func lookAlike(p steps.Plan, asked work.Task, gross quantity.Mass) (vessel string, ok bool) {
	nearest := (gross - asked.Target).Abs()
	if _, st, _ := p.Task(asked.ID); st.Kind != work.LyeIntoOils || nearest <= asked.Reads {
		return "", false
	}
	for _, st := range p.Stages {
		for _, t := range st.Tasks {
			if st.Kind == work.LyeIntoOils && t.Do == work.Gross && !t.Done && (gross-t.Target).Abs() < nearest {
				nearest, vessel, ok = (gross - t.Target).Abs(), t.Vessel, t.ID != asked.ID
			}
		}
	}
	return vessel, ok
}
