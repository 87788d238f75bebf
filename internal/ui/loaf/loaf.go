// Package loaf shows a loaf's cut face on a screen.
//
// The rule: a picture is drawn once for each size and state of the loaf, so
// that a key that changes nothing in it costs nothing.
package loaf

import (
	"sync"

	"bench/internal/cells"
	"bench/internal/face"
	"bench/internal/ui/ink"
)

// Picture keeps what was drawn last. Make one with new; screens that are copied
// share it, one that is worked out ahead, too.
type Picture struct {
	mu       sync.Mutex
	key      key
	loaf     face.Loaf
	state    string
	lines    []string
	swatches []string
}

// key is all that a picture can depend on, cheaply told: Stand is a number that
// changes when the loaf may have changed.
type key struct {
	w, h  int
	look  cells.Look
	frame face.Frame
	at    At
}

// At says which loaf is shown, and in which state of its batch.
type At struct {
	Stand int    // Stand counts the facts.
	Loaf  int    // Loaf counts from 0.
	Layer string // Layer is the one at hand.
}

// Draw gives the picture in at most w by h cells, and a sample of each layer's
// fill, floor first. The loaf is asked for only when something may have changed.
func (p *Picture) Draw(t ink.Theme, w, h int, frame face.Frame, at At, loaf func() face.Loaf) (lines, swatches []string) {
	p.mu.Lock()
	defer p.mu.Unlock()
	next := key{w, h, t.Picture, frame, at}
	if p.lines != nil && next == p.key {
		return p.lines, p.swatches
	}
	if p.lines == nil || next.at != p.key.at {
		p.loaf = loaf()
	}
	state := p.loaf.State()
	same := p.lines != nil && state == p.state && sameSize(next, p.key)
	p.key, p.state = next, state
	if !same {
		p.lines = p.loaf.Terminal(w, h, t.Picture, frame)
		p.swatches = p.loaf.Swatches(t.Picture)
	}
	return p.lines, p.swatches
}

// sameSize says that two pictures differ in nothing but the loaf.
func sameSize(a, b key) bool {
	b.at = a.at
	return a == b
}
