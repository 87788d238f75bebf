package steps_test

import (
	"math"
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/calc"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/sample"
	"bench/internal/steps"
)

// certified puts a certificate value into a control recipe, as recipe does.
func certified(c recipe.Control, key string, sv calc.Interval) recipe.Control {
	c.Oils = append([]recipe.OilUse(nil), c.Oils...)
	for i := range c.Oils {
		if c.Oils[i].Key == key {
			c.Oils[i].SV, c.Oils[i].Own, c.Oils[i].SVFrom = sv, true, "your certificate"
		}
	}
	return c
}

// What is said to narrow the band does, when the maker really does it.
func TestTheRemedyKeepsItsPromise(t *testing.T) {
	c := sample.Control(t, "wharf-puck.yaml", 1)
	b := steps.Of(batch.State{Control: c}).Batters[0]
	sure := b.Account.Surer()
	if sure.Most.Name != "shea butter" || sure.Most.Input != calc.InputSV {
		t.Fatalf("the widest is %+v", sure.Most)
	}
	shea, _ := c.Oil("shea")
	after := steps.Of(batch.State{Control: certified(c, "shea", calc.Certificate(shea.SV.Nominal))}).Batters[0]
	closeTo(t, "low", after.Superfat.Low, sure.Narrower.Low, 0.001)
	closeTo(t, "high", after.Superfat.High, sure.Narrower.High, 0.001)
	closeTo(t, "lowest", after.Account.Surer().Lowest, sure.LowestNarrower, 0.001)
	if len(after.Own) != 2 || after.Own[0].Name != "shea butter" || !strings.Contains(after.Own[0].Value, "177.5 mg/g") {
		t.Errorf("the maker's own values are %+v", after.Own)
	}
}

// A recipe that asks for the lowest superfat has a band that ends at zero.
func TestTheLowestSuperfatTouchesZero(t *testing.T) {
	for _, file := range []string{"wharf-puck.yaml", "tide-lines.yaml", "lighthouse-at-dusk.yaml"} {
		c := sample.Control(t, file, 0)
		for i, b := range steps.Of(batch.State{Control: c}).Batters {
			lowest := b.Account.Surer().Lowest
			again := sample.Control(t, file, 0)
			again.Recipe.Batters[i].Superfat = quantity.FromFraction(lowest / 100)
			got := steps.Of(batch.State{Control: again}).Batters[i].Superfat
			// Weights change with the superfat, and scales round: a few hundredths.
			if math.Abs(got.Low) > 0.06 {
				t.Errorf("%s, %s: a superfat of %.2f %% leaves the band at %.3f %%", file, b.Name, lowest, got.Low)
			}
		}
	}
}

// A band below zero is said in words.
func TestABandBelowZeroIsSaid(t *testing.T) {
	c := sample.Control(t, "wharf-puck.yaml", 1)
	c.Recipe.Batters[0].Superfat = 3 * quantity.Percent
	words := strings.Join(steps.Of(batch.State{Control: c}).Batters[0].Account.Sentences(), " ")
	if !strings.Contains(words, "below zero") || !strings.Contains(words, "burns") {
		t.Error(words)
	}
}
