package ui

import (
	"fmt"
	"time"

	"bench/internal/batch"
	"bench/internal/steps"

	"github.com/charmbracelet/bubbles/key"
)

// putOffer asks for how long an alarm is put off; one more key answers. Figures
// are no answer: they belong to the number that may be half typed.
type putOffer struct{ code, timer string }

// delay is a key and the time that it puts an alarm off for.
type delay struct {
	key key.Binding
	d   time.Duration
}

// delays gives what is offered, the usual first, which is the key that asked:
// what sets is looked at soon, and a loaf stays in its mould overnight.
func (o putOffer) delays() []delay {
	if o.timer == steps.UnmouldDue {
		return []delay{{keys.PutOff, 12 * time.Hour}, {keys.LeaveOut, 30 * time.Minute}, {keys.Longer, 2 * time.Hour}}
	}
	return []delay{{keys.PutOff, 5 * time.Minute}, {keys.LeaveOut, 10 * time.Minute}, {keys.Longer, 30 * time.Minute}}
}

// words lists the keys with what they do.
func (o putOffer) words() string {
	words := ""
	for _, each := range o.delays() {
		long := fmt.Sprintf("%d min", int(each.d.Minutes()))
		if each.d >= time.Hour {
			long = fmt.Sprintf("%d h", int(each.d.Hours()))
		}
		words += each.key.Help().Key + " " + long + "  "
	}
	return words + keys.Back.Help().Key + " not"
}

// answerOffer takes the key after the offer. Any other key calls it off and
// does what it always does; taken says that it was an answer.
func (m Model) answerOffer(p press) (next Model, act action, taken bool) {
	offer := m.offer
	if offer == (putOffer{}) {
		return m, nil, false
	}
	for _, each := range offer.delays() {
		if matches(p, each.key) {
			if p.held {
				return m, nil, true
			}
			m.offer = putOffer{}
			return m, keep{code: offer.code, fact: batch.TimerPutOff{Timer: offer.timer, For: each.d}}, true
		}
	}
	m.offer = putOffer{}
	return m, nil, matches(p, keys.Back)
}
