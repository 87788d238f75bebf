package steps

import (
	"errors"
	"fmt"

	"bench/internal/batch"
)

// Unread is a warning that was not acknowledged yet.
type Unread struct {
	Batter string
	Words  string
	Fact   batch.WarningSeen
}

// unread warns of superfat bands that reach below zero. It is said once a batter.
func (p *planner) unread(plan Plan) []Unread {
	if p.s.Closed() {
		return nil
	}
	var list []Unread
	for _, b := range plan.Batters {
		if b.Superfat.Low >= 0 || p.s.WarningSeen(b.Name) {
			continue
		}
		words := fmt.Sprintf("%s: the superfat may be as low as %.1f %% (%.1f %% at best knowledge): free alkali cannot be ruled out. Test pH or free alkali before a bar is released.",
			b.Name, b.Superfat.Low, b.Superfat.Percent)
		list = append(list, Unread{b.Name, words, batch.WarningSeen{Batter: b.Name, Warning: words}})
	}
	return list
}

func (p Plan) allowsWarning(f batch.WarningSeen) error {
	for _, u := range p.Unread {
		if u.Batter == f.Batter {
			return nil
		}
	}
	return errors.New("there is no such warning any more")
}

// unreadFor says that a batter's warning must be read before its lye solution
// meets the oils.
func (p Plan) unreadFor(batter string) error {
	for _, u := range p.Unread {
		if u.Batter == batter {
			return errors.New("the superfat band reaches below zero; read that warning first (key d)")
		}
	}
	return nil
}
