package check

import (
	"bench/internal/oils"
	"bench/internal/recipe"
)

// The ends of what can be a saponification value at all, in mg KOH per g: waxes
// lie at the lower end, the shortest fats at the upper (common practice, no
// source).
const (
	lowestSV  = 50
	highestSV = 400
)

// workshopSV checks a certificate's value: one that cannot be is an error, and
// one outside the published range gets a word.
func (c *checker) workshopSV(p recipe.Path, m recipe.Material) {
	if !m.Certified() {
		return
	}
	switch row, ok := oils.ByKey(m.Oil); {
	case m.SV.Low < lowestSV || m.SV.High > highestSV:
		c.errorf(p, "a saponification value of %.4g mg/g (%.4g to %.4g) cannot be: fats lie between %d and %d mg of potassium hydroxide per gram; read the certificate again",
			m.SV.Nominal, m.SV.Low, m.SV.High, lowestSV, highestSV)
	case ok && (m.SV.Nominal < row.SV.Low || m.SV.Nominal > row.SV.High):
		c.warnf(p, "a saponification value of %.4g mg/g lies outside the published range of %s, %.4g to %.4g: is it that oil's certificate?",
			m.SV.Nominal, row.Name, row.SV.Low, row.SV.High)
	}
}
