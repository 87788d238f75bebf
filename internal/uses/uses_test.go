package uses_test

import (
	"strings"
	"testing"

	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/uses"
)

const g = quantity.Gram

// TestOf: a jug that is emptied and filled again is asked for the most that it has to
// hold, and answers with what is in it now.
func TestOf(t *testing.T) {
	list := uses.List{
		{Vessel: "jug 1", What: "loaf 1's portion of sea", Load: 900 * g, Over: true},
		{Vessel: "jug 1", What: "loaf 1's portion of moon", Load: 300 * g},
		{Vessel: "jug 1", What: "the batter of dusk", Load: 200 * g, Full: true, Drawn: true},
		{Vessel: "jug 1", What: "loaf 1's portion of dusk", Load: 250 * g},
	}
	if u, ok := list.Of("jug 1"); !ok || u.What != "the batter of dusk" || u.Load != 300*g || !u.Full || !u.Drawn {
		t.Errorf("%+v", u)
	}
	if u, ok := list[:1].Of("jug 1"); ok {
		t.Errorf("nothing more goes into it: %+v", u)
	}
	if u, ok := list.Of("jug 2"); ok {
		t.Errorf("nobody named it: %+v", u)
	}
}

// TestTooSmall: 889 g at the density of warm palm oil, 0.889 g/ml, fill a litre (Codex
// Alimentarius CXS 210, apparent density at 50 °C; read in a transcription).
func TestTooSmall(t *testing.T) {
	list := uses.List{{Vessel: "pot", Load: 889 * g}}
	for _, c := range []struct {
		v    recipe.Vessel
		fits bool
	}{
		{recipe.Vessel{Name: "pot", Brim: 1001 * quantity.Millilitre}, true},
		{recipe.Vessel{Name: "pot", Brim: 999 * quantity.Millilitre}, false},
		{recipe.Vessel{Name: "pot"}, true},
		{recipe.Vessel{Name: "bowl", Brim: quantity.Millilitre}, true},
	} {
		if words := list.TooSmall([]recipe.Vessel{c.v}); (len(words) == 0) != c.fits {
			t.Errorf("%+v: %q", c.v, words)
		}
	}
}

// TestOccupied: what is full is told before what is only not wiped, and each once.
func TestOccupied(t *testing.T) {
	list := uses.List{
		{Vessel: "Jug 1", Kind: recipe.Jug, What: "raw sea batter", Over: true, Left: "wiped out"},
		{Vessel: "Jug 1", Kind: recipe.Jug, What: "the moon batter", Full: true},
		{Vessel: "pot 1", Kind: recipe.Pot, What: "raw sea batter", Over: true, Left: "wiped out"},
		{Vessel: "lye jug", Kind: recipe.LyeJug, What: "the sea lye solution", Full: true, Alkali: true},
		{Vessel: "jug 2", Kind: recipe.Jug, What: "the batter of dusk"},
	}
	others := list.Occupied("26K25A", false)
	var words []string
	for _, o := range others {
		words = append(words, o.String())
	}
	want := "Jug 1 holds the moon batter of batch 26K25A; lye jug holds the sea lye solution of batch 26K25A; " +
		"pot 1 was not wiped out yet: it holds raw sea batter of batch 26K25A"
	if got := strings.Join(words, "; "); got != want {
		t.Errorf("%s, want %s", got, want)
	}
	if _, full := uses.Holds("jug 1", others); !full {
		t.Error("a vessel is the same whatever the case of its name")
	}
	if _, full := uses.Holds("", others); full {
		t.Error("a task without a vessel fills none")
	}
	if uses.LyeOpen(others, false) != "" || !strings.Contains(uses.LyeOpen(others, true), "lye jug holds the sea lye") {
		t.Error("lye is open, and no dry hydroxide is wanted")
	}
	wanted := uses.List{{Vessel: "jug 1", What: "the sea batter"}, {Vessel: "jug 1", What: "the dusk batter"}, {Vessel: "pot 1", Over: true}, {Vessel: "lye jug", Kind: recipe.LyeJug, What: "the dusk lye"}}
	if got := wanted.Clashes(others); len(got) != 2 || !strings.HasSuffix(got[0], "have another ready for the sea batter") {
		t.Errorf("%q", got)
	}
	if got := wanted.LeaveFull(others, true); !strings.HasPrefix(got, "lye jug holds") {
		t.Errorf("%q", got)
	}
	if got := wanted.LeaveFull(others, false); got != "Jug 1 holds the moon batter of batch 26K25A" {
		t.Errorf("%q", got)
	}
}

// TestFewMoulds: of three moulds two are with another batch.
func TestFewMoulds(t *testing.T) {
	others := []uses.Occupied{{Batch: "26K25A", Vessel: "loaf mould", Moulds: 2}}
	for _, c := range []struct {
		have, wanted int
		says         string
	}{
		{3, 1, ""},
		{3, 2, "2 of 3 moulds called Loaf mould are in use for batch 26K25A, and this one wants 2 moulds"},
		{0, 1, "this one wants 1 mould, and the workshop file does not say"},
	} {
		got := uses.FewMoulds(recipe.Mould{Name: "Loaf mould", Count: c.have}, c.wanted, others)
		if c.says == "" && got != "" || !strings.Contains(got, c.says) {
			t.Errorf("%+v: %q", c, got)
		}
	}
	if _, full := uses.Holds("loaf mould", others); full {
		t.Error("a mould is no vessel")
	}
}
