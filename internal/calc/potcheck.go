package calc

import (
	"cmp"
	"math"
	"slices"
)

// The policy of this file: a wrong acquittal costs a batch, so whatever the
// scale cannot rule out is named. Tolerances add up instead of averaging out.

// Candidate is something that belongs into a vessel: the grams that were
// weighed, or that are planned while it does not count as in, and how far its
// real weight may lie from that. Ingredients and tolerances are zero or more. Out
// turns it round: it is poured out of the vessel, and In says that it was.
type Candidate struct {
	Name             string
	Grams, Tolerance float64
	In, Out          bool
}

// adds gives what the candidate makes the vessel heavier by once it counts as in.
func (c Candidate) adds() float64 {
	if c.Out {
		return -c.Grams
	}
	return c.Grams
}

// Counts gives what the candidate makes the vessel heavier by as it stands.
func (c Candidate) Counts() float64 {
	if !c.In {
		return 0
	}
	return c.adds()
}

// FaultKind says what is wrong with a candidate.
type FaultKind int

// The faults that a weight can show.
const (
	Missing    FaultKind = iota // counts as in, and is not
	Twice                       // is in twice
	Unrecorded                  // does not count as in, and is
	Stayed                      // counts as poured out, and is not
	PouredOut                   // does not count as poured out, and is
)

// Fault is one candidate's.
type Fault struct {
	Kind FaultKind
	Name string
}

// PotKind says what a weighing shows.
type PotKind int

// What a weighing can show.
const (
	AsExpected  PotKind = iota
	Explained           // by one fault alone
	Ambiguous           // several explanations fit, or only pairs do
	Unexplained         // nothing fits
)

// Finding is what the gross weight of a vessel says. Difference is the grams
// that it holds more than it should. Explanations are the faults that fit,
// alone or in pairs, best first. For AsExpected they are faults too small to
// show on this weighing.
type Finding struct {
	Kind         PotKind
	Difference   float64
	Explanations [][]Fault
}

// WeighPot compares a gross weight with the facts. Tolerance is that of the
// gross and the tare together. Pairs of faults are looked for only where no
// single one fits, and they never count as explained.
func WeighPot(candidates []Candidate, tareGrams, grossGrams, toleranceGrams float64) Finding {
	expected, slack := tareGrams, toleranceGrams
	for _, c := range candidates {
		if c.In {
			expected += c.Counts()
			slack += c.Tolerance
		}
	}
	f := Finding{Difference: grossGrams - expected}
	singles := suspects(candidates)
	fitting := fit(singles, f.Difference, slack)
	switch {
	case math.Abs(f.Difference) <= slack:
		f.Explanations = fitting
		return f
	case len(fitting) == 0:
		fitting = fit(pairs(singles), f.Difference, slack)
		f.Kind = Ambiguous
	case len(fitting) == 1:
		f.Kind = Explained
	default:
		f.Kind = Ambiguous
	}
	if len(fitting) == 0 {
		f.Kind = Unexplained
	}
	f.Explanations = fitting
	return f
}

// suspect is a set of faults with the difference that it would make. Candidate
// tells two containers of one ingredient apart.
type suspect struct {
	faults           []Fault
	grams, tolerance float64
	candidate        int
}

// suspects lists each candidate's faults. One that has no weight cannot show.
func suspects(candidates []Candidate) []suspect {
	var out []suspect
	for i, c := range candidates {
		switch {
		case c.Grams <= 0:
		case c.Out && c.In:
			out = append(out, suspect{[]Fault{{Stayed, c.Name}}, c.Grams, 0, i})
		case c.Out:
			out = append(out, suspect{[]Fault{{PouredOut, c.Name}}, -c.Grams, c.Tolerance, i})
		case c.In:
			out = append(
				out,
				suspect{[]Fault{{Missing, c.Name}}, -c.Grams, 0, i},
				suspect{[]Fault{{Twice, c.Name}}, c.Grams, c.Tolerance, i},
			)
		default:
			out = append(out, suspect{[]Fault{{Unrecorded, c.Name}}, c.Grams, c.Tolerance, i})
		}
	}
	return out
}

// pairs joins suspects, and leaves out missing and twice of one candidate.
func pairs(singles []suspect) []suspect {
	var out []suspect
	for i, a := range singles {
		for _, b := range singles[i+1:] {
			if a.candidate != b.candidate {
				out = append(out, suspect{
					faults: slices.Concat(a.faults, b.faults),
					grams:  a.grams + b.grams, tolerance: a.tolerance + b.tolerance,
				})
			}
		}
	}
	return out
}

// fit keeps the suspects that explain the difference, nearest first.
func fit(all []suspect, difference, slack float64) [][]Fault {
	off := func(s suspect) float64 { return math.Abs(difference - s.grams) }
	var fitting []suspect
	for _, s := range all {
		if off(s) <= slack+s.tolerance {
			fitting = append(fitting, s)
		}
	}
	slices.SortStableFunc(fitting, func(a, b suspect) int { return cmp.Compare(off(a), off(b)) })
	var out [][]Fault
	for _, s := range fitting {
		out = append(out, s.faults)
	}
	return out
}
