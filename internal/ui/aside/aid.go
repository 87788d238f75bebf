package aside

import "bench/internal/ui/ink"

// firstAid is for hydroxide and lye solution. It says what to do with water,
// and leaves the rest to those who know (common practice, and what supplier's
// safety data sheets agree on: GHS hazard statement H314 with precautionary
// statements P301+P330+P331, P303+P361+P353, P305+P351+P338, P310; from
// memory).
var firstAid = []struct{ on, do string }{ //nolint:gochecknoglobals // A table.
	{"SKIN", "Water, at once and long: 15 minutes at least. Clothes that it touched off, under the water."},
	{"EYES", "Water, at once and long: 15 minutes at least, lids held open, lenses out if that is easy. Then a doctor, always."},
	{"SWALLOWED", "Rinse the mouth; do not bring it up. Emergency services now."},
	{"BREATHED IN", "Out into fresh air. Trouble breathing: emergency services now."},
	{"NEVER", "Vinegar or anything sour on a burn. Water, and more water."},
	{"CALL", "Emergency services or the poison centre. Have the container's label at hand."},
	{"SPILL", "Keep others away. Gloves and goggles on. Soak it up or sweep it up, then rinse with much cold water. Never put water onto a heap of dry hydroxide: it boils."},
}

const aidSource = "The supplier's safety data sheet and local rules come first."

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
	for _, a := range firstAid {
		lines = append(lines, aidItem(t, a.on, a.do, w, label)...)
		if roomy {
			lines = append(lines, "")
		}
	}
	lines = append(lines, aidItem(t, "", aidSource, w, label)...)
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
