package reply

import (
	"fmt"
	"strconv"
	"strings"

	"bench/internal/quantity"
	"bench/internal/steps"
	"bench/internal/work"
)

// Asked gives the number to reach and its unit; the number is empty where the
// task has none.
func Asked(t work.Task, stage work.Stage) (number, unit string) {
	switch t.Do {
	case work.Weigh:
		return t.Remaining().At(t.Reads), "g"
	case work.Portion:
		return t.StopAt.At(t.Reads), "g"
	case work.Gross:
		return t.Target.At(t.Reads), "g"
	case work.Temperature:
		return strconv.FormatFloat(t.Wanted.Celsius(), 'f', 0, 64), "°C"
	case work.Tick, work.Look, work.Confirm:
		return shown(t, stage)
	default:
	}
	return restAsked(t)
}

// shown gives the number of a task that is only ticked: a height to pour to, an
// amount to set out, or what the plan wants read from afar.
func shown(t work.Task, stage work.Stage) (number, unit string) {
	switch number, unit, ok := strings.Cut(t.Shows, " "); {
	case t.PourLine > 0:
		return strings.TrimSuffix(t.PourLine.String(), " mm"), "mm from the floor"
	case ok && unit == "mm":
		return number, "mm above the floor"
	case ok:
		return number, unit
	case stage.Kind == work.SetOut && t.Target > 0:
		return t.Target.At(t.Reads), "g needed"
	}
	return "", ""
}

// restAsked gives the number that a task after the pour asks for, or what is to
// be expected of it.
func restAsked(t work.Task) (number, unit string) {
	switch t.Do {
	case work.Count:
		return strconv.Itoa(t.Count), "bars"
	case work.Bars, work.WeighIn:
		if t.Target == 0 { // It is not known what to expect.
			return "", ""
		}
		return t.Target.At(t.Reads), "g"
	case work.Aside:
		return "0", "g"
	case work.Measure:
		return "0.0", "pH"
	default:
		return "", ""
	}
}

// Warmth says whether a temperature that is asked for is that of both together, or of
// this one beside what the other was.
func Warmth(p steps.Plan, t work.Task, stage work.Stage) string {
	for _, b := range p.Batters {
		if b.Name == stage.Batter && b.MixAt == t.Wanted {
			return "together"
		}
	}
	return "wanted"
}

// Tolerance shows what the scale can tell of it, and a place more when that is
// nothing.
func Tolerance(t work.Task) string {
	if whole := t.Tolerance.FloorTo(t.Reads); whole > 0 {
		return "± " + whole.At(t.Reads)
	}
	return "± " + t.Tolerance.At(max(t.Reads/10, quantity.Milligram))
}

// Parts says what is in already, or that it takes several weighings.
func Parts(t work.Task) string {
	switch {
	case t.Mass > 0:
		return "in already " + t.Mass.At(t.Reads) + " of " + t.Target.At(t.Reads)
	case t.Parts > 1:
		return fmt.Sprintf("in %d weighings: + after each but the last", t.Parts)
	}
	return ""
}

// Expected says what is to be expected after the pour, in words; false before it.
func Expected(t work.Task) (string, bool) {
	switch t.Do {
	case work.Bars:
		if t.Target == 0 {
			return "", true
		}
		return "about " + t.Target.Reading(t.Reads) + " a bar is expected", true
	case work.WeighIn:
		if t.Counted > 0 {
			return "last time " + t.Mass.Reading(t.Reads), true
		}
		return "about " + t.Target.Reading(t.Reads) + " is expected", true
	case work.Count, work.Aside, work.Measure:
		return "", true
	default:
		return "", false
	}
}

// Again says that a task may be answered once more: what cools is read until
// lye solution and oils have met, and a release test is made as often as one likes.
func Again(t work.Task, stage work.Stage) bool {
	if stage.Kind == work.ReleaseTest && t.Done && t.Skipped == "" {
		return t.Do == work.Measure || t.Do == work.Choose || t.Do == work.Bars
	}
	return t.Again
}
