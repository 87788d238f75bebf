package cure

import (
	"errors"
	"fmt"
)

// What there is to say where the readings carry no curve. The texts are
// sentences without their stop: they are shown to the maker as they are.
var (
	ErrSenseless = errors.New("a reading makes no sense: a weight is above zero, and a day is not before the cut")
	ErrNoLoss    = errors.New("the bars have not lost weight by more than the readings scatter")
	ErrStraight  = errors.New("too early to say where it levels off: the weights still fall nearly in a straight line")
	ErrLevel     = errors.New("nothing was lost after the second reading that stands out from the scatter: the bars had dried by then, or a reading is off")
)

// widest is the error of ln τ from which on a curve is not told from a straight
// line; its linearised errors would be wrong, too.
const widest = 1.0

// TooFewError says that there are too few readings, on days far enough apart,
// of any one bar.
type TooFewError struct{ Have, Need int }

func (e *TooFewError) Error() string {
	return fmt.Sprintf("a curve takes %d weigh-ins of a bar on different days; so far it has %d", e.Need, e.Have)
}

// BeyondWaterError refuses a forecast that takes more out of a bar than there is
// water in it.
type BeyondWaterError struct {
	Loss Estimate // Loss is the forecast, a fraction.
	Most float64  // Most is the water, a fraction.
}

func (e *BeyondWaterError) Error() string {
	return fmt.Sprintf("the readings point to a loss of %.1f %%, and no more than %.1f %% of the bar is water: weigh a few more times, and check the scale",
		100*e.Loss.Value, 100*e.Most)
}
