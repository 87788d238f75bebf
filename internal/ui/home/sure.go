package home

import (
	"fmt"

	"bench/internal/steps"
)

// sureWords says of each batter how sure its superfat is and what would make it
// surer, which values are the maker's own, and how hot the lye solution gets.
func sureWords(p steps.Plan) [][]string {
	words := make([][]string, len(p.Batters))
	for i, b := range p.Batters {
		words[i] = b.Account.Sentences()
		for _, o := range b.Own {
			words[i] = append(words[i], fmt.Sprintf("Yours: %s, %s, from %s.", o.Name, o.Value, o.From))
		}
		if b.Peak.Celsius > 0 {
			words[i] = append(words[i], fmt.Sprintf("The lye solution can reach %s.", b.Peak))
		}
	}
	return words
}
