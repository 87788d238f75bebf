package label

// For the tests.
var (
	USWeight      = usWeight
	DurabilityOf  = durability
	MolarGlycerol = molarGlycerol
)

// Free gives the grams of sodium and potassium hydroxide that a kilogram of olive oil leaves.
func Free(sodium, potassium float64) (soda, potash float64) {
	row, _ := naming{}.row("olive")
	p := pot{oils: []fat{{row, 1000, row.SV.Mid()}}}
	p.alkalis = []alkali{{"sodium hydroxide", sodium, sodium}, {"potassium hydroxide", potassium, potassium}}
	return p.free()
}

// Soaps gives the grams of sodium soap, potassium soap, unreacted oil, glycerol
// and water of reaction that oils of the table become with so much alkali.
func Soaps(oils map[string]float64, sodium, potassium float64) (soda, potash, left, glycerol, water float64) {
	var p pot
	n := naming{}
	for key, grams := range oils {
		row, _ := n.row(key)
		p.oils = append(p.oils, fat{row, grams, row.SV.Mid()})
	}
	p.alkalis = []alkali{{"sodium hydroxide", sodium, sodium}, {"potassium hydroxide", potassium, potassium}}
	for _, s := range p.soaps() {
		soda, potash, left, glycerol, water = soda+s.sodium, potash+s.potash, left+s.left, glycerol+s.glycerol, water+s.water
	}
	return soda, potash, left, glycerol, water
}
