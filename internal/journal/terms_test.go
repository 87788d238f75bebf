package journal

import (
	"slices"
	"testing"
	"time"
)

// Terms and Tagged give what begins with the prefix and nothing beside it, such
// as what sorts before, after, or holds SQL's own wild cards.
func TestTerms(t *testing.T) {
	store, err := Open(t.TempDir(), Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer store.Close()
	at := Stamp{Wall: time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)}
	for code, terms := range map[string][]string{
		"a": {"lot:1", "lot:2", "lot:灯", "lo", "loz:1", "note:%"}, "b": {"lot:2", "lot:%", "lot"}, "c": {},
	} {
		w, err := store.Hold(code, at)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := w.Append("k", []byte("{}"), terms, at); err != nil {
			t.Fatal(err)
		}
	}
	want := []string{"lot:%", "lot:1", "lot:2", "lot:灯"}
	if got, err := store.Terms("lot:"); err != nil || !slices.Equal(got, want) {
		t.Errorf("%v %v", got, err)
	}
	if got, err := store.Terms("lot:%"); err != nil || !slices.Equal(got, []string{"lot:%"}) {
		t.Errorf("%v %v", got, err)
	}
	if got, err := store.Terms("zzz"); err != nil || len(got) != 0 {
		t.Errorf("%v %v", got, err)
	}
	var pairs []string
	if err := store.Tagged("lot:", func(term, batch string) { pairs = append(pairs, term+" "+batch) }); err != nil {
		t.Fatal(err)
	}
	if want := []string{"lot:% b", "lot:1 a", "lot:2 a", "lot:2 b", "lot:灯 a"}; !slices.Equal(pairs, want) {
		t.Errorf("%v", pairs)
	}
}
