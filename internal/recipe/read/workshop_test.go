package read_test

import (
	"strings"
	"testing"

	"bench/internal/quantity"
	"bench/internal/recipe/read"
)

// TestVesselBrim: what a vessel holds to the brim is a volume, and may be left out.
func TestVesselBrim(t *testing.T) {
	const doc = "bench: 1\nworkshop: Mole sheds\nvessels:\n  - { name: kettle, kind: pot, tare: 900 g, brim: 3.5 l }\n  - { name: pail, kind: jug, tare: 80 g }\n" +
		"  - { name: lye pail, kind: lye jug, tare: 90 g }\n  - { name: cup, kind: cup, tare: 9 g }\n"
	w, _, problems := read.Workshop("workshop.yaml", []byte(doc))
	if len(problems) > 0 || w.Vessels[0].Brim != 3500*quantity.Millilitre || w.Vessels[1].Brim != 0 {
		t.Errorf("%+v\n%v", w.Vessels, problems)
	}
	for _, wrong := range []string{"3.5 kg", "0 l", "large"} {
		if _, _, problems := read.Workshop("workshop.yaml", []byte(strings.Replace(doc, "3.5 l", wrong, 1))); len(problems) != 1 {
			t.Errorf("brim: %s: %v", wrong, problems)
		}
	}
}
