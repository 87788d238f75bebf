package curing

import (
	"fmt"
	"math"

	"bench/internal/batch"
	"bench/internal/quantity"
)

// Spread is how bars differ. Own, Least, Most and Deviation are of those that were
// weighed one by one; several together tell only of the mean.
type Spread struct {
	Count     int // Count is how many bars were weighed.
	Single    int // Single is how many of them were weighed one by one.
	Mean      quantity.Mass
	Own       quantity.Mass // Own is the mean of those that were weighed one by one.
	Least     quantity.Mass
	Most      quantity.Mass
	Deviation float64 // Deviation is the sample standard deviation in g; zero for fewer than two.
	Reads     quantity.Mass
}

// SpreadOf sums up the bars that were weighed for some task, or for any that
// begins with the prefix.
func SpreadOf(weighed []batch.Told[batch.BarsWeighed], of func(task string) bool) Spread {
	s, sum, squares, single := Spread{}, quantity.Mass(0), 0.0, 0.0
	for _, w := range weighed {
		f := w.Fact
		if !of(f.Task) || f.Count < 1 || f.Mass <= 0 {
			continue
		}
		s.Count, sum, s.Reads = s.Count+f.Count, sum+f.Mass, max(s.Reads, f.Reads)
		if f.Count > 1 {
			continue
		}
		s.Single++
		s.Most = max(s.Most, f.Mass)
		if s.Single == 1 || f.Mass < s.Least {
			s.Least = f.Mass
		}
		single += f.Mass.Grams()
	}
	if s.Count == 0 {
		return s
	}
	s.Mean = sum / quantity.Mass(s.Count)
	if s.Single > 0 {
		s.Own = quantity.FromGrams(single / float64(s.Single))
	}
	if s.Single < 2 {
		return s
	}
	mean := single / float64(s.Single)
	for _, w := range weighed {
		if of(w.Fact.Task) && w.Fact.Count == 1 && w.Fact.Mass > 0 {
			squares += (w.Fact.Mass.Grams() - mean) * (w.Fact.Mass.Grams() - mean)
		}
	}
	s.Deviation = math.Sqrt(squares / float64(s.Single-1))
	return s
}

// Words says how bars of that kind differ, or nothing where none were weighed. What
// is known of some of them only is said of those.
func (s Spread) Words(kind string) []string {
	if s.Count == 0 {
		return nil
	}
	words := fmt.Sprintf("%s %s: mean %s g", many(s.Count, "bar"), kind, s.Mean.At(s.Reads))
	if s.Single > 1 && s.Single < s.Count {
		words += fmt.Sprintf("; %d of them one by one: mean %s g", s.Single, s.Own.At(s.Reads))
	}
	if s.Single > 1 {
		words += fmt.Sprintf(", %s to %s g, standard deviation %.1f g", s.Least.At(s.Reads), s.Most.At(s.Reads), s.Deviation)
	}
	return []string{words + "."}
}
