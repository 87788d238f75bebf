package home

import (
	"bench/internal/face"
	"bench/internal/ui/ink"
	"bench/internal/ui/loaf"
)

// faceBeside gives how many columns the cut face takes beside the sheet, its
// line included; none in a narrow window, where f shows it.
func faceBeside(w int) int {
	if w < ink.WideAt {
		return 0
	}
	return w / 3
}

// face draws the loaf as it is meant to become, with what lies where.
func (s Setup) face(t ink.Theme, w, h int) []string {
	if len(s.problems) > 0 || !s.plan.Mould.HasHeights() || len(s.plan.Layers) == 0 || h < 12 {
		return nil
	}
	frame := face.Frame{Rule: true, Names: true}
	design := func() face.Loaf { return face.Designed(s.control).Finished() }
	room := h - 3 - len(s.plan.Layers)
	picture, swatches := s.picture.Draw(t, w-2, room, frame, loaf.At{Stand: s.loaves}, design)
	lines := []string{"", " " + t.Quiet.Render("the cut face")}
	for _, l := range picture {
		lines = append(lines, " "+l)
	}
	lines = append(lines, "")
	for i := len(swatches) - 1; i >= 0; i-- {
		lines = append(lines, " "+swatches[i]+" "+ink.Cut(ink.Clean(s.plan.Layers[i].Name), w-6))
	}
	return lines
}

// FaceLines show the loaf as large as the window allows.
func (s Setup) FaceLines(t ink.Theme, w, h int) []string {
	return append(ink.Block(s.face(t, w, h-1), w, h-1), ink.Cut(" "+t.Key.Render("any key")+" back", w))
}
