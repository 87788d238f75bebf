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
