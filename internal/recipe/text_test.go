package recipe

import (
	"reflect"
	"strings"
	"testing"
	"unicode/utf8"

	"bench/internal/quantity"
)

func TestClean(t *testing.T) {
	for text, want := range map[string]string{
		"Lighthouse at dusk":          "Lighthouse at dusk",
		"crème, 35 °C, 月":             "crème, 35 °C, 月",
		"\x1b[31mred":                 "\ufffd[31mred",
		"\u009b31mred":                "\ufffd31mred",
		"a\u202eb\u2066c":             "a\ufffdb\ufffdc",
		"zero\u200bwidth":             "zero\ufffdwidth",
		"\ufeffmark":                  "\ufffdmark",
		"bad\xffbyte":                 "bad\ufffdbyte",
		"1\ufe0f\u20e3 base":          "1 base",
		"#\u20e3*\ufe0f9\ufe0f\ufe0f": "#*9",
		"A\u20e3 ❤\ufe0f":             "A\u20e3 ❤\ufe0f",
		"line\nend\tand\rtab":         "line end and tab",
		"a\u2028b\x00\x7f":            "a\ufffdb\ufffd\ufffd",
	} {
		if got := Clean(text); got != want {
			t.Errorf("Clean(%q) = %q, want %q", text, got, want)
		}
	}
}

func TestCapital(t *testing.T) {
	for text, want := range map[string]string{"": "", "cup 1": "Cup 1", "élan": "Élan", "月 jug": "月 jug"} {
		if got := Capital(text); got != want {
			t.Errorf("Capital(%q) = %q, want %q", text, got, want)
		}
	}
}

func FuzzClean(f *testing.F) {
	f.Add("Lighthouse \x1b[2J\u202e")
	f.Fuzz(func(t *testing.T, s string) {
		got := Clean(s)
		if !utf8.ValidString(got) || strings.ContainsFunc(got, Unsafe) || Clean(got) != got {
			t.Fatalf("Clean(%q) = %q", s, got)
		}
	})
}

func TestSuggest(t *testing.T) {
	known := []string{"olive", "coconut", "cocoa_butter", "sunflower", "Olive oil", "shea"}
	for word, want := range map[string][]string{
		"olvie":        {"olive"},
		"cocoa butter": {"cocoa_butter"},
		"cocnut":       {"coconut"},
		"sheaa":        {"shea"},
		"sunflwoer":    {"sunflower"},
		"granite":      nil,
		"":             nil,
		"x":            nil,
	} {
		if got := Suggest(word, known); !reflect.DeepEqual(got, want) {
			t.Errorf("Suggest(%q) = %q, want %q", word, got, want)
		}
	}
	if d := distance("kitten", "sitting"); d != 3 { // Levenshtein's usual example.
		t.Errorf("kitten to sitting: %d", d)
	}
	if d := distance("ab", "ba"); d != 1 {
		t.Errorf("two letters swapped: %d", d)
	}
}

func TestMerge(t *testing.T) {
	workshop := func() Workshop {
		return Workshop{
			Scales:  []Scale{{"bench scale", quantity.Gram / 10, 3 * quantity.Kilogram}},
			Vessels: []Vessel{{Name: "pot", Kind: Pot, Tare: 600 * quantity.Gram}},
			Moulds:  []Mould{{Name: "harbour loaf"}, {Name: "quay loaf"}},
			Materials: []Material{
				{Name: "sodium hydroxide", Kind: AlkaliMaterial, Lot: "n1"},
				{Name: "Olive oil", Kind: OilMaterial, Oil: "olive", Lot: "o1"},
				{Name: "sea mica", Kind: ColourMaterial, Looks: "#2a6f7d"},
			},
		}
	}
	builtin := workshop()
	own := Workshop{
		Name:   "Mole sheds",
		Moulds: []Mould{{Name: "slab"}},
		Materials: []Material{
			{Name: "Sea Mica", Kind: ColourMaterial, Lot: "new"},
			{Name: "petals", Kind: ToppingMaterial},
		},
	}
	m := Merge(builtin, own)
	if !reflect.DeepEqual(builtin, workshop()) {
		t.Error("merging has changed the built-in workshop")
	}
	if m.Name != own.Name || !reflect.DeepEqual(m.Moulds, own.Moulds) || !reflect.DeepEqual(m.Scales, builtin.Scales) || !reflect.DeepEqual(m.Vessels, builtin.Vessels) {
		t.Errorf("%+v", m)
	}
	if len(m.Materials) != len(builtin.Materials)+1 || m.Materials[2].Lot != "new" || m.Materials[len(m.Materials)-1].Name != "petals" {
		t.Errorf("%+v", m.Materials)
	}
	if again := Merge(m, own); !reflect.DeepEqual(again, m) {
		t.Error("merging twice differs from merging once")
	}
	if same := Merge(builtin, Workshop{}); !reflect.DeepEqual(same, builtin) {
		t.Error("merging nothing changes something")
	}
}
