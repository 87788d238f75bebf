package ledger

import (
	"errors"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/sample"
	"bench/internal/timer"
)

// remade makes a store with four batches: C is made of A, D of C, and A of D as well, which
// no batch can be; B has nothing to do with them.
func remade(t *testing.T) (*Ledger, []string) {
	t.Helper()
	l := past(t, 0)
	at := timer.Moment{Wall: time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)}
	control := sample.Control(t, "lighthouse-at-dusk.yaml", 1)
	codes := make([]string, 4)
	for i := range codes {
		code, _, err := l.Start(control, at)
		if err != nil {
			t.Fatal(err)
		}
		codes[i] = code
	}
	for _, f := range []struct {
		of int
		f  batch.Fact
	}{
		{0, batch.Weighed{Task: "lye/water", Material: "sea air", Lot: "SA-9", Mass: 6 * quantity.Gram}},
		{1, batch.Weighed{Task: "lye/water", Material: "sea air", Lot: "SA-8", Mass: 6 * quantity.Gram}},
		{2, batch.Reworks{Batch: codes[0], Mass: 540 * quantity.Gram, Reason: "lye pockets"}},
		{3, batch.Reworks{Batch: codes[2], Reason: "too soft"}},
		{0, batch.Reworks{Batch: codes[3], Reason: "a mistake"}},
		{1, batch.Closed{Reason: "fog"}},
	} {
		if _, err := l.Open(codes[f.of], at); err != nil {
			t.Fatal(err)
		}
		if _, err := l.Append(codes[f.of], f.f, at); err != nil {
			t.Fatal(err)
		}
	}
	return l, codes
}

// TestFindThroughWhatItIsMadeOf: what went into a batch is in the batches made of it, too,
// and in those made of them; a batch is found by what it is made of, and why.
func TestFindThroughWhatItIsMadeOf(t *testing.T) {
	l, codes := remade(t)
	a, c, d := codes[0], codes[2], codes[3]
	for name, x := range map[string]struct {
		q    Query
		want string
	}{
		"a lot":             {Query{Lot: "sa-9"}, fmt.Sprintf("%s %s<%s %s<%s<%s", a, c, a, d, c, a)},
		"a material":        {Query{Material: "sea air", Lot: "SA-9"}, fmt.Sprintf("%s %s<%s %s<%s<%s", a, c, a, d, c, a)},
		"a batch as a lot":  {Query{Lot: strings.ToLower(c)}, fmt.Sprintf("%s<%s<%s %s %s<%s", a, d, c, c, d, c)},
		"why":               {Query{Note: "pockets"}, c},
		"what it was":       {Query{Note: a}, c},
		"a part of a code":  {Query{Lot: a[:len(a)-1]}, ""},
		"no batch's recipe": {Query{Recipe: "pockets"}, ""},
	} {
		found, err := l.Find(x.q)
		var got []string
		for _, f := range found {
			got = append(got, strings.Join(append([]string{f.Batch}, f.Through...), "<"))
		}
		slices.Sort(got)
		if words := strings.Join(got, " "); err != nil || words != x.want {
			t.Errorf("%s: %q, %v; want %q", name, words, err, x.want)
		}
	}
}

// TestRecordNamesWhatWasMadeOfIt: the record of a batch names the batches made of it, and
// its copy beside the store does so at once; one that took that back is not named.
func TestRecordNamesWhatWasMadeOfIt(t *testing.T) {
	l, codes := remade(t)
	named := func() []string {
		t.Helper()
		s, err := l.State(codes[0])
		r, err2 := l.Record(codes[0], s)
		if err = errors.Join(err, err2); err != nil {
			t.Fatal(err)
		}
		return r.MadeInto
	}
	l.open[codes[2]].copy.Wait()
	text, err := os.ReadFile(copyPath(l.home, codes[0]))
	if err != nil || !strings.Contains(string(text), "Made into batch    "+codes[2]) {
		t.Errorf("%v: the copy lacks %s:\n%.600s", err, codes[2], text)
	}
	if got := named(); !slices.Equal(got, codes[2:3]) {
		t.Errorf("made into %q, want %s", got, codes[2])
	}
	at := timer.Moment{Wall: time.Date(2026, 3, 2, 10, 0, 0, 0, time.UTC)}
	if _, err := l.Append(codes[2], batch.Withdrawn{Seq: 2, Reason: "the other pot"}, at); err != nil {
		t.Fatal(err)
	}
	if got := named(); len(got) > 0 {
		t.Errorf("once taken back: %q", got)
	}
}

// TestLookedForUnderWayToo: what is looked for on the rack names the batches under way that
// have it, and through which.
func TestLookedForUnderWayToo(t *testing.T) {
	l, codes := remade(t)
	for words, want := range map[string]string{
		"sa-9":           fmt.Sprintf("%s %s<%s %s<%s<%s", codes[0], codes[2], codes[0], codes[3], codes[2], codes[0]),
		"sa-8":           codes[1],
		"sa-8 pockets":   "",
		codes[3]:         fmt.Sprintf("%s<%s %s<%s<%s %s", codes[0], codes[3], codes[2], codes[0], codes[3], codes[3]),
		"pockets dusk":   codes[2],
		" ":              codes[1], // Nothing asked is the shelf of closed ones.
		"gull " + "sa-9": "",
	} {
		past, err := l.Closed(words)
		got := slices.Clone(past.UnderWay)
		for _, b := range past.Batches {
			got = append(got, b.Code)
		}
		for i, code := range got {
			got[i] = strings.Join(append([]string{code}, past.Through[code]...), "<")
		}
		slices.Sort(got)
		if have := strings.Join(got, " "); err != nil || have != want {
			t.Errorf("%q: %q, %v; want %q", words, have, err, want)
		}
	}
}
