package steps_test

import (
	"strings"
	"testing"

	"bench/internal/quantity"
	"bench/internal/sample"
)

// TestWettedOutOfThePot: two spoons of oil, 16 g in all, went out of a shared pot to wet its
// colours. Neither a look into the pot nor its whole weight calls them missing, and once the
// colours are in, the mass balance does not say that they were left behind in vessels. By
// hand: a tablespoon, 15 ml, of oil of 0.92 g/ml is 14 g; what is far beyond that is missing.
func TestWettedOutOfThePot(t *testing.T) {
	const spooned = 16 * g
	plain, b := begin(sample.Control(t, "tide-lines.yaml", 3)), begin(sample.Control(t, "tide-lines.yaml", 3))
	for _, each := range []*bencher{plain, b} {
		each.workTo(t, "tide/meet")
	}
	cups := 0
	for _, st := range b.plan().Stages {
		for _, task := range st.Tasks {
			if strings.HasPrefix(task.ID, "tide/") && strings.HasSuffix(task.ID, "/cup") && task.Mass > 0 && strings.Contains(task.Hint, "spoonful") {
				cups++
			}
		}
	}
	if cups < 2 {
		t.Fatalf("%d cups were wetted", cups)
	}
	look := func(b *bencher, less quantity.Mass) string {
		f, err := b.plan().PotCheck("large pot", content(b, "large pot").Expected-less)
		if err != nil {
			t.Fatal(err)
		}
		return f.Words
	}
	if got := look(b, spooned); !strings.HasPrefix(got, "as it should be: 16 g are no more than the spoons held") {
		t.Errorf("two spoons are out: %q", got)
	}
	if got := look(b, quantity.Mass(cups)*15*g+40*g); strings.HasPrefix(got, "as it should be") {
		t.Errorf("far more than the spoons held: %q", got)
	}
	for _, each := range []*bencher{plain, b} {
		each.workTo(t, "tide/gross")
	}
	gross := b.task(t, "tide/gross")
	if gross.Loss != quantity.Mass(cups)*15*g || !strings.Contains(gross.Hint, "A spoonful of its oil") {
		t.Errorf("%v, %q", gross.Loss, gross.Hint)
	}
	b.typed(t, "tide/gross", (gross.Target - spooned).At(gross.Reads))
	for _, each := range []*bencher{plain, b} {
		each.workTo(t, "clean up/hydroxide")
	}
	was, is := plain.plan().Balance, b.plan().Balance
	if off := is.Rest - was.Rest; off.Abs() > g || is.Colours < 15*g || is.Colours > 17*g || was.Colours != 0 {
		t.Errorf("in vessels %s, without spoons %s; with the colours %s", is.Rest, was.Rest, is.Colours)
	}
	if in := is.Loaves + is.Colours + is.Leftover + is.Rest; in != is.In || !strings.Contains(is.String(), "about 16 g of oil went with the colours") {
		t.Errorf("%s of %s: %s", in, is.In, is)
	}
}
