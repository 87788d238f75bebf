package judge

import (
	"errors"
	"slices"
	"strconv"
	"strings"
	"time"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/rest"
	"bench/internal/steps"
	"bench/internal/tell"
)

// Afterwards gives what may be said of a batch besides its work, most of it when
// its bars are made, also when it is closed.
func Afterwards(p steps.Plan) []Choice {
	var list []Choice
	if p.Closed || p.Curing().Bars > 0 {
		list = ofBars(p)
	}
	if !p.Closed {
		list = append(list, limits(p)...)
		list = append(list, Choice{
			Title: "This batch is made of an earlier one", Why: "The earlier one was held; this one points at it, in the record and in a search.",
			Ask: "which batch, how much of it and why, such as 260302A 900 g too much alkali", Fact: batch.Reworks{},
		})
	}
	return list
}

// limits are remedies for scents over their limits.
func limits(p steps.Plan) []Choice {
	var list []Choice
	for _, l := range p.OverLimit() {
		for _, s := range l.Scents {
			list = append(list, Choice{
				Title: "A certificate allows more of " + s.Material, Why: "The supplier's, for bar soap (IFRA category 9) and for this lot. If the bars are within it, they are not held for it any longer.",
				Ask: "the limit and the certificate, such as 6 % certificate of 3 March", Fact: batch.LimitStated{Material: s.Material},
			})
		}
	}
	return list
}

// ofBars is what may be said of bars that are made.
func ofBars(p steps.Plan) []Choice {
	list := []Choice{
		{Title: "Complaint", Why: "Kept with the batch code.", Ask: "what was said (and after a slash, by whom)", Fact: batch.Complained{About: batch.Complaint}},
		{
			Title: "Skin reaction", Why: "Kept with the batch code; the bars that are left should be held. Serious ones go to a doctor, and to the authority where the law says so.",
			Ask: "what was said (and after a slash, by whom)", Fact: batch.Complained{About: batch.SkinReaction},
		},
		{Title: "Where bars went", Why: "So that they can be found again. " + p.Curing().Count() + ".", Ask: "how many and where, such as 12 to the market stall; with the day, such as on " + lately(p) + ", where that was not today", Fact: batch.BarsWent{}},
	}
	if released, _, _ := p.State().Verdict(); released {
		list = append(list, Choice{
			Title: "Hold what is left", Why: p.Curing().Out(), Ask: "why they are held",
			Fact: batch.Held{Task: rest.DecideID, Open: p.Open()},
		})
	}
	if since := p.Since(); len(since) > 0 {
		list = append(list, Choice{
			Title: "Let the release stand", Why: "Opened after it: " + tell.Sentences(since), Ask: "why they stay released all the same",
			Fact: batch.Released{Task: rest.DecideID, Bars: p.Bars(), Open: p.Open()},
		})
	}
	return list
}

// lately is the day of the last entry, to show how a day is written.
func lately(p steps.Plan) string {
	entries := p.State().Entries
	if len(entries) == 0 {
		return "a day"
	}
	return entries[len(entries)-1].At.Wall.Format(time.DateOnly)
}

// wentTo reads "12 to the market stall", "12 bars went to …", or only where.
func wentTo(f batch.BarsWent, text string) (batch.Fact, error) {
	f.Where = text
	first, rest, more := strings.Cut(text, " ")
	if n, err := strconv.Atoi(first); err == nil && more && n > 0 {
		words := strings.Fields(rest)
		for _, idle := range [][]string{{"bar", "bars"}, {"go", "goes", "went"}, {"to"}} {
			if len(words) > 0 && slices.Contains(idle, words[0]) {
				words = words[1:]
			}
		}
		f.Count, f.Where = n, strings.Join(words, " ")
	}
	if f.Where == "" {
		return nil, errors.New("say where they went, such as: 12 to the market stall")
	}
	return f, nil
}

// madeOf reads "260302A 900 g too much alkali", with or without the mass.
func madeOf(f batch.Reworks, text string) (batch.Fact, error) {
	words := strings.Fields(text)
	if len(words) > 2 {
		if m, err := quantity.ParseMass(words[1] + " " + words[2]); err == nil {
			f.Mass, words = m, append(words[:1], words[3:]...)
		}
	}
	if len(words) < 2 {
		return nil, errors.New("say which batch and why, such as: 260302A 900 g too much alkali")
	}
	f.Batch, f.Reason = strings.ToUpper(words[0]), strings.Join(words[1:], " ")
	return f, nil
}

// limitBy reads "6 % certificate of 3 March".
func limitBy(f batch.LimitStated, text string) (batch.Fact, error) {
	number, reference, ok := strings.Cut(text, "%")
	limit, err := quantity.ParseRatio(strings.TrimSpace(number) + " %")
	if f.Limit, f.Reference = limit, strings.TrimSpace(reference); !ok || err != nil || f.Reference == "" {
		return nil, errors.New("say the limit and the certificate that states it, such as: 6 % certificate of 3 March")
	}
	return f, nil
}
