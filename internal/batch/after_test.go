package batch_test

import (
	"reflect"
	"testing"
	"time"

	"pgregory.net/rapid"

	"bench/internal/batch"
	"bench/internal/quantity"
)

// saids are with and without a time of their own.
var saids = rapid.Custom(func(t *rapid.T) batch.Said {
	s := batch.Said{Asked: texts.Draw(t, "asked"), Answer: texts.Draw(t, "answer")}
	if rapid.Bool().Draw(t, "said later") {
		s.When = time.Unix(rapid.Int64Range(0, 4e9).Draw(t, "when"), 0).UTC()
	}
	return s
})

func fact[F batch.Fact](draw func(*rapid.T) F) *rapid.Generator[batch.Fact] {
	return rapid.Custom(func(t *rapid.T) batch.Fact { return draw(t) })
}

// afterFacts are the kinds that follow the pour.
var afterFacts = []*rapid.Generator[batch.Fact]{
	fact(func(t *rapid.T) batch.GelLooked {
		return batch.GelLooked{
			Task: texts.Draw(t, "task"), Loaves: list(rapid.Int()).Draw(t, "loaves"), Look: batch.GelLook(texts.Draw(t, "look")),
			Temperature: quantity.Temperature(rapid.Int64().Draw(t, "temperature")), Said: saids.Draw(t, "said"),
		}
	}),
	fact(func(t *rapid.T) batch.UnmouldPutOff {
		return batch.UnmouldPutOff{
			Task: texts.Draw(t, "task"), Why: texts.Draw(t, "why"), For: time.Duration(rapid.Int64().Draw(t, "for")), Said: saids.Draw(t, "said"),
		}
	}),
	fact(func(t *rapid.T) batch.BarsCut {
		return batch.BarsCut{
			Task: texts.Draw(t, "task"), Loaf: rapid.Int().Draw(t, "loaf"), Bars: rapid.Int().Draw(t, "bars"),
			Planned: rapid.Int().Draw(t, "planned"), Why: texts.Draw(t, "why"), Said: saids.Draw(t, "said"),
		}
	}),
	fact(func(t *rapid.T) batch.BarsWeighed {
		return batch.BarsWeighed{
			Task: texts.Draw(t, "task"), Loaf: rapid.Int().Draw(t, "loaf"), Count: rapid.Int().Draw(t, "count"), Mass: masses.Draw(t, "mass"),
			Scale: texts.Draw(t, "scale"), Reads: masses.Draw(t, "reads"), Said: saids.Draw(t, "said"),
		}
	}),
	fact(func(t *rapid.T) batch.SetAside {
		return batch.SetAside{
			Task: texts.Draw(t, "task"), Piece: batch.Piece(texts.Draw(t, "piece")), Count: rapid.Int().Draw(t, "count"), Mass: masses.Draw(t, "mass"),
			Lot: texts.Draw(t, "lot"), Note: texts.Draw(t, "note"), Said: saids.Draw(t, "said"),
		}
	}),
	fact(func(t *rapid.T) batch.Marked {
		return batch.Marked{Task: texts.Draw(t, "task"), On: texts.Draw(t, "on"), Code: texts.Draw(t, "code")}
	}),
	fact(func(t *rapid.T) batch.WeighedIn {
		return batch.WeighedIn{
			Task: texts.Draw(t, "task"), Bar: texts.Draw(t, "bar"), Mass: masses.Draw(t, "mass"), Scale: texts.Draw(t, "scale"),
			Reads: masses.Draw(t, "reads"), Said: saids.Draw(t, "said"),
		}
	}),
	fact(func(t *rapid.T) batch.Tested {
		return batch.Tested{
			Task: texts.Draw(t, "task"), Test: batch.Test(texts.Draw(t, "test")), Value: numbers.Draw(t, "value"), Words: texts.Draw(t, "words"),
			Passed: rapid.Bool().Draw(t, "passed"), Said: saids.Draw(t, "said"),
		}
	}),
	fact(func(t *rapid.T) batch.Released {
		return batch.Released{
			Task: texts.Draw(t, "task"), By: texts.Draw(t, "by"), Bars: rapid.Int().Draw(t, "bars"), Open: list(texts).Draw(t, "open"),
			Reason: texts.Draw(t, "reason"), Said: saids.Draw(t, "said"),
		}
	}),
	fact(func(t *rapid.T) batch.Held {
		return batch.Held{
			Task: texts.Draw(t, "task"), By: texts.Draw(t, "by"), Open: list(texts).Draw(t, "open"), Reason: texts.Draw(t, "reason"),
			Said: saids.Draw(t, "said"),
		}
	}),
	fact(func(t *rapid.T) batch.Reworks {
		return batch.Reworks{Batch: texts.Draw(t, "batch"), Mass: masses.Draw(t, "mass"), Reason: texts.Draw(t, "reason")}
	}),
	fact(func(t *rapid.T) batch.Complained {
		return batch.Complained{
			About: batch.Reaction(texts.Draw(t, "about")), Words: texts.Draw(t, "words"), Who: texts.Draw(t, "who"), Said: saids.Draw(t, "said"),
		}
	}),
	fact(func(t *rapid.T) batch.BarsWent {
		return batch.BarsWent{Where: texts.Draw(t, "where"), Count: rapid.Int().Draw(t, "count"), Said: saids.Draw(t, "said")}
	}),
}

