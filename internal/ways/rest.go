package ways

import (
	"fmt"

	"bench/internal/batch"
	"bench/internal/calc"
)

// The policy of this file: water, additives and scents move the superfat little
// or not at all. What stands by itself yet comes out again; what is short is
// brought in while the batter takes it; and up to where the lye solution meets the
// oils everything else can be brought up to a weight that is over.

// water offers what a lye solution that is too weak or too strong allows.
func (p Pot) water(w Weight) []Way {
	carryOn := Way{Fact: batch.Decided{Way: batch.CarryOn}, Until: anyTime}
	if w.Off < 0 {
		carryOn.Title = "Carry on with a stronger lye solution: it traces sooner"
		list := []Way{p.missing(w, "Add the %s g of %s that are missing", untilTrace)}
		if p.Strength <= calc.MaxLyeConcentration {
			list = append(list, carryOn)
		}
		if !p.OilsIn && !p.AlkaliIn {
			list = append(list, proportion("Bring everything else down in proportion"))
		}
		return list
	}
	carryOn.Title = "Carry on with a weaker lye solution: it traces later and stays soft for longer"
	list := append([]Way{carryOn}, p.up()...)
	if w.Alone {
		list = append(list, takeOut(w, "Pour %s g of %s off again", "until anything is dissolved in it"))
	}
	return list
}

// stirred offers what an additive allows.
func (p Pot) stirred(w Weight) []Way {
	if w.Off < 0 {
		return []Way{p.missing(w, "Add the %s g of %s that are missing", untilShared)}
	}
	list := p.up()
	if w.Alone {
		list = append(list, takeOut(w, "Leave %s g of the %s in its cup", untilStirred))
	}
	return list
}

// scent offers what a scent allows. Over its limit, nothing is carried on with:
// it stays in its cup, or the batch grows to it, or the bars are held.
func (p Pot) scent(w Weight) []Way {
	carryOn := Way{Fact: batch.Decided{Way: batch.CarryOn}, Title: "Carry on: it is scented as it was weighed", Until: anyTime}
	switch {
	case w.Off < 0 && p.Shared:
		return []Way{p.tooLate(w)}
	case w.Off < 0:
		return []Way{p.missing(w, "Add the %s g of %s that are missing", untilShared), carryOn}
	}
	var list []Way
	if w.Alone {
		list = append(list, takeOut(w, "Leave %s g of the %s in its cup", untilStirred))
	}
	list = append(list, p.up()...)
	if w.Over {
		title := "Go on all the same, and hold the bars: over the limit, until a remedy is recorded"
		if len(list) == 0 {
			title = "Go on, and hold the bars until a remedy is recorded: it cannot come out again, nor can batter be added"
		}
		return append(list, Way{Fact: batch.Decided{Way: batch.HoldBatch}, Title: title, Until: anyTime})
	}
	return append(list, carryOn)
}

// tooLate is all that is left once the batter is in several vessels: what is missing can no
// longer be stirred into all of it alike.
func (p Pot) tooLate(w Weight) Way {
	return Way{
		Fact: batch.Decided{Way: batch.CarryOn}, Default: true, Until: anyTime,
		Title: fmt.Sprintf("Carry on without: the batter is shared out, and %s g of %s no longer go into all of it alike", (-w.Off).At(w.Reads), w.Material),
	}
}

// up brings everything else up, while that can be done.
func (p Pot) up() []Way {
	if p.Met {
		return nil
	}
	return []Way{proportion("Bring everything else up in proportion: more batter")}
}

func (p Pot) missing(w Weight, title, until string) Way {
	return Way{
		Fact: batch.Decided{Way: batch.AddMissing, Mass: -w.Off}, Default: true,
		Title: fmt.Sprintf(title, (-w.Off).At(w.Reads), w.Material), Until: until,
	}
}

func takeOut(w Weight, title, until string) Way {
	return Way{
		Fact: batch.Decided{Way: batch.TakeOut, Mass: w.Off}, Default: true,
		Title: fmt.Sprintf(title, w.Off.At(w.Reads), w.Material), Until: until,
	}
}
