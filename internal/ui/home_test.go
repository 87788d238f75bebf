package ui

import (
	"slices"
	"strings"
	"testing"

	"bench/internal/front"
	"bench/internal/memory"
)

// TestCursorStaysOnTheBatch holds the cursor to the batch that one comes back
// from.
func TestCursorStaysOnTheBatch(t *testing.T) {
	p := arrives(t, memory.New()).starts().press("esc", "down", "enter", "enter", "esc").sees("▶ Lighthouse at dusk        26K25B")
	p.press("up", "enter", "enter", "esc").sees("▶ Lighthouse at dusk        26K25A")
	p.press("down", "down", "down").sees("▶ Tide lines").press("?", "enter").sees("▶ Tide lines")
}

// TestMendedRecipe holds a file that was mended to showing without a restart,
// and one that is broken to showing all of its problems, whole.
func TestMendedRecipe(t *testing.T) {
	p := arrives(t, memory.New())
	list := builtin(t)
	broken := &list[2]
	broken.File = "/home/harbour/a rather long way down/recipes/gull.yaml"
	broken.Problems = nil
	for _, text := range []string{
		"12:9: the shares of the oils add up to 97 %, not 100 %", "14:3: unknown field \"superfatt\": did you mean superfat?",
		"20:5: the surface of moon lies above the rim", "21:5: the mould \"dory\" is not in the workshop", "25:1: the last of them",
	} {
		broken.Problems = append(broken.Problems, broken.File+":"+text)
	}
	p.m.deps.Recipes = func() []front.RecipeItem { return list }
	p.press("esc").sees("× gull.yaml:12:9: the shares").press("down", "down").sees("5 problems to mend")
	for _, text := range broken.Problems {
		p.sees(strings.TrimPrefix(text, "/home/harbour/a rather long way down/recipes/"))
	}
	p.press("enter").sees("cannot be started", "read again")
	list = builtin(t)[:2]
	p.press("enter").seesNot("gull.yaml")
}

// TestHomeSaysWhatIsOutOfSight: where batches and recipes need more lines than there are,
// the last says that there are more.
func TestHomeSaysWhatIsOutOfSight(t *testing.T) {
	p := arrives(t, memory.New())
	list := slices.Repeat(builtin(t), 9)
	p.m.deps.Recipes = func() []front.RecipeItem { return list }
	p.press("esc").sees("Under way", "↓ 18 more")
	for range 26 {
		p.press("down")
	}
	p.sees(" more").seesNot("Under way", "18 more")
}

// TestClosedBatchOffersNoCorrection holds a closed batch to notes only.
func TestClosedBatchOffersNoCorrection(t *testing.T) {
	p := arrives(t, memory.New()).starts().press("e").types("abandon it seized").press("enter").sees("closed").seesNot("u correct")
	p.press("u", "enter").sees("its record stays as it is").press("esc", "n").sees("Note")
}

// TestSheetIsWhole holds the plan before a batch to its pour lines, whole, and to
// the embeds of each layer.
func TestSheetIsWhole(t *testing.T) {
	p := arrives(t, memory.New()).press("enter")
	sheet := p.sized(80, 300).m.View()
	for _, text := range []string{
		"pour to 22.5 mm (42.5 mm down from the rim); finished surface 30 mm", "embed lighthouse: rectangle, ", "embed moon: ellipse, ",
	} {
		if !strings.Contains(sheet, text) {
			t.Errorf("the sheet does not say %q:\n%s", text, sheet)
		}
	}
}

// TestSetOutSaysHowMuch holds the setting out to an amount for each material, and
// to the lot of the one at hand.
func TestSetOutSaysHowMuch(t *testing.T) {
	p := arrives(t, memory.New()).starts().sized(80, 40).works("set out/olive oil").sees("water  ", "508.4 g", "842.0 g", "Enough for all loaves: 842.0 g.")
	p.works("set out/evening rose").sees("Lot ")
}

// TestWhereABatchIsIsWhole: what is next in a batch is never cut; it takes a line of its
// own where it finds no room beside the name.
func TestWhereABatchIsIsWhole(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("lye/dusk/read back").press("esc")
	p.sees("26K25A", "     lye · dusk: Read back the dusk lye solution")
}
