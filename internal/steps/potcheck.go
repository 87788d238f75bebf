package steps

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"bench/internal/batch"
	"bench/internal/calc"
	"bench/internal/quantity"
	"bench/internal/recipe"
)

// Content is what a vessel holds by the facts, and what may yet go into it.
type Content struct {
	Vessel   string
	Holds    string // Holds says what stands in it, in a word or two.
	Tare     quantity.Mass
	Gone     quantity.Mass // Gone was poured out of it.
	Reads    quantity.Mass
	Expected quantity.Mass // Expected is what it should weigh, vessel and all.

	parts []calc.Candidate
	slack float64 // slack is in grams: what the scale, steam and what clings leave open.
}

// PotFinding is what a gross weight says of a vessel.
type PotFinding struct {
	calc.Finding
	Words string
	Fact  batch.PotWeighed
}

// Vessels lists what can be weighed to see whether all is in.
func (p Plan) Vessels() []Content {
	if p.planner == nil {
		return nil
	}
	return p.planner.vessels()
}

// vessels lists the pots and the lye jugs that hold something by the facts, or
// will.
func (p *planner) vessels() []Content {
	var list []Content
	for _, k := range p.pots {
		met := p.combinedBefore(k.recipe.Name, len(p.s.Entries)+1)
		list = append(list, p.potContent(k, met))
		if !met {
			list = append(list, p.jugContent(k))
		}
	}
	return list
}

func (p *planner) potContent(k pot, met bool) Content {
	c := Content{Vessel: k.vessel.Name, Holds: k.recipe.Name + " pot", Tare: k.vessel.Tare}
	c.add(slices.Concat(k.allOils(), k.late[k.lateOils:])...)
	for i, a := range k.recipe.Additives {
		if a.In != recipe.InLyeWater {
			c.add(k.additives[i])
		}
	}
	for _, r := range p.pours {
		if r.recipe.Batter != k.recipe.Name {
			continue
		}
		for i, colour := range r.recipe.Colours {
			if colour.In == recipe.InOils {
				c.add(r.colours[i])
			}
		}
		if r.layer.Place == recipe.InWarmOils || r.layer.Place == recipe.InPot && r.vessel.Name == k.vessel.Name && met {
			c.add(r.scents...)
		}
		c.Gone += p.pouredOut(r, k.vessel.Name)
	}
	lye := calc.Candidate{Name: "the lye solution", Grams: k.ofPart(k.solution()).Grams(), In: met}
	lye.Tolerance = lye.Grams / 50 // Steam, and what clings to the jug (common practice, no source).
	c.parts = append(c.parts, lye)
	p.weighed(&c, p.potLoadOf(k))
	return c
}

func (p *planner) potLoadOf(k pot) quantity.Mass {
	_, at := p.c.Recipe.Batter(k.recipe.Name)
	return p.potLoad(at)
}

func (p *planner) jugContent(k pot) Content {
	c := Content{Vessel: k.jug.Name, Holds: k.recipe.Name + " lye solution", Tare: k.jug.Tare}
	c.add(k.water)
	for i, a := range k.recipe.Additives {
		if a.In == recipe.InLyeWater {
			c.add(k.additives[i])
		}
	}
	dry := len(c.parts)
	c.add(slices.Concat(k.alkali, k.early)...)
	_, dissolved := p.s.Done(dissolveID(k.recipe.Name))
	for i := range c.parts[dry:] { // Dry alkali stands in its cup until it is tipped in.
		c.parts[dry+i].In = c.parts[dry+i].In && dissolved
	}
	p.weighed(&c, k.solution())
	if dissolved {
		c.slack += k.solution().Grams() / 50 // Steam (common practice, no source).
	}
	return c
}

// pouredOut is what portions took out of a vessel.
func (p *planner) pouredOut(r pour, vessel string) quantity.Mass {
	gone := quantity.Mass(0)
	for _, t := range append([]Task{r.fromPot}, r.portions...) {
		if t.ID != "" && t.Vessel == vessel {
			m, _ := p.s.Mass(t.ID)
			gone += m
		}
	}
	return gone
}

