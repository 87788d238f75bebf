package steps

import (
	"errors"
	"fmt"
	"strings"

	"bench/internal/batch"
)

// allowsAfter says why a fact that follows the pour cannot be added, or nil.
func (p Plan) allowsAfter(f batch.Fact) error {
	switch f := f.(type) {
	case batch.Complained:
		if strings.TrimSpace(f.Words) == "" {
			return errors.New("say what the complaint is")
		}
		return nil
	case batch.BarsWent:
		if strings.TrimSpace(f.Where) == "" {
			return errors.New("say where the bars went")
		}
		return nil
	case batch.Reworks:
		if strings.TrimSpace(f.Batch) == "" || strings.TrimSpace(f.Reason) == "" {
			return errors.New("say which batch is reworked, and why")
		}
		return nil
	}
	if _, _, ok := p.Task(batch.Task(f)); !ok {
		return fmt.Errorf("there is no task %q in this batch", batch.Task(f))
	}
	return nil
}
