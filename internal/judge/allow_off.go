package judge

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"bench/internal/batch"
	"bench/internal/steps"
)

func allowsDecision(p steps.Plan, f batch.Decided) error {
	for _, d := range p.Deviations {
		if d.Task != f.Task || d.Look > 0 {
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

func allowsPotAnswer(p steps.Plan, f batch.PotAnswered) error {
	switch {
	case strings.TrimSpace(f.Answer) == "":
		return errors.New("say how you know")
	case !slices.ContainsFunc(p.Deviations, func(d steps.Deviation) bool { return d.Look == f.Look && f.Look > 0 }):
		return errors.New("nothing is to be answered about this vessel any more")
	}
	return nil
}

// potUnanswered says that a vessel of a batter weighs other than the facts say, which must
// be answered before its lye solution meets the oils.
func potUnanswered(p steps.Plan, batter string) error {
	for _, d := range p.Deviations {
		if d.Look > 0 && d.Batter == batter {
			return fmt.Errorf("%s. The lye waits until that is answered (key d)", d.Words)
		}
	}
	return nil
}
