package after

import (
	"time"

	"bench/internal/curing"
	"bench/internal/timer"
	"bench/internal/ui/ink"
)

// Planner gives what a drawing of a batch in cure needs.
type Planner interface {
	Curing() curing.Curing
	Drying() (curing.Drying, error)
	Water() float64
}

// Panel is the curve of a batch with the words below it, in h rows at most.
func Panel(t ink.Theme, p Planner, w, h int, now timer.Moment, at *time.Location) []string {
	c := p.Curing()
	var words []string
	for _, s := range c.Words(now, p.Water(), at) {
		for _, l := range ink.Wrap(ink.Clean(s), w-2) {
			words = append(words, " "+l)
		}
	}
	d, err := p.Drying()
	var fitted *curing.Drying
	if err == nil {
		fitted = &d
	}
	if len(c.Marks) > 0 {
		return append(Curve(t, c, fitted, w-1, h-len(words)), words[:min(len(words), h)]...)
	}
	return words[:min(len(words), h)]
}
