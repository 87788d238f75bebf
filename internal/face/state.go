package face

import (
	"fmt"
	"strings"
)

// State tells loafs apart as far as a picture of them differs, to a tenth of a
// millimetre.
func (l Loaf) State() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s %s %t", l.Title, l.Mould, l.Dusted)
	for _, layer := range l.Layers {
		fmt.Fprintf(&b, "|%s %s %.1f %.1f %t %t %t %t", layer.Name, layer.Colour, layer.PourLine, layer.Finished, layer.Poured, layer.Settled, layer.Next, layer.Lined)
		for _, e := range layer.Embeds {
			fmt.Fprintf(&b, " %s %t", e.Name, e.In)
		}
	}
	return b.String()
}
