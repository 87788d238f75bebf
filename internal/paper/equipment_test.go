package paper_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"bench/internal/paper"
	"bench/internal/recipe"
	"bench/internal/sample"
)

// TestEquipment: a jug that took a portion is named with what it weighs empty, and one whose
// empty weight nobody said is not said to weigh nothing.
func TestEquipment(t *testing.T) {
	c := lighthouse(t)
	c.Vessels = slices.DeleteFunc(c.Vessels, func(v recipe.Vessel) bool { return v.Kind == recipe.Pot })
	b := sample.Begin(c)
	b.WorkTo(t, "pour/base/read back")
	list := strings.Join(paper.RecordOf("260302A", b.State, time.UTC).Equipment, "\n")
	for _, want := range []string{"vessel: jug 1, empty 212 g", "vessel: another pot (no. 1), its empty weight was not known"} {
		if !strings.Contains(list, want) {
			t.Errorf("no %q in\n%s", want, list)
		}
	}
	if strings.Contains(list, "empty 0 g") {
		t.Errorf("a vessel weighs nothing:\n%s", list)
	}
}
