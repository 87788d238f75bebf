package uses

import (
	"fmt"
	"slices"
	"strings"

	"bench/internal/quantity"
	"bench/internal/recipe"
)

// Occupied is a vessel of the workshop, or a kind of mould, that holds something of a
// batch, or a stick that went into one.
type Occupied struct {
	Batch  string // Batch is its code.
	Vessel string
	What   string // What says what it holds, such as "the sea lye solution".
	Alkali bool   // Alkali says that lye, or dry hydroxide, stands open in it.
	Left   string // Left is what was not done yet, such as "wiped out", where only what clings to it is left.
	Burns  bool   // Burns says that what it holds, or what clings to it, is lye, dry hydroxide or raw batter.
	Wants  bool   // Wants says that the batch still wants dry hydroxide.
	Moulds int    // Moulds is how many, where these are moulds of that name.

	Stick recipe.StickUse // Stick is a stick that the batch took, where it is none of these.
}

// String says what holds what, and of which batch.
func (o Occupied) String() string {
	if o.Left != "" {
		return fmt.Sprintf("%s was not %s yet: it holds %s of batch %s", o.Vessel, o.Left, o.What, o.Batch)
	}
	return fmt.Sprintf("%s holds %s of batch %s", o.Vessel, o.What, o.Batch)
}

// Held says what it holds, or what clings to it.
func (o Occupied) Held() string {
	switch {
	case o.Moulds > 0:
		return quantity.Count(o.Moulds, "loaf", "loaves")
	case o.Left != "":
		return o.What + ", not " + o.Left + " yet"
	}
	return o.What
}

// Occupied lists the vessels that are full, or not wiped out yet, under the code of
// their batch; wants says that it still wants dry hydroxide.
func (l List) Occupied(code string, wants bool) []Occupied {
	var list []Occupied
	for _, u := range l {
		if u.Full {
			list = append(list, Occupied{Batch: code, Vessel: u.Vessel, What: u.What, Alkali: u.Alkali, Burns: u.Burns, Wants: wants})
		}
	}
	for _, u := range l {
		if _, told := Holds(u.Vessel, list); u.Left != "" && !told {
			list = append(list, Occupied{Batch: code, Vessel: u.Vessel, What: u.What, Left: u.Left, Burns: u.Burns})
		}
	}
	return list
}

// Holds finds what other batches have in a vessel of that name.
func Holds(vessel string, others []Occupied) (Occupied, bool) {
	for _, o := range others {
		if vessel != "" && o.Moulds == 0 && recipe.Fold(o.Vessel) == recipe.Fold(vessel) {
			return o, true
		}
	}
	return Occupied{}, false
}

// LyeOpen says which other batch has lye, or dry hydroxide, open; of those that still
// want dry hydroxide alone, or of all; or "".
func LyeOpen(others []Occupied, all bool) string {
	for _, o := range others {
		if o.Alkali && (all || o.Wants) {
			return fmt.Sprintf("batch %s has lye open: %s holds %s", o.Batch, o.Vessel, o.What)
		}
	}
	return ""
}

// Wanting is a batch that still wants dry hydroxide, whatever its vessels hold.
func Wanting(code string) Occupied { return Occupied{Batch: code, Wants: true} }

// HydroxideWanted says which other batches still want dry hydroxide, or "".
func HydroxideWanted(others []Occupied) string {
	var codes []string
	for _, o := range others {
		if o.Wants && !slices.Contains(codes, o.Batch) {
			codes = append(codes, o.Batch)
		}
	}
	if len(codes) == 0 {
		return ""
	}
	return "hydroxide is still wanted for batch " + strings.Join(codes, " and ")
}

// LeaveFull names the lye jugs, or the other vessels, that by now are full of another
// batch's: what is cleaned up is not those.
func (l List) LeaveFull(others []Occupied, lye bool) string {
	var words []string
	for _, u := range l {
		o, ok := Holds(u.Vessel, others)
		if ok && o.Left == "" && (u.Kind == recipe.LyeJug) == lye && u.Kind != recipe.Cup && !slices.Contains(words, o.String()) {
			words = append(words, o.String())
		}
	}
	return strings.Join(words, "; ")
}

// Clashes says which of the vessels that are wanted hold something of other batches.
func (l List) Clashes(others []Occupied) []string {
	var words []string
	seen := map[string]bool{}
	for _, u := range l {
		if o, ok := Holds(u.Vessel, others); ok && !u.Over && !seen[u.Vessel] {
			seen[u.Vessel] = true
			words = append(words, o.String()+": have another ready for "+u.What)
		}
	}
	return words
}

// FewMoulds says that other batches have moulds of which a batch wants so many, or "".
// Where the workshop does not say how many there are, every one in use is told.
func FewMoulds(m recipe.Mould, wanted int, others []Occupied) string {
	inUse, by := 0, ""
	for _, o := range others {
		if o.Moulds > 0 && recipe.Fold(o.Vessel) == recipe.Fold(m.Name) {
			inUse += o.Moulds
			by += " and " + o.Batch
		}
	}
	want := quantity.Count(wanted, "mould", "moulds")
	switch {
	case inUse == 0 || m.Count > 0 && m.Count-inUse >= wanted:
		return ""
	case m.Count == 0:
		return fmt.Sprintf("%d of the moulds called %s are in use for batch %s; this one wants %s, and the workshop file does not say how many there are",
			inUse, m.Name, by[len(" and "):], want)
	}
	return fmt.Sprintf("%d of %d moulds called %s are in use for batch %s, and this one wants %s",
		inUse, m.Count, m.Name, by[len(" and "):], want)
}
