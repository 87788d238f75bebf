package batch_test

import (
	"fmt"
	"reflect"
	"testing"
	"time"

	"pgregory.net/rapid"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/timer"
)

const g = quantity.Gram

// entry numbers a fact and stamps it with a minute for each number.
func entry(seq int, f batch.Fact) batch.Entry {
	at := time.Date(2026, 3, 2, 9, seq, 0, 0, time.UTC)
	return batch.Entry{Seq: seq, At: timer.Moment{Wall: at}, Fact: f}
}

func fold(facts ...batch.Fact) batch.State {
	var s batch.State
	for i, f := range facts {
		s = s.Apply(entry(i+1, f))
	}
	return s
}

func weighed(task string, m quantity.Mass) batch.Weighed {
	return batch.Weighed{Task: task, Target: m, Mass: m, How: batch.Typed}
}

var begun = batch.Started{Control: recipe.Control{Loaves: 3}}

func TestFold(t *testing.T) {
	more := weighed("olive", 100*g)
	more.More = true
	s := fold(
		begun, more, weighed("olive", 244*g), batch.Ticked{Task: "melt"},
		batch.Grossed{Task: "gross", Gross: 900 * g, Tare: 700 * g},
		batch.TemperatureTaken{Task: "oils", Temperature: 38 * quantity.Degree},
		batch.Skipped{Task: "texture", Reason: "too thick"},
		batch.TimerSeen{Timer: "gel look/1"}, batch.TimerPutOff{Timer: "unmould", For: 12 * time.Hour},
		batch.Noted{Stage: "pour", Text: "smells well"},
	)
	if !s.Begun() || s.Closed() || s.Control.Loaves != 3 || len(s.Entries) != 10 {
		t.Errorf("begun %v, closed %v, %d entries", s.Begun(), s.Closed(), len(s.Entries))
	}
	if sum, finished := s.Mass("olive"); sum != 344*g || !finished {
		t.Errorf("olive %v, finished %v", sum, finished)
	}
	if w := s.Weighings("olive"); len(w) != 2 || w[0].Seq != 2 || w[1].Seq != 3 || w[1].At.Wall.Minute() != 3 {
		t.Errorf("%+v", w)
	}
	if d, ok := s.Done("melt"); !ok || d.Seq != 4 || d.Skipped != "" {
		t.Errorf("%+v", d)
	}
	if d, ok := s.Done("texture"); !ok || d.Skipped != "too thick" {
		t.Errorf("%+v", d)
	}
	if got, ok := s.Gross("gross"); !ok || got.Fact.Gross-got.Fact.Tare != 200*g || got.Seq != 5 {
		t.Errorf("%+v", got)
	}
	if got, ok := s.Temperature("oils"); !ok || got.Fact.Temperature != 38*quantity.Degree {
		t.Errorf("%+v", got)
	}
	if w, ok := s.Timer("gel look/1"); !ok || !w.Seen {
		t.Errorf("%+v", w)
	}
	if w, ok := s.Timer("unmould"); !ok || w.Seen || w.For != 12*time.Hour || w.At.Wall.Minute() != 9 {
		t.Errorf("%+v", w)
	}
	if s = s.Apply(entry(11, batch.Closed{})); !s.Closed() {
		t.Error("not closed")
	}
}

func TestNothingIsKnownAtFirst(t *testing.T) {
	var s batch.State
	sum, finished := s.Mass("olive")
	_, done := s.Done("melt")
	_, gross := s.Gross("gross")
	_, temp := s.Temperature("oils")
	_, word := s.Timer("unmould")
	if s.Begun() || s.Closed() || sum != 0 || finished || done || gross || temp || word || s.Weighings("olive") != nil {
		t.Errorf("%+v", s)
	}
}

// TestMoreToCome: a task is not finished while another container follows.
func TestMoreToCome(t *testing.T) {
	more := weighed("olive", 100*g)
	more.More = true
	if sum, finished := fold(begun, more).Mass("olive"); sum != 100*g || finished {
		t.Errorf("%v, finished %v", sum, finished)
	}
}

