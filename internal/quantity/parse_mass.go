package quantity

// masses are the units of mass. The pound is 453 592.37 mg exactly, hence the
// hundredths; an ounce is a sixteenth of it.
var masses = kind{ //nolint:gochecknoglobals // A table that nothing writes to.
	noun:    "a mass",
	example: `"38 g", "1.2 kg" or "2 lb 4 oz"`,
	max:     int64(MaxMass),
	maxText: "1000 kg",
	units: spell(map[unit][]string{
		{1, 1}:             {"mg"},
		{1_000, 1}:         {"g", "gram", "grams"},
		{1_000_000, 1}:     {"kg", "kilo", "kilos"},
		{45_359_237, 100}:  {"lb", "lbs", "pound", "pounds"},
		{45_359_237, 1600}: {"oz", "ounce", "ounces"},
	}),
	below: map[string]int64{"oz": 16, "ounce": 16, "ounces": 16},
	hints: map[string]string{
		"ml": "ml is a volume, and bench weighs", "l": "l is a volume, and bench weighs",
		"fl oz": "a fluid ounce is a volume, and bench weighs",
		"tsp":   "a teaspoon is a volume, and bench weighs", "tbsp": "a tablespoon is a volume, and bench weighs",
	},
}

// ParseMass reads a mass with its unit: mg, g, kg, oz, lb, or lb and oz.
func ParseMass(text string) (Mass, error) {
	n, err := masses.parse(text)
	return Mass(n), err
}

// ParseNumberMass reads a mass typed at the bench, where a bare number is in
// the given unit: "312", "312.0" and "312,5" are grams when the unit is Gram.
func ParseNumberMass(text string, bare Mass) (Mass, error) {
	k := masses
	if n, after, err := number(trim(text)); err == nil && after == "" {
		whole, err := k.whole(text, n.Mul(n, ratOf(int64(bare))))
		return Mass(whole), err
	}
	k.example = `"312.4", "1.2 kg" or "2 lb 4 oz"`
	n, err := k.parse(text)
	return Mass(n), err
}
