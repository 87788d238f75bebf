package bench

import (
	"slices"
	"sync"

	"bench/internal/ui/ink"
	"bench/internal/work"
)

// area is a part of the screen that most keys change nothing in.
type area int

const (
	theRail area = iota
	theLoaf
	whatComes
	whatWasSaid
	areas
)

// kept has the areas as they were set last. Make one with new; screens that are
// copied share it, one that is worked out ahead, too.
type kept struct {
	mu   sync.Mutex
	keys [areas]areaKey
	set  [areas][]string
}

// areaKey is all that an area can depend on. A plan is told by its first stage: no
// other plan has that very one, and a plan never changes.
type areaKey struct {
	plan        *work.Stage
	theme       ink.Theme
	w, h        int
	stage, task string
	day         string // day is today: what was said on another has its date.
}

// lines gives an area in lines of w cells, set anew only when something that it depends
// on is another. They are shared, and to be read only.
func (k *kept) lines(a area, key areaKey, set func() []string) []string {
	k.mu.Lock()
	defer k.mu.Unlock()
	if key.plan == nil || key != k.keys[a] {
		lines := set()
		k.set[a], k.keys[a] = slices.Clip(ink.Block(lines, key.w, len(lines))), key
	}
	return k.set[a]
}

// areaKey is what an area of that size depends on; what it does not depend on may be
// left out.
func (b Screen) areaKey(t ink.Theme, w, h int) areaKey {
	key := areaKey{theme: t, w: w, h: h}
	if len(b.Plan.Stages) > 0 {
		key.plan = &b.Plan.Stages[0]
	}
	return key
}
