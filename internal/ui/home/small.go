package home

import (
	"bench/internal/front"
	"bench/internal/reply"
	"bench/internal/timer"
	"bench/internal/ui/ink"
	"bench/internal/ui/keys"
)

// Small is the first screen in a window too small for it: what the cursor is on, whole,
// and as many of its neighbours as find room.
func (h Screen) Small(t ink.Theme, w, rows int, now timer.Moment) ink.Small {
	s := ink.Small{Keys: keys.Small(t, w, h.help()[:2]...)} // Those that choose and open.
	words := h.smallWords(w)
	if h.rows() == 0 {
		s.Needs = append(ink.Wrap(h.none(), w), words...)
		s.Least = s.Needs
		return s
	}
	s.Least = append(h.smallEntry(t, w, h.cursor, now), words...)
	from, to := h.cursor, h.cursor+1
	room := rows - len(s.Keys) - len(words) - len(h.smallEntry(t, w, h.cursor, now))
	for grew := true; grew; {
		grew = false
		if to < h.rows() && len(h.smallEntry(t, w, to, now)) <= room {
			room, to, grew = room-len(h.smallEntry(t, w, to, now)), to+1, true
		}
		if from > 0 && len(h.smallEntry(t, w, from-1, now)) <= room {
			room, from, grew = room-len(h.smallEntry(t, w, from-1, now)), from-1, true
		}
	}
	for i := from; i < to; i++ {
		s.Needs = append(s.Needs, h.smallEntry(t, w, i, now)...)
	}
	s.Needs = append(s.Needs, words...)
	return s
}

// smallWords are a word, and what could not be read.
func (h Screen) smallWords(w int) []string {
	var words []string
	if h.Word != "" {
		words = ink.Wrap(ink.SignOff+" "+ink.Clean(h.Word), w)
	}
	if h.err != nil {
		words = append(words, ink.Wrap(ink.SignOff+" Not all could be read: "+ink.Clean(joined(h.err)), w)...)
	}
	return words
}

// SmallTakes says that a key answers in a window too small for the page.
func (h Screen) SmallTakes(p keys.Press) bool {
	return keys.Moves(p) || keys.Matches(p, keys.Open, keys.Back)
}

// smallEntry is a batch or a recipe in as many lines as it needs, counted as the cursor
// counts.
func (h Screen) smallEntry(t ink.Theme, w, i int, now timer.Moment) []string {
	text := ""
	if i < len(h.Batches) {
		text = smallBatch(h.Batches[i], now)
	} else {
		r := h.Recipes[i-len(h.Batches)]
		text = "Recipe " + ink.Clean(r.Name)
		if len(r.Problems) > 0 {
			text += ": " + ink.SignBroken + " has problems"
		}
	}
	if i == h.cursor {
		lines := ink.Hang(ink.SignNow, text, w)
		for n, l := range lines {
			lines[n] = t.Accent.Render(l)
		}
		return lines
	}
	return ink.Hang(" ", text, w)
}

func smallBatch(b front.UnderWay, now timer.Moment) string {
	text := ink.Clean(b.Code) + " " + ink.Clean(b.Plan.Recipe) + ": "
	if b.HeldBy != "" {
		return text + ink.SignOff + " " + ink.Clean(b.HeldBy)
	}
	if b.Left != "" {
		text += ink.Clean(b.Left) + "; "
	}
	return text + ink.Clean(reply.WhereAt(b, now))
}
