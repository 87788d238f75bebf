package alarm

import (
	"bench/internal/phrase"
	"bench/internal/timer"
	"bench/internal/ui/ink"
	"bench/internal/ui/intent"
	"bench/internal/ui/keys"
	"bench/internal/watch"
)

// Foremost is the timer that matters most in lines of w cells; an alarm with the
// keys that answer it, and then due is true.
func (b Board) Foremost(t ink.Theme, w int, now timer.Moment) (lines []string, due bool) {
	list := b.Timers(now)
	if len(list) == 0 {
		return nil, false
	}
	top := list[0]
	text, style := ink.Clean(top.Label)+": "+top.Say(now), t.Quiet
	if top.State(now) == timer.Due {
		text, style, due = Sign(top.Timer, now)+" "+text, t.Off, true
	}
	if top.Code != b.Bench {
		text = ink.Clean(top.Code) + ": " + text
	}
	for _, l := range ink.Wrap(text, w) {
		lines = append(lines, style.Render(l))
	}
	if due {
		lines = append(lines, b.smallAnswers(t, top, w)...)
	}
	return lines, due
}

// smallAnswers are the keys that answer an alarm, or why none does.
func (b Board) smallAnswers(t ink.Theme, top watch.Timer, w int) []string {
	switch {
	case top.There:
		return ink.Wrap("answered at the other bench", w)
	case b.Offer == (intent.PutOff{Code: top.Code, Timer: top.ID}):
		return ink.Wrap("later: "+offerWords(), w)
	}
	return keys.Small(t, w, keys.Says(keys.Seen, "seen"), keys.Says(keys.PutOff, "later"))
}

// Small is the page of timers in a window too small for it: the foremost, and how
// many there are besides.
func (s Page) Small(t ink.Theme, w int, b Board, now timer.Moment) ink.Small {
	list := b.Timers(now)
	lines, due := b.Foremost(t, w, now)
	if len(list) == 0 {
		lines = []string{"no timer runs"}
	}
	if s.Word != "" {
		lines = append(lines, ink.Wrap(ink.SignOff+" "+s.Word, w)...)
	}
	small := ink.Small{Needs: lines, Least: lines, Keys: keys.Small(t, w, keys.Back)}
	if b.Offer != (intent.PutOff{}) {
		small.Keys = nil // They stand above.
	}
	for i, each := range list {
		if i == 0 && !due {
			continue
		}
		words := ink.Clean(each.Recipe + " · batch " + each.Code)
		if i > 0 {
			words = ink.Clean(each.Code+": "+each.Label) + ": " + phrase.Timing(each.Timer, now, b.At)
		}
		small.More = append(small.More, ink.Wrap(words, w))
	}
	return small
}
