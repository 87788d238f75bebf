package keys

import (
	"slices"
	"strings"

	"bench/internal/ui/ink"

	"github.com/charmbracelet/bubbles/key"
)

// HelpLine shows keys with what they do, and for one that is off, why. Keys
// that find no room are on the page of keys; first aid and the way back always
// find it.
func HelpLine(t ink.Theme, w int, bindings ...key.Binding) string {
	kept := 0 // kept is the room for those that are still to come and must be there.
	for _, b := range bindings {
		if staysInSight(b) {
			kept += helpWidth(b)
		}
	}
	line, at, full := "", -len(helpGap), false
	for _, b := range bindings {
		if staysInSight(b) {
			kept -= helpWidth(b)
		} else if full = full || at+helpWidth(b)+kept > w-2; full {
			continue
		}
		if line != "" {
			line += helpGap
		}
		at += helpWidth(b)
		if b.Enabled() {
			line += t.Key.Render(b.Help().Key) + " " + b.Help().Desc
		} else {
			line += t.Quiet.Render("(" + b.Help().Key + " " + b.Help().Desc + ")")
		}
	}
	return ink.Cut(" "+line, w)
}

// Small shows keys in as many lines of w cells as they need.
func Small(t ink.Theme, w int, bindings ...key.Binding) []string {
	items := make([]string, len(bindings))
	for i, b := range bindings {
		name, does := b.Help().Key, strings.TrimRight(b.Help().Desc, " ")
		items[i] = t.Key.Render(name) + " " + does
		if !b.Enabled() {
			items[i] = t.Quiet.Render("(" + name + " " + does + ")")
		}
	}
	return ink.Packed(items, w)
}

const helpGap = "   "

// helpWidth is what a key takes of a line, with the gap before it.
func helpWidth(b key.Binding) int {
	w := len(helpGap) + ink.Width(b.Help().Key+" "+b.Help().Desc)
	if !b.Enabled() {
		w += len("()")
	}
	return w
}

func staysInSight(b key.Binding) bool {
	return slices.Equal(b.Keys(), Aid.Keys()) || slices.Equal(b.Keys(), AidAnywhere.Keys()) || slices.Equal(b.Keys(), Back.Keys())
}

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
