package alarm

import (
	"fmt"
	"time"

	"bench/internal/batch"
	"bench/internal/reply"
	"bench/internal/ui/intent"
	"bench/internal/ui/keys"
	"bench/internal/watch"

	"github.com/charmbracelet/bubbles/key"
)

// delay is a key and the time that it puts an alarm off for.
type delay struct {
	key key.Binding
	d   time.Duration
}

// delays gives the keys that are offered; the usual is the key that asked.
func delays() [3]delay {
	d := watch.Delays()
	return [3]delay{{keys.PutOff, d[0]}, {keys.LeaveOut, d[1]}, {keys.Longer, d[2]}}
}

// offerWords lists the keys with what they do.
func offerWords() string {
	words := ""
	for _, each := range delays() {
		words += fmt.Sprintf("%s %d min  ", each.key.Help().Key, int(each.d.Minutes()))
	}
	return words + keys.Back.Help().Key + " not"
}

// Answer takes the key after an offer. A figure is refused, or half a number could land
// in the task unseen; a key that would keep one only calls the offer off; any other calls
// it off and does what it always does. Taken says that it does nothing else.
func Answer(offer intent.PutOff, p keys.Press) (still intent.PutOff, act intent.Action, taken bool) {
	if offer == (intent.PutOff{}) {
		return offer, nil, false
	}
	for _, each := range delays() {
		if keys.Matches(p, each.key) {
			if p.Held {
				return offer, nil, true
			}
			return intent.PutOff{}, intent.Of(reply.Keep{Code: offer.Code, Fact: batch.TimerPutOff{Timer: offer.Timer, For: each.d}}), true
		}
	}
	if _, figure := keys.Figure(p); figure {
		return offer, intent.Word{Text: "An alarm asks for how long, and takes no figures: z, x or c; esc, and then type."}, true
	}
	if keys.Matches(p, keys.Tick, keys.Accept, keys.More, keys.ByEye) {
		return intent.PutOff{}, intent.Word{Text: "The alarm is not put off. Look, then press it again."}, true
	}
	return intent.PutOff{}, nil, keys.Matches(p, keys.Back)
}