func TestCorrections(t *testing.T) {
	facts := []batch.Fact{begun, weighed("olive", 344*g), weighed("shea", 153*g)}
	s := fold(append(facts,
		batch.Corrected{Seq: 2, Reason: "read wrong", With: weighed("olive", 334*g)},
		batch.Ticked{Task: "melt"},
		batch.Corrected{Seq: 2, Reason: "read right after all, but 345", With: weighed("olive", 345*g)},
	)...)
	if sum, _ := s.Mass("olive"); sum != 345*g {
		t.Errorf("the latest correction of the first fact counts, not %v", sum)
	}
	if w := s.Weighings("olive"); len(w) != 1 || w[0].Seq != 2 || w[0].At.Wall.Minute() != 2 {
		t.Errorf("number and moment stay those of the first fact: %+v", w)
	}
	if first, ok := s.Entries[1].Fact.(batch.Weighed); !ok || first.Mass != 344*g {
		t.Errorf("the first value stays in the record: %+v", s.Entries[1])
	}
	if sum, _ := s.Mass("shea"); sum != 153*g {
		t.Errorf("shea %v", sum)
	}
	if _, ok := s.Done("melt"); !ok || len(s.Entries) != 6 || s.Control.Loaves != 3 {
		t.Errorf("what is not corrected stays: %+v", s)
	}
}

// TestCorrectionOfSomethingElse: a correction that does not fit what it names
// is kept and changes nothing; above all it never takes the first fact away.
func TestCorrectionOfSomethingElse(t *testing.T) {
	before := fold(begun, weighed("olive", 344*g), batch.Ticked{Task: "melt"})
	for _, c := range []batch.Corrected{
		{Seq: 1, With: weighed("olive", g)},
		{Seq: 1, With: batch.Started{}},
		{Seq: 2, With: weighed("shea", g)},
		{Seq: 2, With: batch.Grossed{Task: "olive", Gross: g}},
		{Seq: 2, With: batch.Ticked{Task: "olive"}},
		{Seq: 3, With: weighed("melt", g)},
		{Seq: 4, With: weighed("olive", g)},
		{Seq: 99, With: weighed("olive", g)},
		{Seq: -1, With: weighed("olive", g)},
		{Seq: 2},
	} {
		s := before.Apply(entry(4, c))
		if sum, _ := s.Mass("olive"); sum != 344*g || s.Control.Loaves != 3 || len(s.Weighings("melt")) > 0 || len(s.Entries) != 4 {
			t.Errorf("%+v changed %+v", c, s)
		}
	}
}

// TestCorrectionEqualsSayingItRight: but for the record, a slip put right is the
// same as no slip.
func TestCorrectionEqualsSayingItRight(t *testing.T) {
	right := fold(begun, weighed("olive", 344*g), batch.Ticked{Task: "melt"}, weighed("shea", 153*g))
	slip := fold(begun, weighed("olive", 443*g), batch.Ticked{Task: "melt"}, weighed("shea", 153*g),
		batch.Corrected{Seq: 2, Reason: "swapped digits", With: weighed("olive", 344*g)})
	if !reflect.DeepEqual(right.Weighings("olive"), slip.Weighings("olive")) || !reflect.DeepEqual(right.Weighings("shea"), slip.Weighings("shea")) {
		t.Errorf("%+v\n%+v", right, slip)
	}
}

