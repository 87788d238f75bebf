package reply

import (
	"fmt"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/timer"
)

// valueOf gives the value that a fact holds, with its unit, or "".
func valueOf(f batch.Fact) string {
	number := numberOf(f)
	if tick, ok := f.(batch.Ticked); ok && number != "" && !tick.When.IsZero() {
		return number + ", " + wordsOf(f)
	}
	if number != "" {
		return number
	}
	return wordsOf(f)
}

// numberOf is valueOf for facts that were measured or counted.
func numberOf(f batch.Fact) string {
	switch f := f.(type) {
	case batch.Weighed:
		return f.Mass.Reading(f.Reads)
	case batch.Grossed:
		return f.Gross.Reading(f.Reads)
	case batch.TemperatureTaken:
		return f.Temperature.String()
	case batch.VesselReplaced:
		return f.Tare.String()
	case batch.Ticked:
		if f.Mass == 0 {
			return ""
		}
		return f.Mass.Reading(quantity.Gram / 10)
	case batch.BarsCut:
		return quantity.Count(f.Bars, "bar", "bars")
	case batch.BarsWeighed:
		if f.Count > 1 {
			return fmt.Sprintf("%d x %s", f.Count, f.Mass.At(f.Reads))
		}
		return f.Mass.Reading(f.Reads)
	case batch.SetAside:
		return f.Mass.Reading(quantity.Gram / 10)
	case batch.WeighedIn:
		return f.Mass.Reading(f.Reads)
	case batch.Tested:
		return resultOf(f)
	default:
		return ""
	}
}

// resultOf is the number that a test gave; a look at the bars gives none.
func resultOf(f batch.Tested) string {
	switch f.Test {
	case batch.LookTest:
		return ""
	case batch.FreeAlkaliTest:
		return fmt.Sprintf("%.2f %%", f.Value)
	default:
		return fmt.Sprintf("pH %.1f", f.Value)
	}
}

// wordsOf is valueOf for facts that are said in words, or at a time.
func wordsOf(f batch.Fact) string {
	switch f := f.(type) {
	case batch.Ticked:
		if f.When.IsZero() {
			return "when it was ticked"
		}
		return f.When.Format("15:04")
	case batch.Skipped:
		return f.Reason
	case batch.TimerPutOff:
		return timer.Words(f.For)
	case batch.Noted:
		return f.Text
	case batch.PotAnswered:
		return f.Answer
	case batch.SharedAnswered:
		return f.Answer
	case batch.GelLooked:
		return string(f.Look)
	case batch.Marked:
		return f.Code
	case batch.Complained:
		return f.Words
	case batch.BarsWent:
		return f.Where
	default:
		return ""
	}
}
