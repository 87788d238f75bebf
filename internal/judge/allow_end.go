package judge

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"bench/internal/batch"
	"bench/internal/steps"
)

// The policy of this file: no batch ends while nobody has said what becomes of the lye, the
// batter and all else that stands in its vessels; and it is closed only once they are empty.

// endsNow says that a fact ends a batch of which vessels still hold something.
func endsNow(p steps.Plan, f batch.Fact) bool {
	_, stopped := p.State().Stopped()
	switch f.(type) {
	case batch.Closed, batch.Stopped:
		return stopped
	default:
		return false
	}
}

func allowsClosed(p steps.Plan, f batch.Closed) error {
	if err := whyEnded(p, f.Reason); err != nil {
		return err
	}
	if left := p.Standing(); len(left) > 0 && strings.TrimSpace(f.Left) == "" {
		return fmt.Errorf("%s (%s): say what becomes of it", left[0].Vessel, left[0].Held())
	}
	return nil
}

func allowsStopped(p steps.Plan, f batch.Stopped) error {
	kept := false
	for _, o := range p.Standing() {
		i := slices.IndexFunc(f.Left, func(l batch.Left) bool { return l.Vessel == o.Vessel })
		if i < 0 || strings.TrimSpace(f.Left[i].Answer) == "" {
			return fmt.Errorf("%s (%s): say what becomes of it", o.Vessel, o.Held())
		}
		kept = kept || !f.Left[i].Emptied
	}
	if !kept {
		return errors.New("no vessel holds anything of it: close it")
	}
	return whyEnded(p, f.Reason)
}

func whyEnded(p steps.Plan, reason string) error {
	if !p.Finished() && strings.TrimSpace(reason) == "" {
		return errors.New("tasks are still open: say why the batch ends here")
	}
	return nil
}
