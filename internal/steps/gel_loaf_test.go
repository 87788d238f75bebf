package steps_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/rest"
	"bench/internal/tell"
)

// look gives the answer of that name to a look at the gel, of one loaf, or for 0 of all of
// which nothing was said.
func (b *bencher) look(t *testing.T, task string, loaf int, name batch.GelLook) batch.Fact {
	t.Helper()
	for _, c := range judge.Choices(b.plan(), task, "") {
		if c := judge.OfLoaf(b.plan(), c, loaf); c.Fact.(batch.GelLooked).Look == name {
			return c.Fact
		}
	}
	t.Fatalf("%s is no answer", name)
	return nil
}

// TestGelOfEachLoaf: one loaf overheats, and the others do not. The look stays open, with
// its timer, until something was said of each; the others are answered in one go; only the
// one that overheated is looked at again in ten minutes, and searched for lye pockets at its cut.
func TestGelOfEachLoaf(t *testing.T) {
	b := resting(t, harbour())
	b.wait(70 * time.Minute)
	second := b.look(t, "gel/1 h", 2, batch.Rising)
	b.allows(t, second)
	if words := tell.Fact(stored(t, batch.Entry{Fact: second}).Fact); words != "look at the gel of loaf 2: rising" {
		t.Error(words)
	}
	if left := b.plan().GelUnseen("gel/1 h"); !slices.Equal(left, []int{1, 3}) || due(b, rest.GelTimer+"1") < 0 {
		t.Errorf("still to be looked at: %v", left)
	}
	task := b.task(t, "gel/1 h")
	if task.Done || !task.Open || !strings.Contains(task.Hint, "loaf 2 rising") || !strings.Contains(task.Title, "other loaves") {
		t.Errorf("%+v", task)
	}
	b.refuses(t, second, "loaf 2 was looked at already: rising")
	b.refuses(t, batch.GelLooked{Task: "gel/1 h", Loaves: []int{4}, Look: batch.NoGel}, "no loaf 4")
	b.refuses(t, batch.GelLooked{Task: "gel/1 h", Loaves: []int{0}, Look: batch.NoGel}, "no loaf 0")
	again := fmt.Sprintf("gel/again %d", len(b.state.Entries))
	if left := b.plan().GelUnseen(again); !slices.Equal(left, []int{2}) || due(b, rest.GelTimerOf(again)) < 0 {
		t.Errorf("what overheats, and no other, is looked at again: %v", left)
	}
	others := b.look(t, "gel/1 h", 0, batch.Gelling)
	b.allows(t, others)
	if words := tell.Fact(others); words != "look at the gel of loaves 1 and 3: gelling" {
		t.Error(words)
	}
	if task := b.task(t, "gel/1 h"); !task.Done || due(b, rest.GelTimer+"1") >= 0 {
		t.Errorf("%+v", task)
	}
	for loaf, want := range map[int]batch.GelLook{1: batch.Gelling, 2: batch.Rising, 3: batch.Gelling} {
		if got := b.plan().GelSaid("gel/1 h", loaf); got != want {
			t.Errorf("loaf %d: %s", loaf, got)
		}
	}
	for loaf := 1; loaf <= 3; loaf++ {
		hint := b.task(t, fmt.Sprintf("cut/loaf %d", loaf)).Hint
		if strings.Contains(hint, "It overheated (look ") != (loaf == 2) {
			t.Errorf("loaf %d: %q", loaf, hint)
		}
	}
	seq := len(b.state.Entries) - 1
	b.put(batch.Withdrawn{Seq: seq, Reason: "it was loaf 1"})
	if left := b.plan().GelUnseen("gel/1 h"); !slices.Equal(left, []int{2}) {
		t.Errorf("taken back, and still to be looked at: %v", left)
	}
}

// TestGelOfAllLoaves: loaves that look alike are one answer, as before.
func TestGelOfAllLoaves(t *testing.T) {
	b := resting(t, harbour())
	b.wait(70 * time.Minute)
	all := b.look(t, "gel/1 h", 0, batch.FullGel)
	if f := all.(batch.GelLooked); f.Loaves != nil || tell.Fact(f) != "look at the gel: full gel" {
		t.Errorf("%+v", f)
	}
	b.allows(t, all)
	if task := b.task(t, "gel/1 h"); !task.Done || len(b.plan().GelUnseen("gel/1 h")) > 0 {
		t.Errorf("%+v", task)
	}
	b.refuses(t, b.look(t, "gel/1 h", 0, batch.NoGel), "done already")
}

// TestRetainedBarIsABar: one that is kept for later weighs what a bar does, or it is asked
// about and kept with the answer; one that was not weighed is not.
func TestRetainedBarIsABar(t *testing.T) {
	b := resting(t, harbour())
	b.wait(25 * time.Hour)
	b.workTo(t, "cut/retained")
	bar := b.plan().Poured().Bars[0].Grams()
	for grams, asked := range map[float64]bool{bar: false, 1.14 * bar: false, 0.83 * bar: false, 1.2 * bar: true, 0.69 * bar: true, 10 * bar: true} {
		f := b.said(t, "cut/retained", fmt.Sprintf("%.1f", grams))
		if doubt := judge.Doubt(b.plan(), f); (doubt != "") != asked || asked && !strings.Contains(doubt, "expected about") {
			t.Errorf("%.1f g of %.1f g: %q", grams, bar, doubt)
		}
		if !asked {
			continue
		}
		b.refuses(t, f, "expected about")
		kept, ok := judge.Answered(f, judge.Doubt(b.plan(), f), "a double bar")
		if !ok {
			t.Fatal("the answer is not kept")
		}
		if err := judge.Allows(b.plan(), kept, b.moment()); err != nil {
			t.Error(err)
		}
	}
	if doubt := judge.Doubt(b.plan(), batch.SetAside{Task: "cut/retained", Piece: batch.RetainedBar, Count: 1}); doubt != "" {
		t.Error(doubt)
	}
	b.allows(t, b.said(t, "cut/retained", fmt.Sprintf("%.1f", bar)))
}
