package judge

import "bench/internal/batch"

// Keeps says that a doubt about this kind of fact is kept with its answer.
func Keeps(f batch.Fact) bool {
	_, keeps := Answered(f, "", "")
	return keeps
}

// Answered gives the fact with the doubt and what was said to it, or false for
// a kind of fact that keeps none. A loaf that gave other than the planned bars
// keeps the answer as its explanation.
func Answered(f batch.Fact, asked, answer string) (batch.Fact, bool) {
	said := batch.SaidOf(f)
	said.Asked, said.Answer = asked, answer
	switch f := f.(type) {
	case batch.BarsCut:
		if f.Bars < f.Planned && f.Why == "" {
			f.Why = answer
			return f, true
		}
		f.Said = said
		return f, true
	case batch.BarsWeighed:
		f.Said = said
		return f, true
	case batch.SetAside:
		f.Said = said
		return f, true
	case batch.GelLooked:
		f.Said = said
		return f, true
	case batch.WeighedIn:
		f.Said = said
		return f, true
	case batch.Tested:
		f.Said = said
		return f, true
	case batch.BarsWent:
		f.Said = said
		return f, true
	default:
		return f, false
	}
}
