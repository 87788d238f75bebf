package steps_test

import (
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/say"
	"bench/internal/steps"
)

// released is a batch of the harbour workshop whose bars were released, and five of them
// went to the market.
func released(t *testing.T) *bencher {
	t.Helper()
	b := cured(t, harbour())
	if err := b.work(never); err != nil {
		t.Fatal(err)
	}
	b.allows(t, batch.BarsWent{Where: "the market", Count: 5})
	if p := b.plan(); !p.Finished() || len(p.Since()) != 0 {
		t.Fatalf("finished %v, since %q", p.Finished(), p.Since())
	}
	return b
}

// TestWarningAfterTheRelease: a corrected weight of alkali, or a skin reaction, that is said
// after the release asks for a word again, which answers it. The batch does not end before.
func TestWarningAfterTheRelease(t *testing.T) {
	soda := func(t *testing.T, b *bencher) {
		b.correct(t, "sea/sodium hydroxide", (b.task(t, "sea/sodium hydroxide").Mass + 30*g).At(g/10))
	}
	for name, c := range map[string]struct {
		then func(*testing.T, *bencher)
		want string
	}{
		"corrected": {soda, "sea: the superfat may be as low as -"},
		"skin": {func(t *testing.T, b *bencher) {
			b.allows(t, batch.Complained{About: batch.SkinReaction, Words: "itches"})
		}, "skin reaction: itches"},
	} {
		t.Run(name, func(t *testing.T) {
			b := released(t)
			c.then(t, b)
			p := b.plan()
			if since := p.Since(); len(since) != 1 || !strings.HasPrefix(since[0], c.want) {
				t.Fatalf("since the release: %q", since)
			}
			task, st, _ := p.Task("release/decide")
			if id, _ := p.Next(b.moment()); id != "release/decide" || p.Finished() || st.Title != "release: a word again" {
				t.Errorf("next %q, finished %v, %q", id, p.Finished(), st.Title)
			}
			if !strings.Contains(task.Hint, "5 bars are out already: 5 to the market, ") || !strings.Contains(task.Hint, c.want) {
				t.Error(task.Hint)
			}
			b.refuses(t, batch.Closed{Reason: "all sold"}, "not before a word on the bars")

			list := judge.Choices(p, "release/decide", "")
			held, _ := list[1].With("call them back")
			kept := *b
			kept.allows(t, held)
			if p := kept.plan(); len(p.Since()) != 0 || p.Finished() {
				t.Errorf("held: since %q, finished %v", p.Since(), p.Finished())
			}
			b.refuses(t, list[0].Fact, "not without a reason")
			free, _ := list[0].With("titrated: 0.01 %")
			b.allows(t, free)
			if p := b.plan(); len(p.Since()) != 0 || !p.Finished() || len(p.Open()) != 1 {
				t.Errorf("let stand: since %q, open %q", p.Since(), p.Open())
			}
			b.allows(t, batch.Complained{About: batch.SkinReaction, Words: "itches"}) // In the same words it is another.
			if since := b.plan().Since(); len(since) != 1 {
				t.Errorf("another: %q", since)
			}
		})
	}
}

// TestWarningAfterTheEnd: of a batch that is closed the word can be given all the same, once.
func TestWarningAfterTheEnd(t *testing.T) {
	b := released(t)
	b.allows(t, batch.Closed{})
	again := batch.Released{Task: "release/decide", Reason: "patch tested"}
	b.refuses(t, again, "done already")
	b.allows(t, batch.Complained{About: batch.SkinReaction, Words: "itches"})
	list := judge.Afterwards(b.plan())
	if last := list[len(list)-1]; last.Title != "Let the release stand" || !strings.Contains(list[3].Why, "5 to the market") {
		t.Errorf("%+v", list)
	} else {
		free, _ := last.With("patch tested")
		b.allows(t, free)
	}
	if since := b.plan().Since(); len(since) != 0 {
		t.Errorf("answered: %q", since)
	}
	b.refuses(t, again, "done already")
}

// TestReleasedOverAWarning: what was open and answered by the reason opens nothing after it.
func TestReleasedOverAWarning(t *testing.T) {
	b := cured(t, harbour())
	b.allows(t, batch.Tested{Task: "test/alkali", Test: batch.PHTest, Value: 11})
	b.workTo(t, "release/decide")
	f, _ := judge.Choices(b.plan(), "release/decide", "")[0].With("by titration")
	b.allows(t, f)
	if p := b.plan(); len(p.Open()) != 1 || len(p.Since()) != 0 || !p.Finished() {
		t.Errorf("open %q, since %q", p.Open(), p.Since())
	}
	if got := steps.Of(batch.Fold(b.state.Entries)).Since(); len(got) != 0 {
		t.Errorf("read again: %q", got)
	}
}

// TestThrownAway: held bars end in the word that they are thrown away, with the reason; of
// bars that are out already that is no word.
func TestThrownAway(t *testing.T) {
	b := cured(t, harbour())
	b.allows(t, batch.Tested{Task: "test/alkali", Test: batch.FreeAlkaliTest, Value: 0.08})
	b.workTo(t, "release/decide")
	held, _ := judge.Choices(b.plan(), "release/decide", "")[1].With("lye pockets")
	b.allows(t, held)
	list := judge.Choices(b.plan(), "release/decide", "")
	if list[judge.Offered(list)].Fact.(batch.Held).Task == "" || len(list) != 3 {
		t.Fatalf("%+v", list)
	}
	if _, err := list[2].With(" "); err == nil {
		t.Error("thrown away without a word")
	}
	gone, _ := list[2].With("lye pockets")
	b.allows(t, gone)
	p := b.plan()
	if words := say.Fact(b.state.Entries[len(b.state.Entries)-1], p, b.state); !p.Closed || !strings.Contains(words, "the bars were thrown away: lye pockets") {
		t.Errorf("closed %v: %s", p.Closed, words)
	}
	out := released(t)
	out.allows(t, batch.Complained{About: batch.SkinReaction, Words: "itches"})
	if list := judge.Choices(out.plan(), "release/decide", ""); len(list) != 2 {
		t.Errorf("%+v", list)
	}
}
