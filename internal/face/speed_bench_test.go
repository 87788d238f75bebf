package face

import (
	"testing"

	"bench/internal/cells"
)

// BenchmarkTerminal draws the bench's picture at 120 by 40.
func BenchmarkTerminal(b *testing.B) {
	for name, look := range looks {
		b.Run(name, func(b *testing.B) {
			l := designed(b, "lighthouse-at-dusk.yaml").Finished()
			for b.Loop() {
				l.Terminal(32, 27, look, Frame{Rule: true, Names: true, Heights: true, Mould: true})
			}
		})
	}
	b.Run("window", func(b *testing.B) {
		l := designed(b, "lighthouse-at-dusk.yaml").Finished()
		for b.Loop() {
			l.Terminal(200, 60, cells.Look{Pattern: cells.Octants, Colours: cells.True}, Frame{Rule: true, Names: true})
		}
	})
}
