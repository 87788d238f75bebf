package judge

import (
	"cmp"
	"fmt"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/work"
)

// The policy of this file: what looks like a slip is far from what was asked, or off and
// one slip of a finger away from it. Alkali is far off sooner than anything else: a
// hundredth more of it is a point of superfat less.

// spread is how far off a weight may be before it looks like a slip: a tenth of it, or two
// tolerances of what is weighed less finely. How many tolerances that is, and how many
// readings below, are judgements without a source.
func spread(t work.Task, asked quantity.Mass) quantity.Mass {
	if t.Do == work.Weigh && t.MustType {
		return 10 * max(t.Within, t.Reads) // Whatever a pellet weighs.
	}
	return max(2*max(t.Tolerance, t.Reads), asked/10)
}

// doubtWeight says why a weight looks like a slip, or "".
func doubtWeight(t work.Task, f batch.Weighed, asked quantity.Mass) string {
	slip, least := "", max(t.Tolerance, t.Reads)
	if !t.MustType {
		least = max(least, 100*t.Reads) // An oil is often over in its last figures, and by no slip.
	}
	if off := (f.Mass - asked).Abs(); t.Do == work.Weigh && !f.More && off > least && fingerSlip(asked.At(t.Reads), f.Mass.At(t.Reads)) {
		slip = compared(f.Mass, asked, t.Reads)
	}
	return cmp.Or(doubtful(f.Mass, asked, spread(t, asked), t.Reads, f.More), slip)
}

// doubtGross says that a whole weight is off by more than its tolerance, and by more
// than steam can take.
func doubtGross(t work.Task, m quantity.Mass) string {
	t.Mass = m
	switch off := t.Off(); {
	case off > 0:
		return compared(m, t.Target, t.Reads) + ": perhaps another vessel"
	case off < 0:
		return compared(m, t.Target, t.Reads) + ": perhaps another vessel, or not all is in it"
	}
	return ""
}

// fingerSlip says that one figure is another with one digit changed, or with two that
// stand side by side the other way round.
func fingerSlip(asked, typed string) bool {
	if len(asked) != len(typed) || asked == typed {
		return false
	}
	first, last := 0, len(asked)-1
	for asked[first] == typed[first] {
		first++
	}
	for asked[last] == typed[last] {
		last--
	}
	if asked[first] == '.' || typed[first] == '.' || asked[last] == '.' || typed[last] == '.' {
		return false
	}
	next := first + 1
	if next < last && asked[next] == '.' {
		next++ // 9.8 for 8.9.
	}
	return first == last || next == last && asked[first] == typed[last] && asked[last] == typed[first]
}

// doubtful compares a weight with what was expected; a part of it may be less.
func doubtful(m, expected, spread, reads quantity.Mass, part bool) string {
	if m <= expected+spread && (part || m >= expected-spread) {
		return ""
	}
	return compared(m, expected, reads)
}

func compared(m, asked, reads quantity.Mass) string {
	return fmt.Sprintf("asked %s, typed %s", asked.At(reads), m.At(reads))
}
