package after

import (
	"strings"
	"time"

	"bench/internal/batch"
	"bench/internal/front"
	"bench/internal/quantity"
	"bench/internal/ui/ink"
	"bench/internal/ui/intent"
	"bench/internal/ui/keys"
)

// write edits the line; enter looks for what it says, esc leaves it.
func (r Rack) write(p keys.Press) (Rack, intent.Action) {
	switch {
	case keys.Matches(p, keys.Back):
		r.Writing = false
	case keys.Matches(p, keys.Confirm):
		if p.Held {
			return r, nil
		}
		r.Writing = false
		return r, intent.Rack{Words: strings.TrimSpace(r.line.Text())}
	default:
		r.line = r.line.Update(p)
	}
	return r, nil
}

// Pasted puts pasted text into the line.
func (r Rack) Pasted(text string) Rack {
	if r.Writing {
		r.line = r.line.Insert(text)
	}
	return r
}

// headline names a part of the rack, and what was looked for.
func (r Rack) headline(t ink.Theme, w int, name string) string {
	head := " " + t.Strong.Render(name)
	if r.past.Words != "" {
		head += t.Quiet.Render(ink.Cut(" with "+ink.Clean(r.past.Words), w-2-ink.Width(name)))
	}
	return head
}

// beforeLines are the batches without bars that were found, and where the cursor is among
// them.
func (r Rack) beforeLines(t ink.Theme, w int) (lines []string, at int) {
	if len(r.before) == 0 {
		return nil, 0
	}
	lines = append(lines, "", r.headline(t, w, "Not cut yet"))
	for i, b := range r.before {
		chosen := i+len(r.open) == r.cursor
		if chosen {
			at = len(lines)
		}
		lines = append(lines, row(t, w, chosen, ink.SignLater, b, r.past.Way(b.Code)))
	}
	return lines, at
}

// pastLines are the closed batches, and where the cursor is among them.
func (r Rack) pastLines(t ink.Theme, w int) (lines []string, at int) {
	lines = append(lines, "", r.headline(t, w, "Closed"))
	switch {
	case r.Loading:
		lines = append(lines, "   "+t.Quiet.Render("reading…"))
	case len(r.past.Batches) == 0:
		lines = append(lines, "   "+t.Quiet.Render("none"))
	}
	for i, b := range r.past.Batches {
		chosen := i+r.above() == r.cursor
		if chosen {
			at = len(lines)
		}
		words := also(r.past.Way(b.Code), closedWords(b, r.At))
		since, opened := r.since[b.Code]
		if !opened {
			lines = append(lines, row(t, w, chosen, ink.SignDone, b, words))
			continue
		}
		lines = append(lines, row(t, w, chosen, ink.SignOff, b, words))
		for _, l := range ink.Wrap(since, w-nextAt-1) {
			lines = append(lines, ink.Spaces(nextAt)+l)
		}
	}
	if r.past.More {
		lines = append(lines, "   "+t.Quiet.Render("… and older ones: / finds them"))
	}
	return lines, at
}

func closedWords(b front.BatchItem, at *time.Location) string {
	n := len(b.State.Entries)
	if n == 0 {
		return ""
	}
	words := ""
	released, held, _ := b.State.Verdict()
	switch {
	case released:
		words = "released, "
	case held:
		words = "HELD, "
	}
	for i := n - 1; i >= 0; i-- {
		if c, ok := b.State.Entries[i].Fact.(batch.Closed); ok {
			words += "closed " + b.State.Entries[i].At.Wall.In(at).Format(time.DateOnly)
			if c.Reason != "" {
				words += ": " + c.Reason
			}
			break
		}
	}
	if got := len(batch.All[batch.Complained](b.State)); got > 0 {
		words += ", " + quantity.Count(got, "complaint", "complaints")
	}
	return words
}
