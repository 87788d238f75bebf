package batch_test

import (
	"reflect"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"bench/internal/batch"
	"bench/internal/calc"
	"bench/internal/quantity"
	"bench/internal/recipe"
)

var (
	texts   = rapid.String()
	masses  = rapid.Custom(func(t *rapid.T) quantity.Mass { return quantity.Mass(rapid.Int64().Draw(t, "mass")) })
	ratios  = rapid.Custom(func(t *rapid.T) quantity.Ratio { return quantity.Ratio(rapid.Int64().Draw(t, "ratio")) })
	numbers = rapid.Float64Range(-1e300, 1e300)
)

func list[T any](g *rapid.Generator[T]) *rapid.Generator[[]T] { return rapid.SliceOfN(g, 1, 3) }

// controls are not sensible; they only must come back as they were.
var controls = rapid.Custom(func(t *rapid.T) recipe.Control {
	return recipe.Control{
		PlanVersion: rapid.Int().Draw(t, "version"),
		Text:        texts.Draw(t, "text"), Hash: texts.Draw(t, "hash"), Loaves: rapid.Int().Draw(t, "loaves"),
		Recipe: recipe.Recipe{
			Name: texts.Draw(t, "name"), Unmould: time.Duration(rapid.Int64().Draw(t, "unmould")),
			Batters: []recipe.Batter{{
				Name: texts.Draw(t, "batter"), Superfat: ratios.Draw(t, "superfat"),
				Oils:  []recipe.OilShare{{Oil: texts.Draw(t, "oil"), Share: ratios.Draw(t, "share")}},
				Water: calc.WaterRule{Kind: calc.ByWaterPerAlkali, Value: numbers.Draw(t, "water")},
			}},
			Layers: []recipe.Layer{{
				Name: texts.Draw(t, "layer"), Trace: recipe.Thick,
				Scents: []recipe.Scent{{Material: texts.Draw(t, "scent"), Rate: ratios.Draw(t, "rate"), Of: recipe.OfBatter, Where: recipe.InPot}},
				Embeds: []recipe.Embed{{Name: texts.Draw(t, "embed"), Shape: recipe.Ellipse, Sink: quantity.Millimetre}},
			}},
		},
		Materials: []recipe.Material{{Name: texts.Draw(t, "material"), Does: []recipe.Behaviour{recipe.Rices}}},
		Oils: []recipe.OilUse{{
			Key: texts.Draw(t, "key"), Density: numbers.Draw(t, "density"),
			SV: calc.Interval{Low: numbers.Draw(t, "low"), Nominal: numbers.Draw(t, "nominal"), High: numbers.Draw(t, "high")},
		}},
		Warnings: list(texts).Draw(t, "warnings"),
	}
})

var weighings = rapid.Custom(func(t *rapid.T) batch.Weighed {
	return batch.Weighed{
		Task: texts.Draw(t, "task"), Material: texts.Draw(t, "material"), Lot: texts.Draw(t, "lot"),
		Target: masses.Draw(t, "target"), Mass: masses.Draw(t, "mass"), More: rapid.Bool().Draw(t, "more"),
		How:   rapid.SampledFrom([]batch.How{batch.AtTarget, batch.Typed, batch.ByEye}).Draw(t, "how"),
		Scale: texts.Draw(t, "scale"), Reads: masses.Draw(t, "reads"), Vessel: texts.Draw(t, "vessel"), Tare: masses.Draw(t, "tare"),
		Within: masses.Draw(t, "within"), Look: rapid.IntRange(0, 9).Draw(t, "look"),
	}
})

var grosses = rapid.Custom(func(t *rapid.T) batch.Grossed {
	return batch.Grossed{
		Task: texts.Draw(t, "task"), Vessel: texts.Draw(t, "vessel"), Gross: masses.Draw(t, "gross"), Tare: masses.Draw(t, "tare"),
		Scale: texts.Draw(t, "scale"), Reads: masses.Draw(t, "reads"), Asked: masses.Draw(t, "asked"),
	}
})

