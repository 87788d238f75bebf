package read

import (
	"io/fs"

	"gopkg.in/yaml.v3"

	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/recipe/check"
)

// Recipe reads a recipe document. The problems are in the order of the file;
// with any that is not a warning the recipe is not fit to be used, and what
// could not be read of it is zero. Source places the problems that
// check.Recipe finds. File is only a name for the problems.
//
// Beside holds the files that the recipe names, of which the first is used;
// without one it can name none.
func Recipe(file string, data []byte, beside ...fs.FS) (recipe.Recipe, Source, []Problem) {
	r := newReader(file)
	if len(beside) > 0 {
		r.beside = beside[0]
	}
	var out recipe.Recipe
	if root := r.document(data); root != nil {
		r.recipe(root, &out)
	}
	source, problems := r.finish()
	return out, source, problems
}

// CheckedRecipe reads a recipe document and checks it in a workshop, and gives
// the problems of both in the order of the file.
func CheckedRecipe(file string, data []byte, w recipe.Workshop, beside ...fs.FS) (recipe.Recipe, Source, []Problem) {
	out, source, problems := Recipe(file, data, beside...)
	if len(source.at) > 0 {
		problems = append(problems, source.Place(check.Recipe(out, w))...)
		sortProblems(problems)
	}
	return out, source, problems
}

func (r *reader) recipe(n *yaml.Node, out *recipe.Recipe) {
	r.mapping(n, "", fields{
		"bench":  r.format,
		"recipe": into(&out.Name, r.name),
		"about":  into(&out.About, r.line),
		"loaves": into(&out.Loaves, r.count),
		"mould":  into(&out.Mould, r.name),
		"loaf shares": func(n *yaml.Node, p recipe.Path) {
			r.items(n, p, func(n *yaml.Node, p recipe.Path) { out.LoafShares = append(out.LoafShares, int64(r.count(n, p))) })
		},
		"height":  into(&out.Height, measure(r, positive(quantity.ParseLength))),
		"gel":     into(&out.Gel, choice(r, recipe.GelForced, recipe.GelLeft, recipe.GelPrevented)),
		"unmould": into(&out.Unmould, measure(r, positive(quantity.ParseDuration))),
		"cure":    into(&out.Cure, r.cure),
		"batters": each(r, &out.Batters, r.batter),
		"layers":  each(r, &out.Layers, r.layer),
		"label":   func(n *yaml.Node, p recipe.Path) { out.Label = r.label(n, p) },
		"cutting": into(&out.Cutting, r.cutting),
		"top":     func(n *yaml.Node, p recipe.Path) { out.Top = r.top(n, p) },
	}, "bench", "recipe", "batters", "layers")
	if out.Loaves == 0 {
		out.Loaves = recipe.DefaultLoaves
	}
	if out.Gel == "" {
		out.Gel = recipe.DefaultGel
	}
}

func (r *reader) cure(n *yaml.Node, p recipe.Path) recipe.Cure {
	var c recipe.Cure
	r.mapping(n, p, fields{
		"least":       into(&c.Least, measure(r, positive(quantity.ParseDuration))),
		"usual":       into(&c.Usual, measure(r, positive(quantity.ParseDuration))),
		"weigh every": into(&c.WeighEvery, measure(r, positive(quantity.ParseDuration))),
		"slow":        into(&c.Slow, measure(r, positive(quantity.ParseRatio))),
	})
	return c
}

func (r *reader) batter(n *yaml.Node, p recipe.Path) recipe.Batter {
	b := recipe.Batter{
		Superfat: recipe.DefaultSuperfat,
		Alkali:   recipe.DefaultAlkali(),
		Water:    recipe.DefaultWater(),
		MixAt:    recipe.DefaultMixAt,
	}
	r.mapping(n, p, fields{
		"name":       into(&b.Name, r.name),
		"oil weight": into(&b.OilWeight, measure(r, positive(quantity.ParseMass))),
		"premelted":  into(&b.Premelted, r.name),
		"superfat":   into(&b.Superfat, measure(r, quantity.ParseRatio)),
		"water":      into(&b.Water, measure(r, parseWater)),
		"mix at":     into(&b.MixAt, measure(r, quantity.ParseTemperature)),
		"oils": func(n *yaml.Node, p recipe.Path) {
			r.shares(n, p, func(name string, share quantity.Ratio) {
				b.Oils = append(b.Oils, recipe.OilShare{Oil: name, Share: share})
			})
		},
		"alkali": func(n *yaml.Node, p recipe.Path) {
			b.Alkali = nil
			r.shares(n, p, func(name string, share quantity.Ratio) {
				b.Alkali = append(b.Alkali, recipe.AlkaliShare{Material: name, Share: share})
			})
		},
		"additives": each(r, &b.Additives, r.additive),
	}, "name", "oils")
	return b
}

// shares reads a mapping from names to shares, such as the oils of a batter.
// The i-th of them has the path of the i-th item.
func (r *reader) shares(n *yaml.Node, p recipe.Path, add func(string, quantity.Ratio)) {
	added := 0
	r.pairs(n, p, func(key, value *yaml.Node, _ int) {
		at := p.Item(added)
		added++
		r.source.at[at] = place(key)
		if value.Tag == "!!null" {
			r.failf(value, at, "%q has no share: write it like \"%s: 40 %%\"", short(key.Value), short(key.Value))
			add(recipe.Clean(key.Value), 0)
			return
		}
		add(r.name(key, at), measure(r, positive(quantity.ParseRatio))(value, at))
	})
	if added == 0 && n.Kind == yaml.MappingNode {
		r.failf(n, p, "nothing is listed here")
	}
}

func (r *reader) additive(n *yaml.Node, p recipe.Path) recipe.Additive {
	var a recipe.Additive
	r.mapping(n, p, fields{
		"material": into(&a.Material, r.name),
		"rate":     into(&a.Rate, measure(r, ofOils)),
		"in":       into(&a.In, r.additiveIn),
	}, "material", "rate", "in")
	return a
}

// additiveIn reads what an additive goes into; all of it goes in before the split.
func (r *reader) additiveIn(n *yaml.Node, p recipe.Path) recipe.Medium {
	if where := recipe.Fold(n.Value); where == string(recipe.InPortions) || where == "portion" || where == "after the split" {
		r.failf(n, p, "an additive is not stirred into portions, only a scent is: say batter, and it goes into all of it before the split")
		return ""
	}
	return choice(r, recipe.InLyeWater, recipe.InOils, recipe.InBatter)(n, p)
}

func (r *reader) top(n *yaml.Node, p recipe.Path) recipe.Top {
	var top recipe.Top
	r.mapping(n, p, fields{
		"texture":  into(&top.Texture, r.line),
		"toppings": each(r, &top.Toppings, r.topping),
	})
	return top
}

// topping reads what is scattered on each loaf, at its top or between layers.
func (r *reader) topping(n *yaml.Node, p recipe.Path) recipe.Topping {
	var t recipe.Topping
	r.mapping(n, p, fields{
		"material": into(&t.Material, r.name),
		"per loaf": into(&t.PerLoaf, measure(r, positive(quantity.ParseMass))),
	}, "material", "per loaf")
	return t
}
