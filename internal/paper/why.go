package paper

import (
	"bench/internal/why"
)

// WhyText writes reasons for reading.
func WhyText(reasons []why.Reason) string {
	var p page
	for i, r := range reasons {
		if i > 0 {
			p.linef("")
		}
		p.linef("%s: %s", r.Figure, r.Value)
		p.linef("  %s", r.Formula)
		for _, n := range r.Numbers {
			p.linef("    %s", n)
		}
		for _, s := range r.Sources {
			p.linef("  from %s", s)
		}
	}
	return p.String()
}

type reasonJSON struct {
	Figure  string   `json:"figure"`
	Value   string   `json:"value"`
	Formula string   `json:"formula"`
	Numbers []string `json:"numbers"`
	Sources []string `json:"sources"`
}

// WhyJSON writes reasons as indented JSON with a final line end.
func WhyJSON(reasons []why.Reason) ([]byte, error) {
	return indented(each(reasons, reasonToJSON))
}

func reasonToJSON(r why.Reason) reasonJSON {
	return reasonJSON{r.Figure, r.Value, r.Formula, orEmpty(r.Numbers), orEmpty(r.Sources)}
}
