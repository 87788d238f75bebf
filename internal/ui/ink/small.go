package ink

import "slices"

// Narrowest is the width from which keys answer in a window too small for a page.
const Narrowest = 20

// Small is what a window too small for a page shows of it.
type Small struct {
	Needs []string   // Needs must be in sight whole before a key answers.
	Least []string   // Least is what is shown where Needs find no room, the first first.
	More  [][]string // More is shown as far as there is room, the first first, each whole.
	Keys  []string   // Keys stand at the foot, whole.
}

// Rows is the height that is needed.
func (s Small) Rows() int { return len(s.Needs) + len(s.Keys) }

// Fits says that keys may answer: all that they answer is in sight.
func (s Small) Fits(w, h int) bool { return w >= Narrowest && len(s.Needs) > 0 && s.Rows() <= h }

// Shown says that the part of More with that number is in sight.
func (s Small) Shown(part, h int) bool {
	shown := s.shown(h)
	return part < len(s.More) && len(s.More[part]) > 0 && shown[part]
}

func (s Small) shown(h int) []bool {
	room, shown := h-s.Rows(), make([]bool, len(s.More))
	for i, each := range s.More {
		if len(each) <= room {
			shown[i], room = true, room-len(each)
		}
	}
	return shown
}

// Lines are h lines, or more where that is not enough.
func (s Small) Lines(h int) []string {
	lines := slices.Clone(s.Needs)
	for i, shown := range s.shown(h) {
		if shown {
			lines = append(lines, s.More[i]...)
		}
	}
	for len(lines)+len(s.Keys) < h {
		lines = append(lines, "")
	}
	return append(lines, s.Keys...)
}

// Packed sets items one after another into lines of w cells, each whole where it can
// be.
func Packed(items []string, w int) []string {
	const gap = "   "
	var lines []string
	for _, item := range items {
		last := len(lines) - 1
		if last >= 0 && Width(lines[last])+len(gap)+Width(item) <= w {
			lines[last] += gap + item
			continue
		}
		lines = append(lines, Wrap(item, w)...)
	}
	return lines
}
