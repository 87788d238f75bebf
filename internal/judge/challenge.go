package judge

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"bench/internal/batch"
	"bench/internal/steps"
	"bench/internal/work"
)

// A warning that holds bars is a challenge, and its response is a figure that
// stands in it: a key alone would be pressed unread.

// Respond gives the fact that a warning was read, if what was typed is the
// figure that is asked for.
func Respond(u steps.Unread, typed string) (batch.WarningSeen, error) {
	f := batch.WarningSeen{Batter: u.About, Warning: u.Words, Typed: strings.TrimSpace(typed)}
	return f, answers(u, f.Typed)
}

func answers(u steps.Unread, typed string) error {
	_, places, _ := strings.Cut(u.Figure, ".")
	number := strings.TrimSpace(strings.TrimSuffix(strings.Replace(typed, ",", ".", 1), "%"))
	n, err := strconv.ParseFloat(number, 64)
	switch {
	case typed == "":
		return fmt.Errorf("type %s", u.Ask)
	case err != nil || strconv.FormatFloat(n, 'f', len(places), 64) != u.Figure:
		return fmt.Errorf("%s is not the figure: read it, and type %s", typed, u.Ask)
	}
	return nil
}

func allowsWarning(p steps.Plan, f batch.WarningSeen) error {
	for _, u := range p.Unread {
		if u.About == f.Batter {
			return answers(u, f.Typed)
		}
	}
	return errors.New("there is no such warning any more")
}

// unreadFor says that a batter's warning must be answered before its lye solution
// meets the oils.
func unreadFor(p steps.Plan, batter string) error {
	for _, u := range p.Unread {
		if u.Batter == batter && u.Layer == "" {
			return errors.New("the superfat band reaches below zero; answer that warning first (key d)")
		}
	}
	return nil
}

// unreadScent says that a layer is over its scent's limit, which must be answered
// before the scent is stirred in, or poured: then it is in for good.
func unreadScent(p steps.Plan, t work.Task, st work.Stage) error {
	if t.ID != steps.ScentInID(st.Batter, st.Layer) && t.PourLine == 0 {
		return nil
	}
	for _, u := range p.Unread {
		if u.Layer != "" && u.Layer == st.Layer {
			return errors.New("the scent is over its limit; answer that warning first (key d)")
		}
	}
	return nil
}
