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
	case batch.TemperatureTaken:
		with, err = temperatureAnswer(work.Task{ID: f.Task}, Answer{How: batch.Typed, Text: text})
	case batch.BarsCut, batch.BarsWeighed, batch.SetAside, batch.WeighedIn, batch.Tested:
		with, err = correctRest(p, f, text, reason)
	default:
		with, err = correctWords(e, strings.TrimSpace(text))
	}
	if err != nil {
		return nil, err
	}
	return batch.Corrected{Seq: seq, Reason: strings.TrimSpace(reason), With: with}, nil
}

// correctWords gives a fact that is said in words, or at a time, with another
// value.
func correctWords(e batch.Entry, text string) (batch.Fact, error) {
	if text == "" {
		return nil, errors.New("type the new value first")
	}
	switch f := e.Fact.(type) {
	case batch.Ticked:
		var err error
		f.When, err = onTheDay(e.At, text)
		return f, err
	case batch.TimerPutOff:
		minutes, err := strconv.Atoi(strings.TrimSpace(strings.TrimSuffix(text, "min")))
		if err != nil || minutes < 1 || minutes > 7*24*60 {
			return nil, fmt.Errorf("%q is no number of minutes", text)
		}
		f.For = time.Duration(minutes) * time.Minute
		return f, nil
	case batch.GelLooked:
		for _, l := range []batch.GelLook{batch.NoGel, batch.Gelling, batch.FullGel, batch.PartialGel, batch.Cracked, batch.Rising} {
			if strings.EqualFold(string(l), text) {
				f.Look, f.Said = l, settled(f.Said)
				return f, nil
			}
		}
		return nil, fmt.Errorf("%q is no look: no gel, gelling, full gel, partial gel, cracked or rising", text)
	case batch.Skipped:
		f.Reason = text
		return f, nil
	case batch.Noted:
		f.Text = text
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

// onTheDay gives a time of day on the day of a moment.
func onTheDay(m timer.Moment, text string) (time.Time, error) {
	t, err := time.ParseInLocation("15:04", text, m.Wall.Location())
	if err != nil {
		return t, fmt.Errorf("%q is no time of day: write it like 09:40", text)
	}
	y, month, d := m.Wall.Date()
	return time.Date(y, month, d, t.Hour(), t.Minute(), 0, 0, m.Wall.Location()), nil
}

// allowsCorrection checks a corrected value, and that it is said of the right
// fact.
func allowsCorrection(p steps.Plan, f batch.Corrected, now timer.Moment) error {
	switch {
	case strings.TrimSpace(f.Reason) == "":
		return errors.New("a correction needs its reason")
	case f.Seq < 1 || f.Seq > len(p.State().Entries):
		return fmt.Errorf("there is no fact %d", f.Seq)
	}
	first := p.State().Entries[f.Seq-1]
	if !batch.Alike(f.With, first.Fact) {
		return errors.New("a correction is of the same kind as the fact that it corrects, and about the same thing")
	}
	id := batch.Task(f.With)
	t, _, ok := p.Task(id)
	if id != "" && !ok {
		return fmt.Errorf("there is no task %q in this batch", id)
	}
	switch with := f.With.(type) {
	case batch.Weighed:
		return weighable(t, with)
	case batch.Grossed:
		return grossable(t, with)
	case batch.Ticked:
		switch began := p.State().Entries[0].At.Wall.Truncate(time.Minute); {
		case with.When.After(now.Wall):
			return errors.New("that time is still to come")
		case with.When.Before(began):
			return errors.New("that was before the batch began")
		}
	default:
	}
	return nil
}

// allowsWithdrawal refuses to take back what can never be, and what others were
// built on: they are taken back first, from the last.
func allowsWithdrawal(p steps.Plan, f batch.Withdrawn, now timer.Moment) error {
	switch {
	case strings.TrimSpace(f.Reason) == "":
		return errors.New("taking back needs its reason")
	case f.Seq < 1 || f.Seq > len(p.State().Entries):
		return fmt.Errorf("there is no fact %d", f.Seq)
	}
	s := p.State()
	if why := batch.Withdrawable(s.Entries[f.Seq-1].Fact); why != "" {
		return errors.New(why)
	}
	if s.Withdrawn(f.Seq) {
		return errors.New("this was taken back already")
	}
	after := p.With(f, now)
	already := outOfOrder(p)
	for id, title := range outOfOrder(after) {
		if _, before := already[id]; !before {
			return fmt.Errorf("%q was done after it: take that back first", title)
		}
	}
	for _, e := range batch.Standing(s.Entries) {
		id := batch.Task(e.Fact)
		if _, _, known := p.Task(id); !known || e.Seq == f.Seq {
			continue
		}
		if _, _, known := after.Task(id); !known {
			return fmt.Errorf("%q follows from it: take that back first", p.Title(id))
		}
	}
	return nil
}

// outOfOrder gives the tasks that are done although something before them is not,
// by their titles.
func outOfOrder(p steps.Plan) map[string]string {
	list := map[string]string{}
	for _, st := range p.Stages {
		open := st.Blocked != ""
		for _, t := range st.Tasks {
			if t.Done && t.Seq > 0 && open {
				list[t.ID] = t.Title
			}
			open = open || st.Ordered && !t.Done
		}
	}
	return list
}
