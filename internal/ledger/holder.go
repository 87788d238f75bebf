package ledger

import (
	"fmt"
	"os"

	"bench/internal/journal"
	"bench/internal/recipe"
)

// holder says in words who else writes a batch, and who left one without letting
// go. Both are "" of one that nobody holds, or this program.
func (l *Ledger) holder(code string) (heldBy, left string) {
	h, ok := l.store.Holder(code)
	switch {
	case !ok || l.open[code] != nil:
		return "", ""
	case h.Runs:
		return heldWords(journal.HeldError{PID: h.PID, Host: h.Host, Since: h.Since}), ""
	}
	if host, err := os.Hostname(); err != nil || host != h.Host {
		return "", "left open on " + h.Host
	}
	return "", "the program ended without closing it"
}

func heldWords(h journal.HeldError) string {
	switch {
	case h.Elsewhere:
		return fmt.Sprintf("left open on %s (process %d, %s): if nothing runs there, open it again to take it over",
			recipe.Clean(h.Host), h.PID, h.Since.Local().Format("2 Jan 15:04"))
	case h.PID == 0:
		return "another program has it open"
	}
	words := fmt.Sprintf("process %d has it open since %s", h.PID, h.Since.Local().Format("2 Jan 15:04"))
	if host, err := os.Hostname(); err != nil || host != h.Host {
		words += " on " + recipe.Clean(h.Host)
	}
	return words
}
