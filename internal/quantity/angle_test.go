package quantity_test

import (
	"strings"
	"testing"

	"bench/internal/quantity"
)

func TestParseAngleAndVolume(t *testing.T) {
	for text, want := range map[string]quantity.Angle{"15°": 15_000, "340 deg": 340_000, "0.5 degrees": 500, "7,25°": 7250, "360°": 360_000} {
		if got, err := quantity.ParseAngle(text); err != nil || got != want {
			t.Errorf("%q: %d, %v", text, got, err)
		}
	}
	// A cubic inch is 16.387064 ml exactly.
	for text, want := range map[string]quantity.Volume{"85 ml": 85_000, "1.2 l": 1_200_000, "33 cl": 330_000, "1000 cu in": 16_387_064, "2 in³": 32_774} {
		if got, err := quantity.ParseVolume(text); err != nil || got != want {
			t.Errorf("%q: %d, %v", text, got, err)
		}
	}
	for text, want := range map[string]string{"361°": "more than 360°", "-5°": "cannot be negative", "15": "unit is missing", "2 rad": "angles are in degrees"} {
		if _, err := quantity.ParseAngle(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v", text, err)
		}
	}
	for text, want := range map[string]string{"85": "unit is missing", "8 oz": "holds water", "2000 l": "more than 1000 l"} {
		if _, err := quantity.ParseVolume(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v", text, err)
		}
	}
}
