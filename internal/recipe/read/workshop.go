package read

import (
	"gopkg.in/yaml.v3"

	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/recipe/check"
	"bench/internal/timer"
)

// Workshop reads a workshop document and checks it by itself. The rest is as
// for Recipe.
func Workshop(file string, data []byte) (recipe.Workshop, Source, []Problem) {
	r := newReader(file)
	var out recipe.Workshop
	root := r.document(data)
	if root != nil {
		r.workshop(root, &out)
	}
	source, problems := r.finish()
	if root != nil {
		problems = append(problems, source.Place(check.Workshop(out))...)
		sortProblems(problems)
	}
	return out, source, problems
}

func (r *reader) workshop(n *yaml.Node, out *recipe.Workshop) {
	r.mapping(n, "", fields{
		"bench":              r.format,
		"workshop":           into(&out.Name, r.name),
		"left in vessel":     into(&out.LeftInVessel, measure(r, positive(quantity.ParseMass))),
		"room":               into(&out.Room, measure(r, parseRoom)),
		"responsible person": each(r, &out.Responsible, r.line),
		"quiet hours":        into(&out.Manner.Quiet, measure(r, timer.ParseHours)),
		"alarm sound":        into(&out.Manner.Sound, choice(r, recipe.On, recipe.Off)),
		"notices":            into(&out.Manner.Notices, choice(r, recipe.On, recipe.Off, recipe.OffInQuietHours)),
		"mouse":              into(&out.Manner.Mouse, choice(r, recipe.On, recipe.Off)),
		"cutting":            into(&out.Cutting, r.cutting),
		"extruder":           into(&out.Extruder, r.extruder),
		"sticks":             each(r, &out.Sticks, r.stick),
		"scales":             each(r, &out.Scales, r.scale),
		"vessels":            each(r, &out.Vessels, r.vessel),
		"moulds":             each(r, &out.Moulds, r.mould),
		"materials":          each(r, &out.Materials, r.material),
	}, "bench", "workshop")
}

func (r *reader) scale(n *yaml.Node, p recipe.Path) recipe.Scale {
	var s recipe.Scale
	r.mapping(n, p, fields{
		"name":  into(&s.Name, r.name),
		"reads": into(&s.Reads, measure(r, positive(quantity.ParseMass))),
		"max":   into(&s.Max, measure(r, positive(quantity.ParseMass))),
	}, "name", "reads", "max")
	return s
}

func (r *reader) vessel(n *yaml.Node, p recipe.Path) recipe.Vessel {
	var v recipe.Vessel
	r.mapping(n, p, fields{
		"name": into(&v.Name, r.name),
		"kind": into(&v.Kind, choice(r, recipe.Pot, recipe.LyeJug, recipe.Jug, recipe.Cup)),
		"tare": into(&v.Tare, measure(r, positive(quantity.ParseMass))),
		"brim": into(&v.Brim, measure(r, positive(quantity.ParseVolume))),
	}, "name", "kind", "tare")
	return v
}

func (r *reader) mould(n *yaml.Node, p recipe.Path) recipe.Mould {
	var m recipe.Mould
	length := measure(r, positive(quantity.ParseLength))
	r.mapping(n, p, fields{
		"name":         into(&m.Name, r.name),
		"kind":         into(&m.Kind, choice(r, recipe.LoafMould, recipe.SlabMould, recipe.CylinderMould, recipe.LyingMould, recipe.CavityMould)),
		"length":       into(&m.Length, length),
		"width":        into(&m.Width, length),
		"height":       into(&m.Height, length),
		"floor width":  into(&m.FloorWidth, length),
		"floor length": into(&m.FloorLength, length),
		"diameter":     into(&m.Diameter, length),
		"liner":        into(&m.Liner, length),
		"cavities":     into(&m.Cavities, r.count),
		"volume":       into(&m.Volume, measure(r, positive(quantity.ParseVolume))),
		"holds water":  into(&m.HoldsWater, measure(r, positive(quantity.ParseMass))),
		"count":        into(&m.Count, r.count),
	}, "name")
	if m.Kind == "" && (m.Volume > 0 || m.HoldsWater > 0) {
		m.Kind = recipe.CavityMould
	}
	return m
}

func (r *reader) material(n *yaml.Node, p recipe.Path) recipe.Material {
	var m recipe.Material
	behaviour := choice(r, recipe.Behaves, recipe.Accelerates, recipe.Rices, recipe.Seizes, recipe.Separates, recipe.Heats, recipe.Discolours)
	share := measure(r, positive(quantity.ParseRatio))
	r.mapping(n, p, fields{
		"name": into(&m.Name, r.name),
		"kind": into(&m.Kind, choice(r, recipe.OilMaterial, recipe.AlkaliMaterial, recipe.WaterMaterial, recipe.ColourMaterial,
			recipe.FragranceMaterial, recipe.EssentialMaterial, recipe.AdditiveMaterial, recipe.ToppingMaterial, recipe.DoughMaterial, recipe.PremeltedMaterial)),
		"oil":       into(&m.Oil, r.oilKey),
		"sv":        into(&m.SV, measure(r, parseSV)),
		"density":   into(&m.Density, measure(r, parseOilDensity)),
		"melts":     into(&m.Melts, measure(r, parseMelts)),
		"oil share": into(&m.OilShare, share),
		"lot":       into(&m.Lot, r.line),
		"purity":    into(&m.Purity, share),
		"stock":     into(&m.Stock, share),
		"made":      into(&m.Made, r.line),
		"water":     into(&m.Water, share),
		"acid":      into(&m.Acid, share),
		"does": func(n *yaml.Node, p recipe.Path) {
			if n.Kind == yaml.ScalarNode {
				m.Does = []recipe.Behaviour{behaviour(n, p)}
				return
			}
			r.items(n, p, func(n *yaml.Node, p recipe.Path) { m.Does = append(m.Does, behaviour(n, p)) })
		},
		"soap inci": into(&m.SoapINCI, r.line),
		"allergens": r.parts(&m.Allergens),
		"contains":  r.parts(&m.Contains),
		"becomes":   into(&m.Becomes, r.line),
		"limit":     into(&m.Limit, share),
		"high pH":   into(&m.HighPH, choice(r, recipe.Stable, recipe.Unstable, recipe.Untested)),
		"looks":     into(&m.Looks, measure(r, parseLooks)),
		"inci":      into(&m.INCI, r.line),
	}, "name", "kind")
	return m
}

// oilKey reads the key of the oils table, in which words are joined by "_".
func (r *reader) oilKey(n *yaml.Node, p recipe.Path) string {
	return recipe.OilKey(r.name(n, p))
}
