package judge

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/steps"
	"bench/internal/uses"
	"bench/internal/work"
)

// The policy of this file: whoever took another vessel says which, and what it weighs
// empty where the workshop does not know. That what it holds went along is taken for
// granted; a vessel that is in use, too small or of no possible weight is refused.

// Fills names the vessel that a task fills, or "".
func Fills(t work.Task) string {
	if t.Do == work.Portion {
		return t.Into
	}
	return t.Vessel
}

// Took makes a fact of the words for a vessel that was taken in place of one of the
// plan: "jug 3", or "spare jug 214.0 g", or with what it holds to the brim "spare jug,
// 214.0 g, 1.5 l"; behind them "for" and the vessel that it replaces, where that is
// another than vessel.
func Took(p steps.Plan, vessel, text string) (f batch.VesselReplaced, err error) {
	words, vessel := parted(p, strings.TrimSpace(text), vessel)
	if vessel == "" {
		return f, fmt.Errorf("say for which vessel, such as %q: one of %s", "spare jug 214.0 g for jug 1", strings.Join(Wanted(p), ", "))
	}
	by, err := vesselIn(p, words)
	if err != nil {
		return f, err
	}
	use, _ := p.Uses().Of(vessel)
	return batch.VesselReplaced{Vessel: vessel, By: by.Name, Tare: by.Tare, Brim: by.Brim, Held: use.What}, nil
}

// Wanted names the vessels that the plan has a use for, each once.
func Wanted(p steps.Plan) []string {
	var names []string
	for _, u := range p.Uses() {
		if !u.Over && !slices.Contains(names, u.Vessel) {
			names = append(names, u.Vessel)
		}
	}
	return names
}

// parted takes "for" and a vessel of the plan off the end of the words.
func parted(p steps.Plan, text, vessel string) (words, of string) {
	for _, name := range Wanted(p) {
		if at := len(text) - len(name); at > 0 && recipe.Fold(text[at:]) == recipe.Fold(name) {
			if words, ok := strings.CutSuffix(text[:at], " for "); ok {
				return strings.TrimSpace(words), name
			}
		}
	}
	return text, vessel
}

// weighedEmpty is a name, a weight, and what it holds to the brim. A weight has its unit,
// a decimal or a comma before it, or "jug 3" would be one of 3 g.
var weighedEmpty = regexp.MustCompile(`^(.+?)(?:[,\s]+(\d+(?:[.,]\d+)?\s*(?:kg|g)|\d+[.,]\d+)|\s*,\s*(\d+))(?:\s+empty)?(?:[,\s]+(\d+(?:[.,]\d+)?\s*(?:ml|cl|l)))?$`)

// vesselIn finds or makes the vessel of those words. One of the workshop has the weight
// that it has there, unless it was weighed again.
func vesselIn(p steps.Plan, words string) (recipe.Vessel, error) {
	if words == "" {
		return recipe.Vessel{}, errors.New("say which vessel was taken")
	}
	if v, ok := inWorkshop(p, words); ok {
		return v, nil
	}
	m := weighedEmpty.FindStringSubmatch(words)
	if m == nil {
		return recipe.Vessel{}, fmt.Errorf("the workshop has no vessel called %q: say what it weighs empty, with the unit, such as %q", words, words+" 214.0 g")
	}
	v, known := inWorkshop(p, m[1])
	if !known {
		v = recipe.Vessel{Name: recipe.Clean(m[1])}
	}
	stored := v.Tare
	var err error
	if v.Tare, err = quantity.ParseNumberMass(m[2]+m[3], quantity.Gram); err != nil {
		return v, err
	}
	if off := (v.Tare - stored).Abs(); known && off > stored/10 {
		return v, fmt.Errorf("%s weighs %s empty in the workshop, and not %s: leave the weight out, or give another vessel its own name", v.Name, stored, v.Tare)
	}
	if m[4] != "" {
		v.Brim, err = quantity.ParseVolume(m[4])
	}
	return v, err
}

func inWorkshop(p steps.Plan, name string) (recipe.Vessel, bool) {
	for _, v := range p.State().Control.Vessels {
		if recipe.Fold(v.Name) == recipe.Fold(name) {
			return v, true
		}
	}
	for _, r := range p.State().Replacements() { // It was named, and weighed, before.
		if recipe.Fold(r.Fact.By) == recipe.Fold(name) {
			return recipe.Vessel{Name: r.Fact.By, Tare: r.Fact.Tare, Brim: r.Fact.Brim}, true
		}
	}
	return recipe.Vessel{}, false
}

