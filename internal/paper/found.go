package paper

import "strings"

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
