package keys

import (
	"slices"

	"bench/internal/ui/ink"

	"github.com/charmbracelet/bubbles/key"
)

// HelpLine shows keys with what they do, and for one that is off, why. Keys
// that find no room are on the page of keys; first aid always finds it.
func HelpLine(t ink.Theme, w int, bindings ...key.Binding) string {
	line, aid := "", 0 // aid is the room that is kept for first aid.
	for _, b := range bindings {
		if isAid(b) {
			aid = ink.Width(b.Help().Key+" "+b.Help().Desc) + 3
		}
	}
	full := false
	for _, b := range bindings {
		if isAid(b) {
			aid = 0
		} else if full {
			continue
		}
		item := t.Key.Render(b.Help().Key) + " " + b.Help().Desc
		if !b.Enabled() {
			item = t.Quiet.Render("(" + b.Help().Key + " " + b.Help().Desc + ")")
		}
		if line != "" {
			item = "   " + item
		}
		if ink.Width(line)+ink.Width(item)+aid > w-2 {
			full = true
			continue
		}
		line += item
	}
	return " " + line
}

func isAid(b key.Binding) bool { return slices.Equal(b.Keys(), Aid.Keys()) }

// Page is the page of all keys.
func Page(t ink.Theme, w, h int) []string {
	var lines []string
	for _, g := range allKeys() {
		lines = append(lines, " "+t.Strong.Render(g.title))
		for _, b := range g.keys {
			lines = append(lines, "   "+t.Key.Render(ink.Fit(b.Help().Key, 16))+ink.Cut(b.Help().Desc, w-20))
		}
	}
	return append(ink.Block(lines, w, h-1), ink.Cut(" "+t.Key.Render("any key")+" back", w))
}
