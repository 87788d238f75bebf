package judge

import (
	"errors"

	"bench/internal/batch"
	"bench/internal/steps"
)

func allowsDecision(p steps.Plan, f batch.Decided) error {
	for _, d := range p.Deviations {
		if d.Task != f.Task {
			continue
		}
		for _, w := range p.Ways(d) {
			if w.Fact == f {
				return nil
			}
		}
		return errors.New("this way is not there any more: look at the ways again")
	}
	return errors.New("nothing is to be decided about this weight any more")
}

func allowsWarning(p steps.Plan, f batch.WarningSeen) error {
	for _, u := range p.Unread {
		if u.Fact.Batter == f.Batter {
			return nil
		}
	}
	return errors.New("there is no such warning any more")
}

// unreadFor says that a batter's warning must be read before its lye solution
// meets the oils.
func unreadFor(p steps.Plan, batter string) error {
	for _, u := range p.Unread {
		if u.Batter == batter {
			return errors.New("the superfat band reaches below zero; read that warning first (key d)")
		}
	}
	return nil
}

func allowsPot(p steps.Plan, f batch.PotWeighed) error {
	found, err := p.PotCheck(f.Vessel, f.Gross)
	switch {
	case err != nil:
		return err
	case found.Fact != f:
		return errors.New("the facts have changed since: weigh it again")
	}
	return nil
}
