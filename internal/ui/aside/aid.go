package aside

import (
	"bench/internal/reply"
	"bench/internal/ui/ink"
)

// AidLines shows the page at any size, the first things first.
func AidLines(t ink.Theme, w, h int) []string {
	roomy := h >= ink.MinHeight
	lines := []string{" " + t.Alarm.Render(" FIRST AID · LYE BURNS "), ""}
	if !roomy {
		lines = lines[:1]
	}
	label := 14
	if w < 60 {
		label = 0
	}
	for _, a := range reply.FirstAid() {
		lines = append(lines, aidItem(t, a.On, a.Do, w, label)...)
		if roomy {
			lines = append(lines, "")
		}
	}
	lines = append(lines, aidItem(t, "", reply.AidSource, w, label)...)
	if len(lines) >= h {
		lines = withoutBlanks(lines)
	}
	return append(ink.Block(lines, w, h-1), ink.Cut(" "+t.Key.Render("any key")+" back", w))
}

// aidItem sets one line of the page: a label at the side, or before the text
// where the window is narrow.
func aidItem(t ink.Theme, on, do string, w, label int) []string {
	if label == 0 {
		if on != "" {
			do = on + ": " + do
		}
		return ink.Wrap(do, w)
	}
	var lines []string
	for i, l := range ink.Wrap(do, min(w-label-2, 90)) {
		head := ""
		if i == 0 {
			head = on
		}
		lines = append(lines, " "+t.Strong.Render(ink.Fit(head, label))+l)
	}
	return lines
}

func withoutBlanks(lines []string) []string {
	var out []string
	for _, l := range lines {
		if l != "" {
			out = append(out, l)
		}
	}
	return out
}
