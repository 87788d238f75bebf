package journal_test

import (
	"encoding/json"
	"os"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"bench/internal/journal"
)

// model is a store as anyone would write it who need not keep anything.
type model struct {
	begun []string // batch codes in the order of their first fact
	facts map[string][]journal.Record
}

func (m *model) add(r journal.Record) {
	if len(m.facts[r.Batch]) == 0 {
		m.begun = append(m.begun, r.Batch)
	}
	m.facts[r.Batch] = append(m.facts[r.Batch], r)
}

func (m *model) heads() (heads []journal.Head) {
	for _, b := range slices.Backward(m.begun) {
		rs := m.facts[b]
		ended := slices.ContainsFunc(rs, func(r journal.Record) bool { return r.Kind == "closed" })
		heads = append(heads, journal.Head{Batch: b, First: rs[0].Stamp.Wall, Last: rs[len(rs)-1].Stamp.Wall, Seq: len(rs), Ended: ended})
	}
	return heads
}

func (m *model) search(term string) (codes []string) {
	for _, b := range slices.Sorted(slices.Values(m.begun)) {
		if slices.ContainsFunc(m.facts[b], func(r journal.Record) bool { return slices.Contains(r.Terms, term) }) {
			codes = append(codes, b)
		}
	}
	return codes
}

var (
	someBatch = rapid.SampledFrom([]string{"26K25A", "26K25a", "26K26B", "dusk & moon/2", "Molenmäß"})
	someTerm  = rapid.OneOf(rapid.SampledFrom([]string{"OL-1", "OL-2", "", "a\x00b"}), rapid.String())
	someKind  = rapid.OneOf(rapid.StringMatching(`[a-zé ]{1,8}`), rapid.Just("closed"))
	someBody  = rapid.Custom(func(t *rapid.T) []byte {
		b, err := json.MarshalIndent(rapid.MapOfN(rapid.String(), rapid.Float64(), 0, 5).Draw(t, "fields"), "", "\t")
		if err != nil {
			t.Fatal(err)
		}
		return b
	})
	someStamp = rapid.Custom(func(t *rapid.T) journal.Stamp {
		minutes := rapid.IntRange(-14*60, 14*60).Draw(t, "offset")
		ns := rapid.Int64Range(-1<<60, 1<<62).Draw(t, "ns")
		return journal.Stamp{
			Wall:      time.Unix(0, ns).In(time.FixedZone("", minutes*60)),
			BootID:    rapid.String().Draw(t, "boot"),
			SinceBoot: time.Duration(rapid.Int64().Draw(t, "since")),
		}
	})
)

func TestStoreAgainstModel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		dir, err := os.MkdirTemp("", "journal-model")
		check(t, err)
		defer func() { _ = os.RemoveAll(dir) }()
		s, err := journal.Open(dir, journal.Options{})
		check(t, err)
		defer func() { check(t, s.Close()) }()
		m := &model{facts: map[string][]journal.Record{}}
		writers := map[string]*journal.Writer{}
		t.Repeat(map[string]func(*rapid.T){
			"append": func(t *rapid.T) {
				batch := someBatch.Draw(t, "batch")
				if writers[batch] == nil {
					w, err := s.Hold(batch, someStamp.Draw(t, "now"))
					check(t, err)
					writers[batch] = w
				}
				in := journal.Record{
					Batch: batch, Seq: len(m.facts[batch]) + 1, Stamp: someStamp.Draw(t, "at"), Kind: someKind.Draw(t, "kind"),
					Body: someBody.Draw(t, "body"), Terms: rapid.SliceOfN(someTerm, 0, 4).Draw(t, "terms"),
				}
				out, err := writers[batch].Append(in.Kind, in.Body, in.Terms, in.Stamp)
				check(t, err)
				in.Sum = out.Sum
				same(t, in, out)
				m.add(out)
			},
			"release": func(t *rapid.T) {
				batch := someBatch.Draw(t, "batch")
				if w := writers[batch]; w != nil {
					check(t, w.Release())
					delete(writers, batch)
				}
			},
			"reopen": func(t *rapid.T) {
				check(t, s.Close())
				clear(writers)
				s, err = journal.Open(dir, journal.Options{})
				check(t, err)
				compare(t, s, m)
			},
			"search": func(t *rapid.T) {
				term := someTerm.Draw(t, "term")
				codes, err := s.Search(term)
				check(t, err)
				same(t, m.search(term), codes)
			},
			"": func(t *rapid.T) {
				batch := someBatch.Draw(t, "looked at")
				got, err := s.Records(batch)
				check(t, err)
				same(t, m.facts[batch], got)
			},
		})
		reader, err := journal.Open(dir, journal.Options{ReadOnly: true})
		check(t, err)
		compare(t, reader, m)
		check(t, reader.Close())
	})
}

func compare(t *rapid.T, s *journal.Store, m *model) {
	heads, err := s.Batches()
	check(t, err)
	same(t, m.heads(), heads)
	for batch, want := range m.facts {
		got, err := s.Records(batch)
		check(t, err)
		same(t, want, got)
	}
}

func check(t *rapid.T, err error) {
	if err != nil {
		t.Fatal(err)
	}
}

func same(t *rapid.T, want, got any) {
	if d := diff(want, got); d != "" {
		t.Fatalf("(-want +got):\n%s", d)
	}
}
