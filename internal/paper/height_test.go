package paper_test

import (
	"strings"
	"testing"

	"bench/internal/paper"
	"bench/internal/sample"
	"bench/internal/why"
)

// TestOneHeight: the plan on paper and its reasons say the height that the task says.
func TestOneHeight(t *testing.T) {
	p := sample.Begin(sample.Control(t, "lighthouse-at-dusk.yaml", 3)).Plan()
	text := paper.PlanText(p)
	pours := 0
	for _, st := range p.Stages {
		for _, task := range st.Tasks {
			if task.PourLine == 0 {
				continue
			}
			pours++
			if want := "pour line  " + task.PourLine.String() + " from the floor"; !strings.Contains(text, want) {
				t.Errorf("%s: the plan does not say %q", task.ID, want)
			}
			found := false
			for _, r := range why.Of(p.State()) {
				found = found || r.Figure == st.Layer+"/pour line" && strings.HasPrefix(r.Value, task.PourLine.String()+" from")
			}
			if !found {
				t.Errorf("%s: no reason of %s", task.ID, task.PourLine)
			}
		}
	}
	if pours == 0 {
		t.Error("nothing is poured")
	}
}