// weighed chooses the scale for a look, and adds up what it should show.
func (p *planner) weighed(c *Content, load quantity.Mass) {
	c.Reads = p.home(recipe.Vessel{Tare: c.Tare}, load).Reads
	c.slack = c.Reads.Grams()
	c.Expected = c.expected()
}

func (c *Content) add(tasks ...Task) {
	for _, t := range tasks {
		if t.Skipped != "" {
			continue
		}
		m := amount(t).Mass
		part := calc.Candidate{Name: t.Material, Grams: m.Grams(), In: t.Done, Tolerance: t.Reads.Grams()}
		switch {
		case !t.Done && t.Mass > 0: // A container went in already, and more is to come.
			c.parts = append(c.parts, calc.Candidate{Name: t.Material, Grams: t.Mass.Grams(), In: true, Tolerance: t.Reads.Grams()})
			part.Grams = (m - t.Mass).Grams()
		case t.ByEye:
			part.Tolerance = byEyeSpread * part.Grams
		}
		c.parts = append(c.parts, part)
	}
}

func (c Content) expected() quantity.Mass {
	grams := 0.0
	for _, part := range c.parts {
		if part.In {
			grams += part.Grams
		}
	}
	return c.Tare - c.Gone + quantity.FromGrams(grams)
}

// PotCheck compares what a vessel weighs, all in all, with the facts, and puts
// into words what is missing, in twice, or in without a fact.
func (p Plan) PotCheck(vessel string, gross quantity.Mass) (PotFinding, error) {
	for _, c := range p.Vessels() {
		switch {
		case c.Vessel != vessel:
		case c.Tare <= 0:
			return PotFinding{}, fmt.Errorf("no weight is known of %s empty: enter it in the workshop first", vessel)
		case gross <= 0 || gross > 1_000_000*quantity.Gram:
			return PotFinding{}, fmt.Errorf("%s g is no weight of a vessel", gross.At(c.Reads))
		default:
			f := PotFinding{Finding: calc.WeighPot(c.parts, (c.Tare - c.Gone).Grams(), gross.Grams(), c.slack)}
			f.Words = c.say(f.Finding)
			f.Fact = batch.PotWeighed{Vessel: vessel, Gross: gross, Expected: c.Expected, Finding: f.Words}
			return f, nil
		}
	}
	return PotFinding{}, fmt.Errorf("there is no vessel %q to look into", vessel)
}

func (c Content) say(f calc.Finding) string {
	off := quantity.FromGrams(f.Difference)
	much := abs(off).At(c.Reads) + " g more than the facts say: "
	if off < 0 {
		much = abs(off).At(c.Reads) + " g short: "
	}
	switch f.Kind {
	case calc.AsExpected:
		words := "as it should be"
		if len(f.Explanations) > 0 {
			words += "; this scale cannot tell whether " + either(f.Explanations)
		}
		return words
	case calc.Explained:
		return much + faults(f.Explanations[0])
	case calc.Ambiguous:
		return much + "ambiguous: " + either(f.Explanations)
	case calc.Unexplained:
		return much + "nothing that belongs here explains it"
	}
	return much
}

// mostExplained keeps an ambiguous answer short enough to read.
const mostExplained = 3

func either(all [][]calc.Fault) string {
	var words []string
	for _, f := range all[:min(len(all), mostExplained)] {
		words = append(words, faults(f))
	}
	text := strings.Join(words, ", or ")
	if n := len(all) - mostExplained; n > 0 {
		text += fmt.Sprintf(", or %d other ways", n)
	}
	return text
}

func faults(list []calc.Fault) string {
	var words []string
	for _, f := range list {
		switch f.Kind {
		case calc.Missing:
			words = append(words, f.Name+" is not in")
		case calc.Twice:
			words = append(words, f.Name+" is in twice")
		case calc.Unrecorded:
			words = append(words, f.Name+" is in already")
		}
	}
	return strings.Join(words, " and ")
}

func (p Plan) allowsPot(f batch.PotWeighed) error {
	found, err := p.PotCheck(f.Vessel, f.Gross)
	switch {
	case err != nil:
		return err
	case found.Fact != f:
		return errors.New("the facts have changed since: weigh it again")
	}
	return nil
}
