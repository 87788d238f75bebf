// Package potcheck compares what a vessel weighs with the facts, and says what is
// missing, in twice, or in without a fact.
//
// The rule: calc finds what fits; nothing here decides, and an answer that could
// be another is said to be ambiguous.
package potcheck

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"bench/internal/calc"
	"bench/internal/quantity"
)

// Content is what a vessel holds by the facts, and what may yet go into it.
type Content struct {
	Vessel   string
	Batter   string
	Holds    string // Holds says what stands in it, in a word or two.
	Tare     quantity.Mass
	Gone     quantity.Mass // Gone was poured out of it.
	Kept     quantity.Mass // Kept is what it held when it was last weighed as a whole; what went in before is part of that.
	Reads    quantity.Mass
	Expected quantity.Mass // Expected is what it should weigh, vessel and all.
	Steam    quantity.Mass // Steam is how much less than that is no fault.
	Lost     string        // Lost says what else than steam took that, or "".

	Parts []calc.Candidate
	Slack float64 // Slack is in grams: what the scale and what clings leave open.

	Burns []string // Burns names the parts that would burn if they went in a second time.
	Again bool     // Again says that the last look at it read the same.
}

// Weigh gives what the vessel should weigh.
func (c Content) Weigh() quantity.Mass {
	grams := 0.0
	for _, part := range c.Parts {
		grams += part.Counts()
	}
	return c.Tare + c.Kept - c.Gone + quantity.FromGrams(grams)
}

// Check compares a gross weight with the facts, and puts the finding into words.
func (c Content) Check(gross quantity.Mass) (f calc.Finding, words string, err error) {
	switch {
	case c.Tare <= 0:
		return f, "", fmt.Errorf("no weight is known of %s empty: enter it in the workshop first", c.Vessel)
	case gross <= 0 || gross > 1_000_000*quantity.Gram:
		return f, "", fmt.Errorf("%s g is no weight of a vessel", gross.At(c.Reads))
	}
	half := c.Steam.Grams() / 2 // From all of the steam gone to none of it, seen from the middle.
	f = calc.WeighPot(c.Parts, (c.Tare + c.Kept - c.Gone).Grams(), gross.Grams()+half, c.Slack+half)
	f.Difference -= half
	f, unsure := c.sureOfLye(f)
	return f, c.say(f, gross) + unsure, nil
}

// sureOfLye leaves out that lye or alkali is not in, as long as a single look says so: a
// slip in reading must not put it in a second time. It says what to do instead.
func (c Content) sureOfLye(f calc.Finding) (sure calc.Finding, words string) {
	burns := func(faults []calc.Fault) bool {
		return slices.ContainsFunc(faults, func(x calc.Fault) bool { return x.Kind == calc.Missing && slices.Contains(c.Burns, x.Name) })
	}
	if f.Kind == calc.AsExpected || !slices.ContainsFunc(f.Explanations, burns) {
		return f, ""
	}
	if c.Again {
		return f, ". Lye goes in only once its own jug, or cup, was seen full"
	}
	f.Explanations, f.Kind = slices.DeleteFunc(slices.Clone(f.Explanations), burns), calc.Ambiguous
	if len(f.Explanations) == 0 {
		f.Kind = calc.Unexplained
	}
	return f, ". Weigh it once more, untared, before anything goes in"
}

// asItShould begins the words on a vessel that nothing is wrong with.
const asItShould = "as it should be"

// Fine says of the words of a finding, whenever they were kept, that nothing was wrong.
func Fine(words string) bool { return strings.HasPrefix(words, asItShould) }

// say puts a finding into words that name both weights, so that a slip in
// reading or typing is seen.
func (c Content) say(f calc.Finding, gross quantity.Mass) string {
	off := quantity.FromGrams(f.Difference)
	much := off.Abs().Reading(c.Reads) + " more than the facts say"
	if off < 0 {
		much = off.Abs().Reading(c.Reads) + " short"
	}
	much += fmt.Sprintf(" (it is %s g and should be %s): ", gross.At(c.Reads), c.Expected.At(c.Reads))
	switch f.Kind {
	case calc.AsExpected:
		words := fmt.Sprintf(asItShould+" (it is %s g, by the facts %s)", gross.At(c.Reads), c.Expected.At(c.Reads))
		if -off > c.Reads && c.Steam > 0 {
			words = fmt.Sprintf(asItShould+": %s g are no more than %s (it is %s g, by the facts %s)",
				(-off).At(c.Reads), cmp.Or(c.Lost, "steam can take"), gross.At(c.Reads), c.Expected.At(c.Reads))
		}
		if len(f.Explanations) > 0 {
			words += "; this scale cannot tell whether " + either(f.Explanations)
		}
		return words
	case calc.Explained:
		return much + faults(f.Explanations[0])
	case calc.Ambiguous:
		return much + "ambiguous: " + either(f.Explanations)
	case calc.Unexplained:
		return much + "nothing that belongs here explains it"
	}
	return much
}

// mostExplained keeps an ambiguous answer short enough to read.
const mostExplained = 3

func either(all [][]calc.Fault) string {
	var words []string
	for _, f := range all[:min(len(all), mostExplained)] {
		words = append(words, faults(f))
	}
	text := strings.Join(words, ", or ")
	if n := len(all) - mostExplained; n > 0 {
		text += fmt.Sprintf(", or %d other ways", n)
	}
	return text
}

func faults(list []calc.Fault) string {
	var words []string
	for _, f := range list {
		words = append(words, Say(f))
	}
	return strings.Join(words, " and ")
}

// Say puts one fault into words.
func Say(f calc.Fault) string {
	switch f.Kind {
	case calc.Missing:
		return f.Name + " is not in"
	case calc.Twice:
		return f.Name + " is in twice"
	case calc.Unrecorded:
		return f.Name + " is in already"
	case calc.Stayed:
		return f.Name + " did not come out"
	case calc.PouredOut:
		return f.Name + " is out already"
	}
	return f.Name
}
