// Package tell puts facts that follow the pour into words.
//
// The rule: a fact tells itself, from what it holds; what needs the plan to be
// understood is told by steps.
package tell

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/timer"
)

// Fact puts a fact that follows the pour into one line of words; another kind is
// told by its name.
func Fact(f batch.Fact) string {
	switch f := f.(type) {
	case batch.GelLooked:
		words := "look at the gel" + ofLoaves(f.Loaves) + ": " + string(f.Look)
		if f.Temperature != 0 {
			words += ", " + f.Temperature.String()
		}
		return words + besides(f.Said)
	case batch.UnmouldPutOff:
		return fmt.Sprintf("%s: %s, look again in %s", strings.Replace(f.Task, "/", ", ", 1), f.Why, timer.Words(f.For)) + besides(f.Said)
	case batch.BarsCut:
		return barsCut(f)
	case batch.BarsWeighed:
		return barsWeighed(f)
	case batch.SetAside:
		return setAside(f)
	case batch.Marked:
		return fmt.Sprintf("%s is marked %s", f.On, f.Code)
	case batch.WeighedIn:
		return fmt.Sprintf("bar %s weighs %s g", f.Bar, f.Mass.At(f.Reads)) + besides(f.Said)
	case batch.Tested:
		return Test(f)
	case batch.Released:
		return "released" + by(f.By) + because(f.Reason) + over(f.Open) + besides(f.Said)
	case batch.Held:
		return "held" + by(f.By) + because(f.Reason) + over(f.Open) + besides(f.Said)
	case batch.Reworks:
		words := "made of batch " + f.Batch
		if f.Mass > 0 {
			words += ", " + f.Mass.Reading(quantity.Gram)
		}
		return words + because(f.Reason)
	case batch.LimitStated:
		return fmt.Sprintf("%s may be up to %s of the bar, by %s", f.Material, f.Limit, f.Reference)
	case batch.Complained:
		words := string(f.About) + ": " + f.Words
		if f.Who != "" {
			words += " (" + f.Who + ")"
		}
		return words + besides(f.Said)
	case batch.BarsWent:
		if f.Count > 0 {
			return fmt.Sprintf("%s went to %s", bars(f.Count), f.Where) + besides(f.Said)
		}
		return "bars went to " + f.Where + besides(f.Said)
	default:
		return batch.Kind(f)
	}
}

// ofLoaves names some of the loaves, or none where all are meant.
func ofLoaves(loaves []int) string {
	if len(loaves) == 0 {
		return ""
	}
	words := make([]string, len(loaves))
	for i, n := range loaves {
		words[i] = strconv.Itoa(n)
	}
	if len(words) == 1 {
		return " of loaf " + words[0]
	}
	return " of loaves " + strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

// besides adds the day on which it was so, and the doubt with its answer.
func besides(s batch.Said) string {
	words := ""
	if !s.When.IsZero() {
		words += ", on " + s.When.Format(time.DateOnly)
	}
	if s.Asked != "" {
		words += fmt.Sprintf(" (asked: %s; answer: %s)", s.Asked, s.Answer)
	}
	return words
}

func barsCut(f batch.BarsCut) string {
	words := fmt.Sprintf("loaf %d: %s cut", f.Loaf, bars(f.Bars))
	if f.Bars != f.Planned {
		words += fmt.Sprintf(", planned %d", f.Planned)
	}
	return words + because(f.Why) + besides(f.Said)
}

func barsWeighed(f batch.BarsWeighed) string {
	words := fmt.Sprintf("%s: %s g", bars(f.Count), f.Mass.At(f.Reads))
	if f.Count > 1 {
		words += fmt.Sprintf(" together, %s g each", (f.Mass / quantity.Mass(f.Count)).At(f.Reads))
	}
	if f.Loaf > 0 {
		words = fmt.Sprintf("loaf %d: ", f.Loaf) + words
	}
	return words + besides(f.Said)
}

func setAside(f batch.SetAside) string {
	words := "set aside: " + string(f.Piece)
	switch {
	case f.Count == 0 && f.Mass == 0:
		words = "set aside: no " + string(f.Piece)
	case f.Count > 1:
		words = fmt.Sprintf("set aside: %d × %s", f.Count, f.Piece)
	}
	switch {
	case f.Mass > 0:
		words += ", " + f.Mass.Reading(quantity.Gram/10)
	case f.Count == 0:
		words = "set aside: no " + string(f.Piece)
	}
	if f.Lot != "" {
		words += ", marked " + f.Lot
	}
	if f.Note != "" {
		words += " (" + f.Note + ")"
	}
	return words + besides(f.Said)
}

// Test says what a release test gave.
func Test(f batch.Tested) string {
	words := string(f.Test)
	switch f.Test {
	case batch.PHTest:
		words += fmt.Sprintf(" %.1f", f.Value)
	case batch.FreeAlkaliTest:
		words += fmt.Sprintf(" %.2f %% as NaOH", f.Value)
	case batch.WeightTest:
		words += fmt.Sprintf(" %.1f g", f.Value)
	case batch.LookTest:
	}
	if f.Words != "" {
		words += ": " + f.Words
	}
	if f.Passed {
		return words + ", passed" + besides(f.Said)
	}
	return words + ", failed" + besides(f.Said)
}

func by(name string) string {
	if name == "" {
		return ""
	}
	return " by " + name
}

func because(reason string) string {
	if reason == "" {
		return ""
	}
	return ": " + reason
}

func over(open []string) string {
	if len(open) == 0 {
		return ""
	}
	return " (open: " + strings.Join(open, "; ") + ")"
}

func bars(n int) string { return quantity.Count(n, "bar", "bars") }

// Sentences puts warnings one after the other, each with one full stop.
func Sentences(list []string) string {
	words := ""
	for _, s := range list {
		words += " " + strings.TrimRight(s, ".") + "."
	}
	return strings.TrimPrefix(words, " ")
}
