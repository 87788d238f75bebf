package judge_test

import (
	"slices"
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/sample"
)

// threeLoaves has its sea batter weighed out, its lye made, and a jug that nothing needs.
func threeLoaves(t *testing.T) *sample.Batch {
	t.Helper()
	c := sample.Control(t, "lighthouse-at-dusk.yaml", 3)
	c.Vessels = slices.Concat(c.Vessels, []recipe.Vessel{
		{Name: "stone jug", Kind: recipe.Jug, Tare: 930 * g, Brim: 2 * quantity.Litre},
		{Name: "lye jug C", Kind: recipe.LyeJug, Tare: 150 * g},
		{Name: "mug", Kind: recipe.Jug, Tare: 210 * g, Brim: 300 * quantity.Millilitre},
	})
	b := sample.Begin(c)
	b.WorkTo(t, "sea/castor")
	return b
}

// TestTookRefused: a vessel that cannot have been taken is refused, with the figures. Of
// the volumes, 330.3 g at 0.889 g/ml are 372 ml.
func TestTookRefused(t *testing.T) {
	b := threeLoaves(t)
	for _, c := range []struct{ vessel, text, want string }{
		{"lye jug A", "", "say which vessel"},
		{"lye jug A", "bucket", `no vessel called "bucket": say what it weighs empty`},
		{"lye jug A", "jug 9", `no vessel called "jug 9"`},
		{"lye jug A", "lye jug a", "is the vessel of the plan"},
		{"lye jug A", "lye jug C 250 g", "weighs 150 g empty in the workshop, and not 250 g"},
		{"lye jug A", "large pot", "large pot holds the sea oils: take an empty one"},
		{"lye jug A", "jug 1", "jug 1 is planned for loaf 1's portion of base"},
		{"lye jug A", "beaker 0.214 g", "0.214 g is no weight of a vessel that is to hold 330 g"},
		{"lye jug A", "beaker 214 kg", "214000 g is no weight of a vessel"},
		{"large pot", "cauldron 9 kg", "with 1121 g in it more than the 10000 g that the largest scale carries"},
		{"lye jug A", "beaker 214.0 g, 300 ml", "beaker holds 300 ml to the brim, and the 330 g that go into it may take 372 ml: take a larger one"},
		{"jug 1", "mug", "mug holds 300 ml to the brim"},
		{"large pot", "lye jug C", "takes lye solution and nothing else"},
		{"cup 1", "dry cup", "takes dry alkali and nothing else"},
		{"bath", "beaker 214.0 g", "nothing of this batch is in bath"},
		{"", "beaker 214.0 g", `say for which vessel, such as "spare jug 214.0 g for jug 1": one of lye jug A, large pot`},
	} {
		f, err := judge.Took(b.Plan(), c.vessel, c.text)
		if err == nil {
			err = judge.Allows(b.Plan(), f, b.Now)
		}
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s for %s: %v\n%+v", c.text, c.vessel, err, f)
		}
	}
	for _, text := range []string{"lye jug C", "beaker 214.0 g, 400 ml", "beaker 3.4 g", "crock 6.5 kg"} {
		f, err := judge.Took(b.Plan(), "lye jug A", text)
		if err == nil {
			err = judge.Allows(b.Plan(), f, b.Now)
		}
		if err != nil {
			t.Errorf("%s: %v", text, err)
		}
	}
	b.Put(batch.Closed{Reason: "dusk"})
	said{"the batch is closed", batch.VesselReplaced{Vessel: "large pot", By: "kettle", Tare: 900 * g}, "closed"}.on(t, b)
}

// TestTook reads the ways in which a vessel is named.
func TestTook(t *testing.T) {
	b := threeLoaves(t)
	for text, want := range map[string]batch.VesselReplaced{
		"Stone jug":                       {Vessel: "jug 1", By: "stone jug", Tare: 930 * g, Brim: 2 * quantity.Litre},
		"stone jug 931.5":                 {Vessel: "jug 1", By: "stone jug", Tare: 931_500, Brim: 2 * quantity.Litre},
		"spare jug 214.0":                 {Vessel: "jug 1", By: "spare jug", Tare: 214 * g},
		"spare jug, 214":                  {Vessel: "jug 1", By: "spare jug", Tare: 214 * g},
		"spare jug 0.214 kg":              {Vessel: "jug 1", By: "spare jug", Tare: 214 * g},
		"spare jug, 214,5 g, 1.5 l":       {Vessel: "jug 1", By: "spare jug", Tare: 214_500, Brim: 1500 * quantity.Millilitre},
		"spare jug 214 g empty 1500 ml":   {Vessel: "jug 1", By: "spare jug", Tare: 214 * g, Brim: 1500 * quantity.Millilitre},
		"jug 7 214 g for jug 2":           {Vessel: "jug 2", By: "jug 7", Tare: 214 * g},
		"can for oil 214 g for Small pot": {Vessel: "small pot", By: "can for oil", Tare: 214 * g},
		"lye jug 9 214.0 for lye jug A":   {Vessel: "lye jug A", By: "lye jug 9", Tare: 214 * g},
	} {
		got, err := judge.Took(b.Plan(), "jug 1", text)
		if got.Held = ""; err != nil || got != want {
			t.Errorf("%q: %+v, %v", text, got, err)
		}
	}
	if f, _ := judge.Took(b.Plan(), "large pot", "kettle 900 g"); f.Held != "the sea oils" {
		t.Errorf("for %q", f.Held)
	}
}

// TestSpare: what may be taken instead is of the kind, large enough, and wanted for
// nothing; what takes lye or dry alkali is for that alone.
func TestSpare(t *testing.T) {
	b := threeLoaves(t)
	for vessel, want := range map[string]string{
		"jug 1": "jug 4, jug 5, jug 6, stone jug", "lye jug A": "lye jug C", "large pot": "", "dry cup": "", "bath": "",
	} {
		var names []string
		for _, v := range judge.Spare(b.Plan(), vessel) {
			names = append(names, v.Name)
		}
		if got := strings.Join(names, ", "); got != want {
			t.Errorf("%s: %s, not %s", vessel, got, want)
		}
	}
}
