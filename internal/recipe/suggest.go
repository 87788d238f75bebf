package recipe

import (
	"cmp"
	"slices"
	"strings"
	"unicode"

	"bench/internal/oils"
)

// Fold gives the form in which names are compared: without regard to case, to
// hyphens and underscores in place of spaces, and to repeated spaces.
func Fold(name string) string {
	folded := strings.Map(func(r rune) rune {
		if r == '_' || r == '-' {
			return ' '
		}
		return unicode.ToLower(r)
	}, name)
	return strings.Join(strings.Fields(folded), " ")
}

// Suggest gives up to three of the known words that the word may have been
// meant for, the likeliest first.
func Suggest(word string, known []string) []string {
	const most = 3
	type candidate struct {
		word     string
		distance int
	}
	w := Fold(word)
	var near []candidate
	for _, k := range known {
		f := Fold(k)
		d := distance(w, f)
		if len(w) >= 3 && strings.Contains(" "+f, " "+w) {
			d = min(d, 1) // "coconut" for "coconut oil".
		}
		if d <= max(1, min(len(w), len(f))/3) {
			near = append(near, candidate{k, d})
		}
	}
	slices.SortStableFunc(near, func(a, b candidate) int { return cmp.Compare(a.distance, b.distance) })
	var words []string
	for _, c := range near[:min(most, len(near))] {
		words = append(words, c.word)
	}
	return words
}

// distance counts the letters to insert, delete, replace or swap with their
// neighbour that turn a into b (optimal string alignment). Words longer than
// any name are not compared.
func distance(a, b string) int {
	const longest = 80
	if len(a) > longest || len(b) > longest {
		return longest
	}
	s, t := []rune(a), []rune(b)
	var before []int // before is the row above the row above.
	above := make([]int, len(t)+1)
	for j := range above {
		above[j] = j
	}
	for i := 1; i <= len(s); i++ {
		row := make([]int, len(t)+1)
		row[0] = i
		for j := 1; j <= len(t); j++ {
			cost := 1
			if s[i-1] == t[j-1] {
				cost = 0
			}
			row[j] = min(above[j]+1, row[j-1]+1, above[j-1]+cost)
			if i > 1 && j > 1 && s[i-1] == t[j-2] && s[i-2] == t[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, above = above, row
	}
	return above[len(t)]
}

// DidYouMean gives the end of a sentence about an unknown word: a suggestion,
// or else the words that are known if they are few, or else nothing.
func DidYouMean(word string, known []string) string {
	const few = 8
	switch near := Suggest(word, known); {
	case len(near) > 0:
		return ": did you mean " + strings.Join(near, " or ") + "?"
	case len(known) > 0 && len(known) <= few:
		return ": it can be " + strings.Join(known, ", ")
	}
	return ""
}

// OilKey gives the key of the table that a text names, whether as a key or in
// full, and the text itself if there is none.
func OilKey(text string) string {
	f := Fold(text)
	for _, o := range oils.All() {
		if Fold(o.Key) == f || Fold(o.Name) == f {
			return o.Key
		}
	}
	return text
}
