package paper

import (
	"fmt"
	"slices"
	"strings"

	"bench/internal/quantity"
)

// Found is a batch that a search found.
type Found struct {
	Batch    string `json:"batch"`
	Recipe   string `json:"recipe"` // Recipe is in lower case.
	Begun    string `json:"begun"`  // Begun and Last are days.
	Last     string `json:"last"`
	Facts    int    `json:"facts"`
	UnderWay bool   `json:"under_way"`
	// Through are the batches that lie between it and what was asked for: the one that it
	// was made of, what that was made of, and so on.
	Through []string `json:"through"`
	// Bars say where its bars went; nil where that was not asked.
	Bars *Bars `json:"bars,omitempty"`
}

// Bars are the bars of a batch: how many were cut and kept back, where they went, and how
// many are left, below zero where more are said to have gone.
type Bars struct {
	Cut    int    `json:"cut"`
	Kept   int    `json:"kept_back"`
	Opened int    `json:"cut_open"` // Opened were cut through for a look.
	Went   []Went `json:"went"`
	Left   int    `json:"left"`
}

// Went says where bars went; none is a number that was not said.
type Went struct {
	Day   string `json:"day"`
	Bars  int    `json:"bars"`
	Where string `json:"where"`
}

// lines say it in words, where bars went on lines of their own.
func (b Bars) lines() []string {
	if b.Cut == 0 && len(b.Went) == 0 {
		return []string{"no bars were cut"}
	}
	words := quantity.Count(b.Cut, "bar", "bars") + " cut"
	if b.Kept > 0 {
		words += fmt.Sprintf(", %d kept back", b.Kept)
	}
	if b.Opened > 0 {
		words += fmt.Sprintf(", %d cut open for a look", b.Opened)
	}
	switch uncounted := slices.ContainsFunc(b.Went, func(w Went) bool { return w.Bars == 0 }); {
	case b.Left < 0:
		words += fmt.Sprintf(", %d more than there were are said to have gone", -b.Left)
	case uncounted:
		words += fmt.Sprintf(", at most %d left: some went uncounted", b.Left)
	case len(b.Went) == 0:
		words += fmt.Sprintf(", %d left: nothing says that any went", b.Left)
	default:
		words += fmt.Sprintf(", %d left", b.Left)
	}
	lines := []string{words}
	for _, w := range b.Went {
		many := "some"
		if w.Bars > 0 {
			many = fmt.Sprint(w.Bars)
		}
		lines = append(lines, fmt.Sprintf("%s  %s to %s", w.Day, many, w.Where))
	}
	return lines
}

// FoundText lists what was found, one a line.
func FoundText(found []Found) string {
	var p page
	for _, f := range found {
		state := "closed"
		if f.UnderWay {
			state = "under way"
		}
		through := ""
		if len(f.Through) > 0 {
			through = ", through " + strings.Join(f.Through, ", ")
		}
		p.linef("%-10s %s  %-9s %5d facts  %s%s", f.Batch, f.Begun, state, f.Facts, f.Recipe, through)
		if f.Bars != nil {
			for _, l := range f.Bars.lines() {
				p.linef("%11s%s", "", l)
			}
		}
	}
	if len(found) == 0 {
		p.linef("no batch fits")
	}
	return p.String()
}

// FoundJSON writes what was found as indented JSON with a final line end.
func FoundJSON(found []Found) ([]byte, error) {
	return indented(orEmpty(found))
}
