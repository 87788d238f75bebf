package home

import (
	"strings"
	"testing"

	"bench/internal/cut"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/ui/ink"
)

// TestStrips: sticks are drawn to one scale, with their cuts where they are made.
func TestStrips(t *testing.T) {
	mm := func(n int64) quantity.Length { return quantity.Length(n) * quantity.Millimetre }
	piece := func(stick, part int, length int64) cut.Piece {
		return cut.Piece{Stick: stick, Part: part, Length: mm(length)}
	}
	p := recipe.StickPlan{Plan: cut.Plan{Sticks: []cut.Strip{
		{N: 1, Length: mm(400), Pieces: []cut.Piece{piece(1, 1, 200), piece(1, 2, 100)}, Offcut: mm(100)},
		{N: 2, Length: mm(200), Pieces: []cut.Piece{piece(2, 1, 200)}},
		{N: 3, Length: mm(400), Pieces: []cut.Piece{piece(3, 1, 390), piece(3, 2, 10)}},
	}}}
	want := []string{
		"├─────── 1a ────────┼── 1b ───┤··········",
		"├─────── 2a ────────┤",
		"├───────────────── 3a ─────────────────┼┤",
	}
	for i, s := range want {
		if got := strip(p, i, mm(400), 42); got != s {
			t.Errorf("stick %d:\n got %s\nwant %s", i+1, got, s)
		}
	}
}

// TestStickLines: what cannot be hidden or made is said, and nothing is wider
// than there is room.
func TestStickLines(t *testing.T) {
	p := recipe.StickPlan{Stick: "moon\x1b[31m", Embeds: []recipe.StickEmbed{{Embed: "moon"}}, Plan: cut.Plan{
		Used: 1, Joins: 1, Unmade: 2, Shows: []cut.Show{{Loaf: 1, Row: 1, Bar: 4}},
		Sticks: []cut.Strip{{N: 1, Lot: strings.Repeat("long ", 9), Length: 300 * quantity.Millimetre}},
		Loaves: []cut.PlacedLoaf{{N: 1, Rows: []cut.PlacedRow{{N: 1, Pieces: []cut.Piece{{Stick: 1, Part: 1, Length: 90 * quantity.Millimetre}}}}}},
	}}
	lines := stickLines(ink.Theme{}, p, 60)
	all := strings.Join(lines, "\n")
	for _, words := range []string{"1 stick, 1 join", "loaf 1, moon, from the stop: 1a 90 mm", "a join shows in bar 4 of loaf 1", "no sticks for 2 loaves"} {
		if !strings.Contains(all, words) {
			t.Errorf("%q is not said in\n%s", words, all)
		}
	}
	for _, l := range lines {
		if ink.Width(l) > 60 || strings.Contains(l, "\x1b") {
			t.Errorf("%q is %d cells wide, or an order to the terminal", l, ink.Width(l))
		}
	}
}
