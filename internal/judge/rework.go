package judge

import (
	"errors"
	"fmt"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/steps"
)

// Reworkable says why a batch of that code cannot be made of the earlier one that a fact
// names, or nil: of none that there is, of itself, or of more than it was. Earlier is what
// the store has of it.
func Reworkable(code string, f batch.Reworks, earlier batch.State) error {
	if f.Batch == code {
		return errors.New("a batch is not made of itself: say the code of the earlier one")
	}
	if !earlier.Begun() {
		return fmt.Errorf("there is no batch %s: say the code of one that is here, or take a note of one that is not", f.Batch)
	}
	made := steps.Of(earlier).Poured().All
	if made > 0 && f.Mass > made+made/20 { // What it was is known from pots, to some parts in a hundred.
		return fmt.Errorf("%s g are more than batch %s was (%s g): say how much of it was taken", f.Mass.At(quantity.Gram), f.Batch, made.At(quantity.Gram))
	}
	return nil
}
