package steps

import (
	"fmt"
	"strings"
	"time"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/timer"
)

// sayAfter puts a fact that follows the pour into one line of words.
func sayAfter(f batch.Fact) string {
	switch f := f.(type) {
	case batch.GelLooked:
		words := "look at the gel: " + string(f.Look)
		if f.Temperature != 0 {
			words += ", " + f.Temperature.String()
		}
		return words + said1(f.Said)
	case batch.UnmouldPutOff:
		return fmt.Sprintf("%s: %s, look again in %s", strings.Replace(f.Task, "/", ", ", 1), f.Why, timer.Words(f.For)) + said1(f.Said)
	case batch.BarsCut:
		return sayCut(f)
	case batch.BarsWeighed:
		return sayBars(f)
	case batch.SetAside:
		return saySetAside(f)
	case batch.Marked:
		return fmt.Sprintf("%s is marked %s", f.On, f.Code)
	case batch.WeighedIn:
		return fmt.Sprintf("bar %s weighs %s", f.Bar, grams(f.Mass, f.Reads)) + said1(f.Said)
	case batch.Tested:
		return sayTested(f)
	case batch.Released:
		return "released" + by(f.By) + because(f.Reason) + over(f.Open) + said1(f.Said)
	case batch.Held:
		return "held" + by(f.By) + because(f.Reason) + over(f.Open) + said1(f.Said)
	case batch.Reworks:
		words := "made of batch " + f.Batch
		if f.Mass > 0 {
			words += ", " + grams(f.Mass, quantity.Gram)
		}
		return words + because(f.Reason)
	case batch.LimitStated:
		return fmt.Sprintf("%s may be up to %s of the bar, by %s", f.Material, f.Limit, f.Reference)
	case batch.Complained:
		words := string(f.About) + ": " + f.Words
		if f.Who != "" {
			words += " (" + f.Who + ")"
		}
		return words + said1(f.Said)
	case batch.BarsWent:
		if f.Count > 0 {
			return fmt.Sprintf("%s went to %s", bars(f.Count), f.Where) + said1(f.Said)
		}
		return "bars went to " + f.Where + said1(f.Said)
	default:
		return batch.Kind(f)
	}
}

// said1 adds the day on which it was so, and the doubt with its answer.
func said1(s batch.Said) string {
	words := ""
	if !s.When.IsZero() {
		words += ", on " + s.When.Format(time.DateOnly)
	}
	if s.Asked != "" {
		words += fmt.Sprintf(" (asked: %s; answer: %s)", s.Asked, s.Answer)
	}
	return words
}

func sayCut(f batch.BarsCut) string {
	words := fmt.Sprintf("loaf %d: %s cut", f.Loaf, bars(f.Bars))
	if f.Bars != f.Planned {
		words += fmt.Sprintf(", planned %d", f.Planned)
	}
	return words + because(f.Why) + said1(f.Said)
}

func sayBars(f batch.BarsWeighed) string {
	words := fmt.Sprintf("%s: %s", bars(f.Count), grams(f.Mass, f.Reads))
	if f.Count > 1 {
		words += fmt.Sprintf(" together, %s each", grams(f.Mass/quantity.Mass(f.Count), f.Reads))
	}
	if f.Loaf > 0 {
		words = fmt.Sprintf("loaf %d: ", f.Loaf) + words
	}
	return words + said1(f.Said)
}

func saySetAside(f batch.SetAside) string {
	words := "set aside: " + string(f.Piece)
	if f.Count > 1 {
		words = fmt.Sprintf("set aside: %d × %s", f.Count, f.Piece)
	}
	if f.Mass > 0 {
		words += ", " + grams(f.Mass, quantity.Gram/10)
	}
	if f.Lot != "" {
		words += ", marked " + f.Lot
	}
	if f.Note != "" {
		words += " (" + f.Note + ")"
	}
	return words + said1(f.Said)
}

func sayTested(f batch.Tested) string {
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
		return words + ", passed" + said1(f.Said)
	}
	return words + ", failed" + said1(f.Said)
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
