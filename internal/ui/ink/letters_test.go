package ink

import (
	"math"
	"strings"
	"testing"
)

// TestLettersDiffer holds any two letters to differing in more than one dot, and
// every letter to its six dots of one width.
func TestLettersDiffer(t *testing.T) {
	for a, x := range letters {
		for _, row := range x {
			if len(row) != len(x[0]) {
				t.Errorf("%c has rows of %d and %d dots", a, len(row), len(x[0]))
			}
		}
		for b, y := range letters {
			apart := 0
			for i := range x {
				for n := range max(len(x[i]), len(y[i])) {
					if (n < len(x[i]) && x[i][n] == '#') != (n < len(y[i]) && y[i][n] == '#') {
						apart++
					}
				}
			}
			if a != b && apart < 2 && a != ' ' && b != ' ' {
				t.Errorf("%c and %c differ in %d dots", a, b, apart)
			}
		}
	}
}

func TestLead(t *testing.T) {
	for sentence, want := range map[string]string{
		"Warm the hard oils until they are melted clear": "Warm hard",
		"Look at the gel after 1 h":                      "Look at gel",
		"Tip the alkali into the water, a little":        "Tip alkali",
		"Look: no white pockets, beads or cracks":        "no white",
		"Gloves, goggles and long sleeves on":            "Gloves",
		"They may meet now":                              "meet now",
		"Lye into oils":                                  "Lye",
		"Light trace reached":                            "Light trace",
		"Stir 22.95 g of scent into large pot":           "Stir 22.95 g",
		"蒸 the pot":                                      "",
		"":                                               "",
	} {
		if got := strings.Join(Lead(sentence, 54, 1, 1), "|"); got != want {
			t.Errorf("%q leads with %q, not %q", sentence, got, want)
		}
	}
	for sentence, want := range map[string]string{
		"Lye into oils":                    "Lye into|oils",
		"Put the hydroxide away: lid on":   "Put the|hydroxide",
		"Tip the alkali into the water":    "Tip alkali|into water",
		"Gloves, goggles and long sleeves": "Gloves",
		"Release the bars, or hold them":   "Release the|bars",
		"Look: no white pockets, beads":    "no white|pockets",
	} {
		if got := strings.Join(Lead(sentence, 54, 1, 2), "|"); got != want {
			t.Errorf("%q leads with %q on two lines, not %q", sentence, got, want)
		}
	}
	for _, scale := range []int{1, 2, 3} {
		for _, row := range Letters("Pour 22.5", scale) {
			if Width(row) != lettersWidth("Pour 22.5", scale) {
				t.Errorf("at %d a row is %d wide, not %d", scale, Width(row), lettersWidth("Pour 22.5", scale))
			}
		}
	}
}

// arcMinutes gives the angle under which a height is seen.
func arcMinutes(height, distance float64) float64 {
	return 2 * math.Atan(height/2/distance) * 180 / math.Pi * 60
}

// TestReadAtTwoMetres holds the claim that large figures and letters are read
// from two metres. ISO 9241-3 (1992, 5.4, second-hand) asks for 16 minutes of
// arc and prefers 20 to 22. A row of a terminal is its font's size times about
// 1.2 (common practice, no source); 11 points of 0.3528 mm are usual, and
// capitals are about 0.7 of the size.
func TestReadAtTwoMetres(t *testing.T) {
	const (
		metres        = 2000.0
		point         = 0.3528
		row           = 11 * point * 1.2 // 4.66 mm
		least, plenty = 16.0, 22.0
	)
	if a := arcMinutes(12.8, metres); math.Abs(a-22) > 0.05 {
		t.Errorf("12.8 mm are seen under %.2f minutes, not 22", a) // As the standard's 1/156 of the distance.
	}
	figures, words := float64(len(Big("8", 1))), float64(len(Letters("A", 1)))
	if figures != 5 || words != 3 {
		t.Fatalf("figures are %v rows high, letters %v", figures, words)
	}
	if a := arcMinutes(figures*row, metres); a < plenty {
		t.Errorf("figures are seen under %.1f minutes", a) // 40.
	}
	if a := arcMinutes(words*row, metres); a < plenty {
		t.Errorf("letters are seen under %.1f minutes", a) // 24.
	}
	if a := arcMinutes(11*point*0.7, metres); a > least/2 {
		t.Errorf("body text is seen under %.1f minutes: then nothing need be large", a) // 4.7.
	}
	// The least row for figures and for letters: 1.9 and 3.1 mm, of fonts of 4.4
	// and 7.3 points.
	if a := arcMinutes(figures*1.87, metres); a < least {
		t.Errorf("figures of rows of 1.87 mm: %.1f", a)
	}
	if a := arcMinutes(words*3.11, metres); a < least {
		t.Errorf("letters of rows of 3.11 mm: %.1f", a)
	}
}