// drawFact draws a fact about one of a few tasks, so that facts meet.
func drawFact(t *rapid.T, seq int) batch.Fact {
	task := rapid.SampledFrom([]string{"olive", "shea", "melt"}).Draw(t, "task")
	m := quantity.Mass(rapid.Int64Range(-1000, 500_000).Draw(t, "mass"))
	w := weighed(task, m)
	w.More = rapid.Bool().Draw(t, "more")
	switch rapid.IntRange(0, 8).Draw(t, "kind") {
	case 0:
		return batch.Ticked{Task: task}
	case 1:
		return batch.Skipped{Task: task, Reason: "because"}
	case 2:
		return batch.Grossed{Task: task, Gross: m}
	case 3:
		return batch.TemperatureTaken{Task: task, Temperature: quantity.Temperature(m)}
	case 4:
		return batch.TimerSeen{Timer: task}
	case 5:
		return batch.TimerPutOff{Timer: task, For: time.Duration(m)}
	case 6:
		return batch.Corrected{Seq: rapid.IntRange(0, seq).Draw(t, "seq"), Reason: "because", With: w}
	case 7:
		return batch.Started{Control: recipe.Control{Loaves: int(m)}}
	default:
		return w
	}
}

// known is all that a state says, in words.
func known(s batch.State) string {
	text := fmt.Sprint(s.Control.Loaves, s.Closed(), len(s.Entries), s.Entries)
	for _, task := range []string{"olive", "shea", "melt"} {
		sum, finished := s.Mass(task)
		d, done := s.Done(task)
		gross, weighed := s.Gross(task)
		temp, taken := s.Temperature(task)
		word, said := s.Timer(task)
		text += fmt.Sprint(task, s.Weighings(task), sum, finished, d, done, gross, weighed, temp, taken, word, said)
	}
	return text
}

// TestApplyLeavesTheReceiver: two different facts on one state give two states
// that know nothing of each other, and the first state stays as it was.
func TestApplyLeavesTheReceiver(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var s batch.State
		for i := range rapid.IntRange(0, 12).Draw(t, "facts") {
			s = s.Apply(entry(i+1, drawFact(t, i+1)))
		}
		n := len(s.Entries) + 1
		before := known(s)
		one, other := entry(n, drawFact(t, n)), entry(n, drawFact(t, n))
		a := s.Apply(one)
		afterOne := known(a)
		b := s.Apply(other)
		if known(s) != before {
			t.Fatalf("%v or %v changed the state it was applied to", one.Fact, other.Fact)
		}
		if known(a) != afterOne {
			t.Fatalf("%v changed what %v had led to", other.Fact, one.Fact)
		}
		if again := known(batch.Fold(append(append([]batch.Entry{}, s.Entries...), other))); again != known(b) {
			t.Fatalf("folding anew gives\n%s\nand not\n%s", again, known(b))
		}
	})
}

func TestTask(t *testing.T) {
	for _, c := range []struct {
		f    batch.Fact
		want string
	}{
		{weighed("a", g), "a"},
		{batch.Ticked{Task: "b"}, "b"},
		{batch.Grossed{Task: "c"}, "c"},
		{batch.TemperatureTaken{Task: "d"}, "d"},
		{batch.Skipped{Task: "e"}, "e"},
		{batch.Corrected{With: weighed("f", g)}, "f"},
		{batch.Started{}, ""},
		{batch.TimerSeen{Timer: "x"}, ""},
		{batch.TimerPutOff{Timer: "x"}, ""},
		{batch.Noted{Text: "x"}, ""},
		{batch.Closed{}, ""},
		{batch.Corrected{}, ""},
		{nil, ""},
	} {
		if got := batch.Task(c.f); got != c.want {
			t.Errorf("%T is about %q, want %q", c.f, got, c.want)
		}
	}
}

// TestContainersDoNotMix: the fourth container of two histories that share the
// first three, when a slice would have room for one of them.
func TestContainersDoNotMix(t *testing.T) {
	s := fold(begun, weighed("olive", 1*g), weighed("olive", 2*g), weighed("olive", 3*g))
	a := s.Apply(entry(5, weighed("olive", 10*g)))
	b := s.Apply(entry(5, weighed("olive", 20*g)))
	for _, c := range []struct {
		s    batch.State
		want quantity.Mass
	}{{s, 6 * g}, {a, 16 * g}, {b, 26 * g}} {
		if sum, _ := c.s.Mass("olive"); sum != c.want {
			t.Errorf("%v, want %v", sum, c.want)
		}
	}
}
