package bench

import (
	"bench/internal/ui/ink"
	"bench/internal/ui/keys"

	"github.com/charmbracelet/bubbles/key"
)

// Along is set while another bench writes the batch: everything is shown, and
// nothing is said from here.
type Along struct {
	On     bool
	HeldBy string // HeldBy says who writes it; "" once that bench has let it go.
}

// Words say who writes the batch, and how it is taken over.
func (a Along) Words() string {
	if a.HeldBy == "" {
		return "Reading along: it has been let go. Enter takes it over here."
	}
	return "Reading along: " + ink.Clean(a.HeldBy) + ". Leave it there with esc or q, then enter takes it over here."
}

// help shows the keys that look, and the one that takes over once that can be.
func (a Along) help() []key.Binding {
	look := []key.Binding{keys.Shown("↑ ↓", "tasks"), keys.Shown("← →", "stages"), keys.Face, keys.Back, keys.Aid, keys.Keys}
	if a.HeldBy == "" {
		return append([]key.Binding{keys.Says(keys.Accept, "take it over")}, look...)
	}
	return look
}
