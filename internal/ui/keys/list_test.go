package keys

import (
	"testing"

	tea "github.com/charmbracelet/bubbletea"
)

// TestMoved: a list is gone through line by line, page by page and to its ends, and left
// at neither.
func TestMoved(t *testing.T) {
	press := func(k tea.KeyType) Press { return Press{KeyMsg: tea.KeyMsg{Type: k}} }
	for _, c := range []struct {
		key         tea.KeyType
		at, n, want int
	}{
		{tea.KeyUp, 5, 100, 4},
		{tea.KeyUp, 0, 100, 0},
		{tea.KeyDown, 5, 100, 6},
		{tea.KeyDown, 99, 100, 99},
		{tea.KeyPgDown, 5, 100, 5 + PageLines},
		{tea.KeyPgDown, 95, 100, 99},
		{tea.KeyPgUp, 50, 100, 50 - PageLines},
		{tea.KeyPgUp, 5, 100, 0},
		{tea.KeyHome, 50, 100, 0},
		{tea.KeyEnd, 50, 100, 99},
		{tea.KeyEnd, 0, 0, 0},
		{tea.KeyDown, 0, 0, 0},
	} {
		if got := Moved(press(c.key), c.at, c.n); got != c.want || !Moves(press(c.key)) {
			t.Errorf("%v from %d of %d: %d, want %d", c.key, c.at, c.n, got, c.want)
		}
	}
	for _, k := range []tea.KeyType{tea.KeySpace, tea.KeyLeft, tea.KeyEnter} {
		if Moves(press(k)) || Moved(press(k), 3, 9) != 3 {
			t.Errorf("%v moves", k)
		}
	}
}