// facts has a generator for every kind.
var facts = map[string]*rapid.Generator[batch.Fact]{
	"started": rapid.Custom(func(t *rapid.T) batch.Fact { return batch.Started{Control: controls.Draw(t, "control")} }),
	"weighed": rapid.Custom(func(t *rapid.T) batch.Fact { return weighings.Draw(t, "weighed") }),
	"ticked": rapid.Custom(func(t *rapid.T) batch.Fact {
		return batch.Ticked{Task: texts.Draw(t, "task"), Mass: masses.Draw(t, "mass"), Why: texts.Draw(t, "why")}
	}),
	"grossed": rapid.Custom(func(t *rapid.T) batch.Fact { return grosses.Draw(t, "grossed") }),
	"temperature-taken": rapid.Custom(func(t *rapid.T) batch.Fact {
		return batch.TemperatureTaken{Task: texts.Draw(t, "task"), Temperature: quantity.Temperature(rapid.Int64().Draw(t, "temperature")), Asked: quantity.Temperature(rapid.Int64().Draw(t, "asked"))}
	}),
	"skipped": rapid.Custom(func(t *rapid.T) batch.Fact {
		return batch.Skipped{Task: texts.Draw(t, "task"), Reason: texts.Draw(t, "reason")}
	}),
	"timer-seen": rapid.Custom(func(t *rapid.T) batch.Fact { return batch.TimerSeen{Timer: texts.Draw(t, "timer")} }),
	"timer-put-off": rapid.Custom(func(t *rapid.T) batch.Fact {
		return batch.TimerPutOff{Timer: texts.Draw(t, "timer"), For: time.Duration(rapid.Int64().Draw(t, "for"))}
	}),
	"noted": rapid.Custom(func(t *rapid.T) batch.Fact {
		return batch.Noted{Stage: texts.Draw(t, "stage"), Text: texts.Draw(t, "text")}
	}),
	"corrected": rapid.Custom(func(t *rapid.T) batch.Fact {
		with := batch.Fact(weighings.Draw(t, "with"))
		if rapid.Bool().Draw(t, "gross") {
			with = grosses.Draw(t, "with")
		}
		return batch.Corrected{Seq: rapid.Int().Draw(t, "seq"), Reason: texts.Draw(t, "reason"), With: with}
	}),
	"decided": rapid.Custom(func(t *rapid.T) batch.Fact {
		return batch.Decided{
			Task: texts.Draw(t, "task"), Off: masses.Draw(t, "off"), Way: batch.Way(texts.Draw(t, "way")),
			Oil: texts.Draw(t, "oil"), Mass: masses.Draw(t, "mass"), Other: texts.Draw(t, "other"),
		}
	}),
	"warning-seen": rapid.Custom(func(t *rapid.T) batch.Fact {
		return batch.WarningSeen{Batter: texts.Draw(t, "batter"), Warning: texts.Draw(t, "warning"), Typed: texts.Draw(t, "typed")}
	}),
	"pot-weighed": rapid.Custom(func(t *rapid.T) batch.Fact {
		return batch.PotWeighed{
			Vessel: texts.Draw(t, "vessel"), Gross: masses.Draw(t, "gross"), Expected: masses.Draw(t, "expected"), Finding: texts.Draw(t, "finding"),
		}
	}),
	"vessel-replaced": rapid.Custom(func(t *rapid.T) batch.Fact {
		return batch.VesselReplaced{
			Vessel: texts.Draw(t, "vessel"), By: texts.Draw(t, "by"), Tare: masses.Draw(t, "tare"),
			Brim: quantity.Volume(rapid.Int64().Draw(t, "brim")), Held: texts.Draw(t, "held"),
		}
	}),
	"pot-answered": rapid.Custom(func(t *rapid.T) batch.Fact {
		return batch.PotAnswered{
			Look: rapid.Int().Draw(t, "look"), Vessel: texts.Draw(t, "vessel"), Finding: texts.Draw(t, "finding"), Answer: texts.Draw(t, "answer"),
		}
	}),
	"shared-answered": rapid.Custom(func(t *rapid.T) batch.Fact {
		return batch.SharedAnswered{Shared: texts.Draw(t, "shared"), Answer: texts.Draw(t, "answer")}
	}),
	"closed": rapid.Custom(func(t *rapid.T) batch.Fact {
		return batch.Closed{Reason: texts.Draw(t, "reason"), Left: texts.Draw(t, "left")}
	}),
	"stopped": rapid.Custom(func(t *rapid.T) batch.Fact {
		left := batch.Left{Vessel: texts.Draw(t, "vessel"), Held: texts.Draw(t, "held"), Emptied: rapid.Bool().Draw(t, "emptied"), Answer: texts.Draw(t, "answer")}
		return batch.Stopped{Reason: texts.Draw(t, "reason"), Left: []batch.Left{left, left}}
	}),

	"gel-looked":      afterFacts[0],
	"unmould-put-off": afterFacts[1],
	"bars-cut":        afterFacts[2],
	"bars-weighed":    afterFacts[3],
	"set-aside":       afterFacts[4],
	"marked":          afterFacts[5],
	"weighed-in":      afterFacts[6],
	"tested":          afterFacts[7],
	"released":        afterFacts[8],
	"held":            afterFacts[9],
	"reworks":         afterFacts[10],
	"complained":      afterFacts[11],
	"bars-went":       afterFacts[12],
}

