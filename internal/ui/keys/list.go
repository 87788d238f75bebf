package keys

// PageLines is how far a page key goes in a list, whatever the window.
const PageLines = 14

// Moves says that a key moves in a list.
func Moves(p Press) bool { return Matches(p, Up, Down, PageUp, PageDown, First, Last) }

// Moved gives the place to which a key leads in a list of n, counted from 0; other keys
// leave it.
func Moved(p Press, at, n int) int {
	switch {
	case Matches(p, Up):
		at--
	case Matches(p, Down):
		at++
	case Matches(p, PageUp):
		at -= PageLines
	case Matches(p, PageDown):
		at += PageLines
	case Matches(p, First):
		at = 0
	case Matches(p, Last):
		at = n - 1
	}
	return max(0, min(n-1, at))
}
