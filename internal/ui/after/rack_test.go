package after

import (
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/front"
	"bench/internal/rest"
	"bench/internal/sample"
	"bench/internal/timer"
	"bench/internal/ui/ink"
	"bench/internal/ui/keys"

	tea "github.com/charmbracelet/bubbletea"
)

// TestRack: a batch is in cure from its cut until its bars are released; those that need
// something stand on top, then those that are ready first.
func TestRack(t *testing.T) {
	control := sample.Control(t, "tide-lines.yaml", 1)
	at := func(code, task string, facts ...batch.Fact) (front.UnderWay, timer.Moment) {
		b := sample.Begin(control)
		b.WorkTo(t, task)
		for _, f := range facts {
			b.Put(f)
		}
		return front.Planned(front.BatchItem{Code: code, State: b.State}), b.Now
	}
	uncut, _ := at("uncut", "cut/loaf 1")
	fresh, now := at("fresh", "cure/bar 1")
	resting, _ := at("resting", "cure/bar 1", batch.WeighedIn{Task: "cure/bar 1", Bar: "1", Mass: 100_000, Reads: 100})
	released, done := at("released", rest.DecideID, batch.Released{Task: rest.DecideID})
	held, _ := at("held", rest.DecideID, batch.Held{Task: rest.DecideID, Reason: "fog"})
	closed, _ := at("closed", rest.DecideID, batch.Closed{Reason: "fog"})
	for name, c := range map[string]struct {
		batches []front.UnderWay
		now     timer.Moment
		count   string
		order   string
	}{
		"none":                   {nil, now, "0 batches in cure", ""},
		"not cut, or closed":     {[]front.UnderWay{uncut, closed}, now, "0 batches in cure", ""},
		"what needs somebody":    {[]front.UnderWay{resting, fresh}, now, "2 batches in cure", "fresh resting"},
		"one of two is released": {[]front.UnderWay{released, fresh}, done, "1 batch in cure, 1 released", "fresh released"},
		"what is held stays":     {[]front.UnderWay{held}, done, "1 batch in cure", "held"},
	} {
		r := NewRack(c.batches, c.now, time.UTC)
		var order []string
		for _, s := range r.open {
			order = append(order, s.Code)
		}
		if got := strings.Join(order, " "); r.count() != c.count || got != c.order {
			t.Errorf("%s: %q, in the order %q; want %q, %q", name, r.count(), got, c.count, c.order)
		}
	}
}

// TestRackLineCutsNothing: the days, the bars and what comes next stand apart, however
// large their figures.
func TestRackLineCutsNothing(t *testing.T) {
	b := sample.Begin(sample.Control(t, "tide-lines.yaml", 1))
	b.WorkTo(t, "cure/bar 1")
	s := shelf{UnderWay: front.Planned(front.BatchItem{Code: "260302A", State: b.State}), next: "Release the bars"}
	s.cure = s.Plan.Curing()
	s.cure.Bars = 999
	now := b.Now
	now.Wall = now.Wall.Add(121 * 24 * time.Hour)
	theme := ink.NewTheme(ink.Bare, ink.Unknown)
	if lines := s.lines(theme, 120, false, now); len(lines) != 1 || !strings.Contains(lines[0], "day 121  past usual, 999 bars Release the bars") {
		t.Errorf("%q", lines)
	}
	if lines := s.lines(theme, 74, true, now); len(lines) != 2 || !strings.Contains(lines[0], "day 121  past usual, 999 bars") || strings.TrimSpace(lines[1]) != "Release the bars" {
		t.Errorf("%q", lines)
	}
}

// TestRackShowsWhatWasFound: of batches in cure and of those not cut yet, a search leaves
// those that have the words, marked with the batches through which they do.
func TestRackShowsWhatWasFound(t *testing.T) {
	control := sample.Control(t, "tide-lines.yaml", 1)
	at := func(code, task string) front.UnderWay {
		b := sample.Begin(control)
		b.WorkTo(t, task)
		return front.Planned(front.BatchItem{Code: code, State: b.State})
	}
	now := sample.Begin(control).Now
	r := NewRack([]front.UnderWay{at("UNCUT1", "cut/loaf 1"), at("CURED1", "cure/bar 1"), at("CURED2", "cure/bar 1"), at("UNCUT2", "cut/loaf 1")}, now, time.UTC)
	theme := ink.NewTheme(ink.Bare, ink.Unknown)
	seen := func(r Rack) string { return strings.Join(r.View(theme, 80, 24, now), "\n") }
	if text := seen(r.Loaded(front.Past{}, nil)); !strings.Contains(text, "CURED1") || !strings.Contains(text, "CURED2") || strings.Contains(text, "UNCUT") {
		t.Errorf("without a search:\n%s", text)
	}
	r = r.Loaded(front.Past{Words: "SA-9", UnderWay: []string{"CURED2", "UNCUT2"}, Through: map[string][]string{"CURED2": {"OLD2", "OLD1"}}}, nil)
	text := seen(r)
	for _, want := range []string{"In cure with SA-9", "CURED2", "through OLD2, OLD1", "Not cut yet with SA-9", "UNCUT2", "Closed with SA-9", "2 batches in cure"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
	if strings.Contains(text, "CURED1") || strings.Contains(text, "UNCUT1") {
		t.Errorf("what has not got it stands there:\n%s", text)
	}
	r, _ = r.Update(keys.Press{KeyMsg: tea.KeyMsg{Type: tea.KeyDown}})
	if b, ok := r.chosen(); !ok || b.Code != "UNCUT2" {
		t.Errorf("below is %q", b.Code)
	}
	if text := seen(r.Loaded(front.Past{Words: "fog"}, nil)); strings.Count(text, "none") != 2 {
		t.Errorf("nothing found:\n%s", text)
	}
}
