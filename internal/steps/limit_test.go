package steps_test

import (
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/quantity"
	"bench/internal/say"
	"bench/internal/steps"
)

// limitChoice finds the remedy for a scent over its limit.
func limitChoice(p steps.Plan) (judge.Choice, bool) {
	for _, c := range judge.Afterwards(p) {
		if _, ok := c.Fact.(batch.LimitStated); ok {
			return c, true
		}
	}
	return judge.Choice{}, false
}

// TestACertificateLiftsTheHold: 120 g of a scent are 7.4 % of the cured bar (see
// TestScentOverItsLimit). A certificate of 6 % leaves the bars held, one of 8 %
// does not; both stay in the record, and the last counts.
func TestACertificateLiftsTheHold(t *testing.T) {
	b := begin(harbour())
	if _, offered := limitChoice(b.plan()); offered {
		t.Error("a remedy is offered for nothing")
	}
	b.workTo(t, "sea/sea/harbour rope")
	b.typed(t, "sea/sea/harbour rope", "120")
	b.decide(t, "sea/sea/harbour rope", batch.HoldBatch)
	b.reads()
	state := func(text string) {
		t.Helper()
		c, offered := limitChoice(b.plan())
		if !offered || c.Title != "A certificate allows more of harbour rope" {
			t.Fatalf("offered: %+v", c)
		}
		f, err := c.With(text)
		if err == nil {
			err = judge.Allows(b.plan(), f, b.moment())
		}
		if err != nil {
			t.Fatal(err)
		}
		b.put(stored(t, batch.Entry{Fact: f}).Fact)
	}
	targets := b.task(t, "sea/sea/harbour rope").Target
	state("6 % certificate of 3 March")
	if p := b.plan(); len(p.Holds) != 1 || !strings.Contains(p.Holds[0].Words, "limit is 6 %") {
		t.Errorf("%+v", p.Holds)
	}
	state("8 % certificate of lot HR-9")
	if p := b.plan(); len(p.Holds) != 0 || len(p.Open()) != 0 {
		t.Errorf("%+v, %v", p.Holds, p.Open())
	}
	if _, offered := limitChoice(b.plan()); offered {
		t.Error("the remedy is still offered")
	}
	if b.task(t, "sea/sea/harbour rope").Target != targets {
		t.Error("a limit moved a target")
	}
	last := b.state.Entries[len(b.state.Entries)-1]
	if words := say.Fact(last, b.plan(), b.state); words != "harbour rope may be up to 8 % of the bar, by certificate of lot HR-9" {
		t.Error(words)
	}
	if err := b.work(never); err != nil {
		t.Error(err)
	}
}

func TestALimitNeedsItsCertificate(t *testing.T) {
	c := judge.Choice{Ask: "which", Fact: batch.LimitStated{Material: "sea air"}}
	for _, text := range []string{"", "8 %", "8", "certificate of 3 March", "-8 % certificate", "NaN % certificate", "5000 % certificate"} {
		if f, err := c.With(text); err == nil {
			t.Errorf("%q gives %+v", text, f)
		}
	}
	p := begin(harbour()).plan()
	for _, f := range []batch.LimitStated{
		{Material: "harbour rope", Reference: "certificate"},
		{Material: "harbour rope", Limit: 101 * quantity.Percent, Reference: "certificate"},
		{Material: "harbour rope", Limit: 8 * quantity.Percent, Reference: " "},
	} {
		if judge.Allows(p, f, begin(harbour()).moment()) == nil {
			t.Errorf("%+v is allowed", f)
		}
	}
}
