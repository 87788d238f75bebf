package cut

import (
	"testing"

	"pgregory.net/rapid"

	"bench/internal/quantity"
)

// TestEveryPlanIsSound draws orders and holds each plan to the rules.
func TestEveryPlanIsSound(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		mm := func(low, high int, name string) quantity.Length {
			return quantity.Length(rapid.IntRange(low, high).Draw(r, name)) * quantity.Millimetre
		}
		o := Order{
			Loaf: Loaf{
				Length: mm(120, 450, "length"), Bar: mm(18, 40, "bar"), Near: mm(0, 12, "near"), Far: mm(0, 12, "far"), Wire: mm(0, 1, "wire"),
			},
			Loaves: rapid.IntRange(1, 5).Draw(r, "loaves"), Rows: rapid.IntRange(1, 2).Draw(r, "rows"),
			Knife: mm(0, 2, "knife"), Tolerance: mm(0, 3, "tolerance"), JoinsFirst: rapid.Bool().Draw(r, "joins first"),
		}
		for range rapid.IntRange(1, 4).Draw(r, "kinds") {
			o.Sticks = append(o.Sticks, Stick{
				Lot: rapid.SampledFrom([]string{"A", "B"}).Draw(r, "lot"), Length: mm(30, 350, "stick"), Count: rapid.IntRange(0, 12).Draw(r, "count"),
			})
		}
		p, err := Solve(o)
		if err != nil {
			r.Fatal(err)
		}
		check(r, o, p)
		if p.Unmade == 0 && len(p.Shows) == 0 && !p.Proven() {
			r.Logf("not proven: %+v %+v", p.Bound, o)
		}
	})
}
