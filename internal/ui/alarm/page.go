package alarm

import (
	"math"
	"strings"

	"bench/internal/phrase"
	"bench/internal/timer"
	"bench/internal/ui/ink"
	"bench/internal/ui/intent"
	"bench/internal/ui/keys"
	"bench/internal/watch"

	"github.com/charmbracelet/bubbles/key"
)

// Page is the page of all timers, those that the foot of the other pages has no room
// for too.
type Page struct {
	From intent.Page // From is where it goes back to.
	Word string
	top  int // top is the first timer in sight.
}

// Update scrolls, or goes back.
func (s Page) Update(p keys.Press) (Page, intent.Action) {
	s.Word = ""
	switch {
	case keys.Moves(p):
		s.top = keys.Moved(p, s.top, math.MaxInt) // How many there are is known within the board.
	case keys.Matches(p, keys.Back, keys.Timers) && !p.Held:
		return s, intent.Back{}
	}
	return s, nil
}

// Within keeps the top where there are timers.
func (s Page) Within(b Board, p keys.Press) Page {
	s.top = min(s.top, max(0, len(b.Timers(p.At))-1))
	return s
}

// readable keeps a timer and its time near enough to be read as one.
const readable = 100

// View lists the timers in h lines of w cells, the foremost with its time in large
// letters where there is room.
func (s Page) View(t ink.Theme, w, h int, b Board, now timer.Moment) []string {
	list, wide := b.Timers(now), min(w, readable)
	clock := now.Wall.In(b.At).Format("15:04")
	lines := []string{" " + ink.Between(t.Title.Render("Timers"), t.Quiet.Render(b.hush()+clock)+" ", w-1), t.Line.Render(ink.Rule(w)), ""}
	if len(list) == 0 {
		lines = append(lines, " "+t.Quiet.Render("no timer runs"))
	}
	for i, each := range list {
		if i < s.top {
			continue
		}
		said := b.timerLines(t, each, "", wide, now)
		if i == 0 && h >= ink.RoomyHeight {
			said = append(said, large(t, each, wide, h, now, b)...)
		}
		said = append(said, "     "+t.Quiet.Render(ink.Cut(ink.Clean(each.Recipe+" · batch "+each.Code), wide-6)))
		if left := len(list) - i; len(lines)+len(said) > h-3 && left > 0 {
			lines = append(lines, t.Quiet.Render(" ↓ "+more(left)))
			break
		}
		lines = append(lines, said...)
	}
	foot := keys.HelpLine(t, w, s.help(list, now)...)
	if s.Word != "" {
		warning := ink.Warning(t, s.Word, w)
		return append(append(ink.Block(lines, w, h-1-len(warning)), warning...), foot)
	}
	return append(ink.Block(lines, w, h-1), foot)
}

func (s Page) help(list []watch.Timer, now timer.Moment) []key.Binding {
	var answers []key.Binding
	if len(list) > 0 && list[0].State(now) == timer.Due && !list[0].There {
		answers = []key.Binding{keys.Seen, keys.PutOff}
	}
	return append(answers, keys.Shown("↑ ↓", "read on"), keys.Back, keys.Aid, keys.Keys)
}

// large is the time of a timer in large letters.
func large(t ink.Theme, each watch.Timer, w, h int, now timer.Moment, b Board) []string {
	when, _, _ := strings.Cut(phrase.Timing(each.Timer, now, b.At), " (")
	style := t.Strong
	if each.State(now) == timer.Due {
		style = t.Off
	}
	return append([]string{""}, ink.Headline(style, when, w, h, 1)...)
}
