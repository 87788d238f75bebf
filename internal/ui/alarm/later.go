package alarm

import (
	"fmt"
	"time"

	"bench/internal/batch"
	"bench/internal/reply"
	"bench/internal/steps"
	"bench/internal/ui/intent"
	"bench/internal/ui/keys"

	"github.com/charmbracelet/bubbles/key"
)

// delay is a key and the time that it puts an alarm off for.
type delay struct {
	key key.Binding
	d   time.Duration
}

// Delays gives for how long a timer may be put off, the usual first: what sets is
// looked at soon, and a loaf stays in its mould overnight.
func Delays(timer string) [3]time.Duration {
	if timer == steps.UnmouldDue {
		return [3]time.Duration{12 * time.Hour, 30 * time.Minute, 2 * time.Hour}
	}
	return [3]time.Duration{5 * time.Minute, 10 * time.Minute, 30 * time.Minute}
}

// delays gives the keys that are offered; the usual is the key that asked.
func delays(o intent.PutOff) []delay {
	d := Delays(o.Timer)
	return []delay{{keys.PutOff, d[0]}, {keys.LeaveOut, d[1]}, {keys.Longer, d[2]}}
}

// words lists the keys with what they do.
func offerWords(o intent.PutOff) string {
	words := ""
	for _, each := range delays(o) {
		long := fmt.Sprintf("%d min", int(each.d.Minutes()))
		if each.d >= time.Hour {
			long = fmt.Sprintf("%d h", int(each.d.Hours()))
		}
		words += each.key.Help().Key + " " + long + "  "
	}
	return words + keys.Back.Help().Key + " not"
}

// Answer takes the key after an offer. Any other key calls it off and does what
// it always does; taken says that it was an answer.
func Answer(offer intent.PutOff, p keys.Press) (still intent.PutOff, act intent.Action, taken bool) {
	if offer == (intent.PutOff{}) {
		return offer, nil, false
	}
	for _, each := range delays(offer) {
		if keys.Matches(p, each.key) {
			if p.Held {
				return offer, nil, true
			}
			return intent.PutOff{}, intent.Of(reply.Keep{Code: offer.Code, Fact: batch.TimerPutOff{Timer: offer.Timer, For: each.d}}), true
		}
	}
	return intent.PutOff{}, nil, keys.Matches(p, keys.Back)
}
