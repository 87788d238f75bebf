package judge

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/work"
)

// Correct makes the correction of an earlier fact: text is the new value. What
// the fact says of target, scale and vessel stays. A tick is corrected by the
// time at which it was done, such as 09:40, on the day on which it was said.
func Correct(p steps.Plan, s batch.State, seq int, text, reason string) (batch.Fact, error) {
	if seq < 1 || seq > len(s.Entries) {
		return nil, fmt.Errorf("there is no fact %d", seq)
	}
	if strings.TrimSpace(text) == "" {
		return nil, errors.New("type the new value first")
	}
	e := s.Entries[seq-1]
	if s.Withdrawn(seq) {
		return nil, errors.New("this was taken back: say it anew at the bench")
	}
	var with batch.Fact
	var err error
	switch f := e.Fact.(type) {
	case batch.Weighed:
		f.Mass, err = quantity.ParseNumberMass(text, quantity.Gram)
		f.How = batch.Typed
		with = f
	case batch.Grossed:
		f.Gross, err = quantity.ParseNumberMass(text, quantity.Gram)
		with = f
	case batch.VesselReplaced:
		f.Tare, err = quantity.ParseNumberMass(text, quantity.Gram)
		with = f
	case batch.TemperatureTaken:
		with, err = temperatureAnswer(work.Task{ID: f.Task, Wanted: f.Asked}, Answer{How: batch.Typed, Text: text})
	case batch.BarsCut, batch.BarsWeighed, batch.SetAside, batch.WeighedIn, batch.Tested:
		with, err = correctRest(p, e, text, reason)
	case batch.Ticked:
		with, err = correctTick(p, f, e.At, strings.TrimSpace(text))
	default:
		with, err = correctWords(e, strings.TrimSpace(text))
	}
	if err != nil {
		return nil, err
	}
	return batch.Corrected{Seq: seq, Reason: strings.TrimSpace(reason), With: with}, nil
}

// correctRest gives a fact that follows the pour with another value. The doubt
// that it may raise is answered by the reason.
func correctRest(p steps.Plan, e batch.Entry, text, reason string) (batch.Fact, error) {
	t, _, ok := p.Task(batch.Task(e.Fact))
	if !ok {
		return nil, errors.New("this fact's task is no longer in the plan; take a note instead")
	}
	with, err := restAnswer(t, Answer{How: batch.Typed, Text: text, Now: e.At.Wall})
	if err != nil {
		return nil, err
	}
	on := settled(batch.SaidOf(e.Fact), batch.SaidOf(with))
	switch first := e.Fact.(type) {
	case batch.WeighedIn:
		if w, ok := with.(batch.WeighedIn); ok {
			first.Mass, first.Said = w.Mass, on
			return first, nil
		}
	case batch.BarsWeighed:
		if w, ok := with.(batch.BarsWeighed); ok {
			first.Mass, first.Count, first.Said = w.Mass, w.Count, on
			return first, nil
		}
	case batch.BarsCut:
		if w, ok := with.(batch.BarsCut); ok {
			first.Bars, first.Why, first.Said = w.Bars, reason, on
			return first, nil
		}
	case batch.SetAside:
		if w, ok := with.(batch.SetAside); ok {
			first.Mass, first.Count, first.Said = w.Mass, w.Count, on
			return first, nil
		}
	case batch.Tested:
		if w, ok := with.(batch.Tested); ok && first.Test != batch.LookTest {
			first.Test, first.Value, first.Passed, first.Said = w.Test, w.Value, w.Passed, on
			return first, nil
		}
	default:
	}
	return nil, errors.New("this fact holds no value to correct; take a note instead")
}

// settled takes the day that is typed with the new value, or keeps that of the first; the
// doubt was about the first.
func settled(first, typed batch.Said) batch.Said {
	if !typed.When.IsZero() {
		return batch.Said{When: typed.When}
	}
	return batch.Said{When: first.When}
}

// correctWords gives a fact that is said in words, or at a time, with another
// value.
func correctWords(e batch.Entry, text string) (batch.Fact, error) {
	switch f := e.Fact.(type) {
	case batch.TimerPutOff:
		minutes, err := strconv.Atoi(strings.TrimSpace(strings.TrimSuffix(text, "min")))
		if err != nil || minutes < 1 || minutes > 7*24*60 {
			return nil, fmt.Errorf("%q is no number of minutes", text)
		}
		f.For = time.Duration(minutes) * time.Minute
		return f, nil
	case batch.GelLooked:
		look, err := lookNamed(text)
		f.Look, f.Said = look, settled(f.Said, batch.Said{})
		return f, err
	case batch.Skipped:
		f.Reason = text
		return f, nil
	case batch.Noted:
		f.Text = text
		return f, nil
	case batch.PotAnswered:
		f.Answer = text
		return f, nil
	case batch.SharedAnswered:
		f.Answer = text
		return f, nil
	case batch.Marked:
		f.Code = text
		return f, nil
	case batch.Complained:
		f.Words = text
		return f, nil
	case batch.BarsWent:
		f.Where = text
		return f, nil
	default:
		return nil, errors.New("this entry holds no value: x takes it back, if it was not so")
	}
}

// correctTick gives a tick with another time, or with another weight where it takes one.
func correctTick(p steps.Plan, f batch.Ticked, at timer.Moment, text string) (batch.Fact, error) {
	t, st, _ := p.Task(f.Task)
	if !st.TakesWeight(t) || strings.Contains(text, ":") {
		var err error
		f.When, err = onTheDay(at, text)
		return f, err
	}
	m, err := quantity.ParseNumberMass(text, quantity.Gram)
	if err == nil && m <= 0 {
		err = errors.New("it weighs something: give the grams, or the time as 09:40")
	}
	f.Mass = m
	return f, err
}

// onTheDay gives a time of day on the day of a moment, or on the day that is named.
func onTheDay(m timer.Moment, text string) (time.Time, error) {
	if at, err := time.ParseInLocation(dayAndTime, text, m.Wall.Location()); err == nil {
		return at, nil
	}
	t, err := time.ParseInLocation("15:04", text, m.Wall.Location())
	if err != nil {
		return t, fmt.Errorf("%q is no time of day: write it like 09:40, or %s 09:40 for another day", text, m.Wall.Format(time.DateOnly))
	}
	y, month, d := m.Wall.Date()
	return time.Date(y, month, d, t.Hour(), t.Minute(), 0, 0, m.Wall.Location()), nil
}