func TestAfterThePourFolds(t *testing.T) {
	day := time.Date(2026, 3, 9, 18, 0, 0, 0, time.UTC)
	s := fold(begun,
		batch.WeighedIn{Task: "cure/1", Bar: "1", Mass: 112 * g},
		batch.WeighedIn{Task: "cure/1", Bar: "1", Mass: 901 * g, Said: batch.Said{When: day}},
		batch.Held{Task: "release", Reason: "pH 11"},
		batch.Corrected{Seq: 3, Reason: "turned round", With: batch.WeighedIn{Task: "cure/1", Bar: "1", Mass: 109 * g, Said: batch.Said{When: day}}},
	)
	in := batch.All[batch.WeighedIn](s)
	if len(in) != 2 || in[0].Fact.Mass != 112*g || in[1].Fact.Mass != 109*g || in[1].Seq != 3 {
		t.Fatalf("%+v", in)
	}
	if in[0].Moment() != entry(2, nil).At || in[1].Moment().Wall != day {
		t.Errorf("when: %v and %v", in[0].Moment(), in[1].Moment())
	}
	if last, ok := batch.Last[batch.WeighedIn](s, "cure/1"); !ok || last.Seq != 3 {
		t.Errorf("%+v", last)
	}
	if _, ok := batch.Last[batch.WeighedIn](s, "cure/2"); ok {
		t.Error("a bar that nobody weighed")
	}
	if released, held, e := s.Verdict(); released || !held || e.Seq != 4 {
		t.Errorf("released %v, held %v, by %d", released, held, e.Seq)
	}
	after := s.Apply(entry(6, batch.Released{Task: "release", Reason: "measured again: 9.8"}))
	if released, held, _ := after.Verdict(); !released || held {
		t.Error("the last word counts")
	}
	if _, held, _ := s.Verdict(); !held {
		t.Error("the state before was changed")
	}
	if !reflect.DeepEqual(batch.Fold(after.Entries), after) {
		t.Error("Fold and Apply differ")
	}
}

// TestOnlySomeFactsFollowTheEnd: what is learnt of bars that have left.
func TestOnlySomeFactsFollowTheEnd(t *testing.T) {
	for f, want := range map[batch.Fact]bool{
		batch.Noted{}: true, batch.Complained{}: true, batch.BarsWent{}: true, batch.WeighedIn{}: false, batch.Ticked{}: false,
	} {
		if batch.Late(f) != want {
			t.Errorf("%T: %v", f, !want)
		}
	}
	if !batch.Late(batch.Held{}) || !batch.Late(batch.Released{}) {
		t.Error("a warning that opens after the end wants a word")
	}
}