// Spare lists the vessels of the workshop that could be taken in place of one of the
// plan: of its kind, empty, and with nothing planned for them.
func Spare(p steps.Plan, vessel string) []recipe.Vessel {
	use, ok := p.Uses().Of(vessel)
	var list []recipe.Vessel
	for _, v := range p.State().Control.Vessels {
		if _, needed := p.Uses().Of(v.Name); !ok || needed || v.Name == vessel || v.Kind != use.Kind && (!use.Lye || v.Kind != recipe.LyeJug) || v.Name == alkaliCup(p) {
			continue
		}
		if roomy(v, use) == nil {
			list = append(list, v)
		}
	}
	return list
}

// alkaliCup is the first cup of the workshop, which takes dry alkali and nothing else.
func alkaliCup(p steps.Plan) string {
	for _, v := range p.State().Control.Vessels {
		if v.Kind == recipe.Cup {
			return v.Name
		}
	}
	return ""
}

func allowsReplaced(p steps.Plan, f batch.VesselReplaced) error {
	use, ok := p.Uses().Of(f.Vessel)
	switch {
	case !ok:
		return fmt.Errorf("nothing of this batch is in %s, or is still to go into it: there is nothing to replace", f.Vessel)
	case strings.TrimSpace(f.By) == "" || recipe.Fold(f.By) == recipe.Fold(f.Vessel):
		return fmt.Errorf("%s is the vessel of the plan: say which other was taken", f.Vessel)
	case use.Drawn:
		return fmt.Errorf("%s was weighed full, and what was poured out of it follows from that: take those weights back first (u), the last one first; then say which vessel it is, and weigh it again", f.Vessel)
	}
	if err := takeable(p, f, use); err != nil {
		return err
	}
	if err := tareable(p, f, use); err != nil {
		return err
	}
	return roomy(recipe.Vessel{Name: f.By, Brim: f.Brim}, use)
}

// takeable refuses a vessel that is in use, or that what goes into it would spoil.
func takeable(p steps.Plan, f batch.VesselReplaced, use uses.Use) error {
	other, needed := p.Uses().Of(f.By)
	own, known := inWorkshop(p, f.By)
	dry := alkaliCup(p)
	switch {
	case needed && other.Full:
		return fmt.Errorf("%s holds %s: take an empty one", f.By, other.What)
	case known && own.Kind == recipe.LyeJug && !use.Lye:
		return fmt.Errorf("%s takes lye solution and nothing else: take another", f.By)
	case f.By == dry && (use.Kind != recipe.Cup || !use.Alkali):
		return fmt.Errorf("%s takes dry alkali and nothing else: take another", f.By)
	case needed && (other.Kind != use.Kind || use.Alkali != other.Alkali && use.Kind == recipe.Cup):
		return fmt.Errorf("%s is planned for %s: take one that is not, or say first what was taken for that", f.By, other.What)
	}
	return nil
}

// The bounds of a tare that can be one: common practice, no source. A beaker of thin
// plastic weighs a twentieth of what it holds, a pan of cast iron three times as much.
const (
	lightest     = 100 // lightest is a vessel that holds so many times its weight.
	heaviest     = 20  // heaviest is one that weighs so many times what it holds,
	heavy        = quantity.Kilogram
	lightestBoat = quantity.Gram / 5 // lightestBoat is a square of weighing paper.
)

func tareable(p steps.Plan, f batch.VesselReplaced, use uses.Use) error {
	least := max(use.Load/lightest, lightestBoat)
	most := quantity.Mass(0)
	for _, s := range p.State().Control.Scales {
		most = max(most, s.Max)
	}
	switch {
	case f.Tare <= 0:
		return fmt.Errorf("no weight is known of %s empty: say it, with the unit, such as %q", f.By, f.By+" 214.0 g")
	case f.Tare < least || f.Tare > max(heavy, heaviest*use.Load):
		return fmt.Errorf("%s is no weight of a vessel that is to hold %s g: weigh %s empty, and mind the unit", f.Tare, use.Load.At(quantity.Gram), f.By)
	case f.Tare+use.Load > most:
		return fmt.Errorf("%s weighs %s, and with %s g in it more than the %s that the largest scale carries: take a lighter one",
			f.By, f.Tare, use.Load.At(quantity.Gram), most)
	}
	return nil
}

// roomy refuses a vessel that is too small for what it has to hold.
func roomy(v recipe.Vessel, use uses.Use) error {
	if small := use.TooSmall(v); small != "" {
		return errors.New(small)
	}
	return nil
}
