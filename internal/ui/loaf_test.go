package ui

import (
	"strings"
	"testing"
)

// drawn gives the rows of the loaf between its walls, from the rim down.
func drawn(p *person) []string {
	var rows []string
	for _, l := range strings.Split(p.m.View(), "\n") {
		if parts := strings.Split(l, "│"); len(parts) == 5 { // Rail, middle, and the loaf between its walls.
			rows = append(rows, parts[3])
		}
	}
	return rows
}

// filledRows counts the rows that hold batter.
func filledRows(rows []string) int {
	n := 0
	for _, r := range rows {
		if strings.ContainsAny(r, "▒░▓") {
			n++
		}
	}
	return n
}

// TestLoafFills holds the loaf to being filled as far as it was poured: to the
// pour line first, and to the finished surface once the embeds are in.
func TestLoafFills(t *testing.T) {
	p := arrives(t, newMemory()).sized(120, 40).starts().works("sea/base/loaf 1/pour")
	rows := drawn(p)
	if len(rows) != 11 || filledRows(rows) != 0 || !strings.Contains(strings.Join(rows, ""), "▫") {
		t.Fatalf("before the first pour:\n%s", strings.Join(rows, "\n"))
	}
	p.press("space").sees("loaf 2 of 3", "base: pour to 22.5 mm")
	if n := filledRows(drawn(p)); n != 0 {
		t.Errorf("%d rows of loaf 2 are filled before it is poured", n)
	}
	p.works("dusk/shea").sees("loaf 1 of 3", "base: poured to 22.5 mm")
	// Rows of 5.9 mm: 22.5 mm reach past the middle of the fourth, and not of the fifth.
	if n := filledRows(drawn(p)); n != 4 {
		t.Errorf("%d rows are filled to 22.5 mm", n)
	}
	p.works("dusk/lye jug").sees("base: poured to 30 mm")
	rows = drawn(p)
	if n := filledRows(rows); n != 5 || !strings.Contains(strings.Join(rows, ""), "▪") {
		t.Errorf("%d rows are filled to 30 mm:\n%s", n, strings.Join(rows, "\n"))
	}
}