func TestRoundTrip(t *testing.T) {
	for kind, generator := range facts {
		t.Run(kind, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				f := generator.Draw(t, "fact")
				gotKind, body, err := batch.Encode(f)
				if err != nil || gotKind != kind || batch.Kind(f) != kind {
					t.Fatalf("kind %q, %v", gotKind, err)
				}
				back, err := batch.Decode(kind, body)
				if err != nil {
					t.Fatal(err)
				}
				if !reflect.DeepEqual(f, back) {
					t.Fatalf("%#v came back as %#v", f, back)
				}
			})
		})
	}
}

// TestEveryKindIsTested keeps the list above complete: a kind that Decode knows
// is one that the journal may hold.
func TestEveryKindIsTested(t *testing.T) {
	for kind := range facts {
		if _, err := batch.Decode(kind, []byte(`[]`)); err == nil || strings.Contains(err.Error(), "unknown kind") {
			t.Errorf("%s: %v", kind, err)
		}
	}
	if len(facts) != 31 {
		t.Errorf("%d kinds are tested; batch.Fact has 31: keep both lists alike", len(facts))
	}
}

func TestDecodeRefuses(t *testing.T) {
	for _, c := range []struct{ name, kind, body, want string }{
		{"an unknown kind", "blessed", `{}`, `unknown kind "blessed"`},
		{"the kind's zero", "", `{}`, "unknown kind"},
		{"an unknown field", "ticked", `{"Task":"a","Mood":"good"}`, "Mood"},
		{"an unknown field inside", "started", `{"Control":{"Recipe":{"Quality":7}}}`, "Quality"},
		{"a value of the wrong kind", "weighed", `{"Mass":"312 g"}`, "Mass"},
		{"a part of a milligram", "weighed", `{"Mass":0.5}`, "Mass"},
		{"more than int64 holds", "weighed", `{"Mass":9223372036854775808}`, "Mass"},
		{"two values", "ticked", `{"Task":"a"}{"Task":"b"}`, "decode ticked"},
		{"a stray bracket", "ticked", `{"Task":"a"}}`, "decode ticked"},
		{"half a value", "ticked", `{"Task":"a"`, "decode ticked"},
		{"nothing", "ticked", ``, "decode ticked"},
		{"null", "started", `null`, "null"},
		{"a list", "noted", `[]`, "decode noted"},
		{"a correction with nothing", "corrected", `{"Seq":1,"Reason":"slip"}`, "unknown kind"},
		{"a correction with an unknown kind", "corrected", `{"Seq":1,"Kind":"blessed","With":{}}`, "blessed"},
		{"a correction of a correction", "corrected", `{"Seq":2,"Kind":"corrected","With":{"Seq":1,"Kind":"ticked","With":{"Task":"a"}}}`, "names the first fact"},
	} {
		if f, err := batch.Decode(c.kind, []byte(c.body)); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %#v, %v", c.name, f, err)
		}
	}
}

// TestEncodeRefuses: what JSON cannot hold is an error and not half a fact.
func TestEncodeRefuses(t *testing.T) {
	zero := 0.0
	f := batch.Started{Control: recipe.Control{Oils: []recipe.OilUse{{Density: 1 / zero}}}}
	if _, _, err := batch.Encode(f); err == nil || !strings.Contains(err.Error(), "encode started") {
		t.Errorf("%v", err)
	}
}

// FuzzDecode: whatever bytes there are, decoding ends in an error or in a fact
// that is stored the same again.
func FuzzDecode(f *testing.F) {
	for kind := range facts {
		f.Add(kind, []byte(`{}`))
	}
	f.Add("weighed", []byte(`{"Task":"sea/olive","Target":344300,"Mass":344300,"How":"at target","Reads":100,"Tare":712000}`))
	f.Add("corrected", []byte(`{"Seq":3,"Reason":"read wrong","Kind":"weighed","With":{"Task":"sea/olive","Mass":1}}`))
	f.Fuzz(func(t *testing.T, kind string, body []byte) {
		fact, err := batch.Decode(kind, body)
		if err != nil {
			return
		}
		again, stored, err := batch.Encode(fact)
		if err != nil || again != kind {
			t.Fatalf("%q decoded, and encoded as %q: %v", kind, again, err)
		}
		back, err := batch.Decode(kind, stored)
		if err != nil {
			t.Fatal(err)
		}
		_, twice, err := batch.Encode(back)
		if err != nil || string(twice) != string(stored) {
			t.Fatalf("%s is stored as %s: %v", stored, twice, err)
		}
	})
}
