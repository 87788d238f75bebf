package quantity

// Angle is an angle in whole thousandths of a degree.
type Angle int64

// The degree, and the largest angle that is read.
const (
	AngleDegree Angle = 1000
	MaxAngle    Angle = 360 * AngleDegree
)

// Degrees gives the angle as a floating-point number of degrees.
func (a Angle) Degrees() float64 { return float64(a) / float64(AngleDegree) }

var angles = kind{ //nolint:gochecknoglobals // A table that nothing writes to.
	noun:    "an angle",
	example: `"15°" or "340°"`,
	max:     int64(MaxAngle),
	maxText: "360°",
	units:   spell(map[unit][]string{{int64(AngleDegree), 1}: {"°", "º", "deg", "degree", "degrees"}}),
	hints:   map[string]string{"rad": "angles are in degrees"},
}

// ParseAngle reads an angle in degrees.
func ParseAngle(text string) (Angle, error) {
	n, err := angles.parse(text)
	return Angle(n), err
}

var volumes = kind{ //nolint:gochecknoglobals // A table that nothing writes to.
	noun:    "a volume",
	example: `"85 ml", "1.2 l" or "40 cu in"`,
	max:     int64(MaxVolume),
	maxText: "1000 l",
	units: spell(map[unit][]string{
		{int64(Millilitre), 1}: {"ml", "cm³", "cc"},
		{10_000, 1}:            {"cl"},
		{int64(Litre), 1}:      {"l", "litre", "litres"},
		{2_048_383, 125}:       {"cu in", "in³"}, // 16 387.064 mm³ exactly.
	}),
	hints: map[string]string{"oz": "an ounce of water is a weight: write \"holds water\" instead", "fl oz": "fluid ounces differ: write millilitres"},
}

// MaxVolume is the most that is read.
const MaxVolume Volume = 1000 * Litre

// ParseVolume reads a volume with its unit: ml, cl, l or cubic inches.
func ParseVolume(text string) (Volume, error) {
	n, err := volumes.parse(text)
	return Volume(n), err
}
