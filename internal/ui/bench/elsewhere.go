package bench

import (
	"fmt"

	"bench/internal/reply"
	"bench/internal/ui/ink"
	"bench/internal/ui/keys"
)

// elsewhere says which other batches ask for something while nothing is to be done
// here, what that is, and the key that goes there.
func (p panel) elsewhere() []string {
	var lines []string
	add := func(head, words string) {
		for i, l := range ink.Wrap(ink.Clean(words), p.w-8) {
			lines = append(lines, "     "+[]string{head, " "}[min(i, 1)]+" "+l)
		}
	}
	for _, e := range reply.AskedElsewhere(p.others, p.now) {
		key := p.t.Key.Render(keys.Switch.Help().Key)
		if e.Round > 1 {
			key += fmt.Sprintf(" %d times", e.Round)
		}
		lines = append(lines, " "+key+" goes to "+ink.Cut(ink.Clean(e.Code)+" "+ink.Clean(e.Recipe), p.w-24))
		for _, words := range e.Waits {
			add(p.t.Off.Render(ink.SignOff), words)
		}
		if e.Now != "" {
			add(ink.SignOpen, "now, "+e.Now)
		}
	}
	if len(lines) > 0 {
		lines = append(lines, "")
	}
	return lines
}

// elsewhereWords are the same for a small window, where tab does not answer.
func (p panel) elsewhereWords() []string {
	var lines []string
	for _, e := range reply.AskedElsewhere(p.others, p.now) {
		words := e.Now
		if len(e.Waits) > 0 {
			words = e.Waits[0]
		}
		lines = append(lines, p.wrapped(ink.SignOff+" batch "+e.Code+": "+words)...)
	}
	return lines
}
