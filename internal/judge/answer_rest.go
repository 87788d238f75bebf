package judge

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/rest"
	"bench/internal/work"
)

// An answer after the pour may bring the day on which it was so ("108.4 on
// 2026-12-01"), and several bars together ("10 x 1124").

// restAnswer makes the fact of a task that follows the clean-up.
func restAnswer(t work.Task, a Answer) (batch.Fact, error) {
	text, said, err := saidOn(a)
	if err != nil {
		return nil, err
	}
	switch t.Do {
	case work.Count:
		return countAnswer(t, text, said)
	case work.Bars:
		if text == "" {
			return batch.Ticked{Task: t.ID}, nil
		}
		return barsAnswer(t, text, said)
	case work.Aside:
		return asideAnswer(t, text, said)
	case work.WeighIn:
		if text == "" {
			return nil, errors.New("type what the bar weighs")
		}
		m, err := quantity.ParseNumberMass(text, quantity.Gram)
		if err != nil {
			return nil, err
		}
		return batch.WeighedIn{Task: t.ID, Bar: t.Bar, Mass: m, Scale: t.Scale, Reads: t.Reads, Said: said}, nil
	case work.Measure:
		return measureAnswer(t, text, said)
	case work.Choose:
		return nil, errors.New("choose one of the answers")
	case work.Tick, work.Weigh, work.Portion, work.Gross, work.Temperature, work.Look, work.Confirm:
	}
	return nil, fmt.Errorf("%s: nothing to answer", t.Title)
}

// saidOn takes the day off an answer. A day without its time is taken at noon,
// so that it is the same day wherever the clock stands.
func saidOn(a Answer) (text string, said batch.Said, err error) {
	text = strings.TrimSpace(a.Text)
	cut := strings.LastIndex(text, " on ")
	if cut < 0 {
		return text, batch.Said{}, nil
	}
	place := a.Now.Location()
	text, on := text[:cut], strings.TrimSpace(text[cut+len(" on "):])
	for layout, noon := range map[string]time.Duration{time.DateOnly: 12 * time.Hour, dayAndTime: 0} {
		if at, err := time.ParseInLocation(layout, on, place); err == nil {
			return strings.TrimSpace(text), batch.Said{When: at.Add(noon)}, nil
		}
	}
	return "", batch.Said{}, fmt.Errorf("%q is not a day: write it like %s, or %[2]s 09:30", on, yesterday(a.Now))
}

// yesterday is a day to show how one is written.
func yesterday(now time.Time) string { return now.AddDate(0, 0, -1).Format(time.DateOnly) }

// mostBars is how many bars one answer may count.
const mostBars = 999

func countAnswer(t work.Task, text string, said batch.Said) (batch.Fact, error) {
	n := t.Count
	if text != "" {
		var err error
		if n, err = strconv.Atoi(text); err != nil || n < 0 || n > mostBars {
			return nil, fmt.Errorf("%q is not a number of bars: type a whole number from 0 to %d", text, mostBars)
		}
	}
	return batch.BarsCut{Task: t.ID, Loaf: work.LoafOf(t.ID), Bars: n, Planned: t.Count, Said: said}, nil
}

func barsAnswer(t work.Task, text string, said batch.Said) (batch.Fact, error) {
	count := 1
	if many, whole, together := strings.Cut(text, "x"); together {
		n, err := strconv.Atoi(strings.TrimSpace(many))
		if err != nil || n < 1 || n > mostBars {
			return nil, fmt.Errorf("%q is not a number of bars, 1 to %d: write it like 10 x 1124", strings.TrimSpace(many), mostBars)
		}
		count, text = n, strings.TrimSpace(whole)
	}
	m, err := quantity.ParseNumberMass(text, quantity.Gram)
	if err != nil {
		return nil, err
	}
	return batch.BarsWeighed{Task: t.ID, Loaf: t.Loaf, Count: count, Mass: m, Scale: t.Scale, Reads: t.Reads, Said: said}, nil
}

// asideAnswer: nothing typed is one that was not weighed, zero is none.
func asideAnswer(t work.Task, text string, said batch.Said) (batch.Fact, error) {
	f := batch.SetAside{Task: t.ID, Piece: batch.Piece(t.Material), Count: 1, Said: said}
	if text == "" {
		return f, nil
	}
	m, err := quantity.ParseNumberMass(text, quantity.Gram)
	if err != nil {
		return nil, err
	}
	f.Mass = m
	if m == 0 {
		f.Count = 0
	}
	return f, nil
}

// measureAnswer reads a pH, or free alkali where there is a per cent sign.
func measureAnswer(t work.Task, text string, said batch.Said) (batch.Fact, error) {
	if text == "" {
		return nil, errors.New("type what the test gave")
	}
	f := batch.Tested{Task: t.ID, Test: batch.PHTest, Said: said}
	number, percent := strings.CutSuffix(text, "%")
	v, err := strconv.ParseFloat(strings.Replace(strings.TrimSpace(number), ",", ".", 1), 64)
	if err != nil || math.IsNaN(v) {
		return nil, fmt.Errorf("%q is neither a pH nor a share: write it like 9.8, or 0.02 %% for free alkali", text)
	}
	if percent {
		f.Test = batch.FreeAlkaliTest
	}
	f.Value, f.Passed = v, rest.Passes(f.Test, v)
	return f, measurable(f)
}

// measurable refuses a figure that no test can give: a pH is counted from 0 to 14
// (IUPAC Gold Book, "pH scale", from memory), a share from 0 to 100 %.
func measurable(f batch.Tested) error {
	switch {
	case f.Test == batch.PHTest && (f.Value < 0 || f.Value > 14):
		return fmt.Errorf("%g is no pH: that is from 0 to 14. Free alkali is typed with its sign, 0.02 %%", f.Value)
	case f.Test == batch.FreeAlkaliTest && (f.Value < 0 || f.Value > 100):
		return fmt.Errorf("%g %% is no share", f.Value)
	}
	return nil
}
