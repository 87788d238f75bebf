package ui

import (
	"fmt"
	"strings"

	"bench/internal/potcheck"
	"bench/internal/quantity"
	"bench/internal/steps"
)

// potCheck asks what a vessel weighs, all in all, and lets the plan say whether
// that fits the facts.
type potCheck struct {
	code    string
	plan    steps.Plan
	vessels []potcheck.Content
	at      int
	typed   string
	word    string
}

// newPotCheck begins with the vessel of the task at hand.
func newPotCheck(b bench, vessel string) potCheck {
	c := potCheck{code: b.code, plan: b.plan, vessels: b.plan.Vessels()}
	for i, v := range c.vessels {
		if v.Vessel == vessel {
			c.at = i
		}
	}
	return c
}

func (c potCheck) update(p press) (potCheck, action) {
	c.word = ""
	r, isFigure := figure(p)
	switch {
	case isFigure && len(c.typed) < maxFigures && (r != '.' || !strings.Contains(c.typed, ".")):
		c.typed += string(r)
	case isFigure:
		c.word = "No more figures fit; backspace takes one away."
	case matches(p, keys.Erase) && c.typed != "":
		c.typed = c.typed[:len(c.typed)-1]
	case matches(p, keys.Up):
		c.at, c.typed = max(0, c.at-1), ""
	case matches(p, keys.Down):
		c.at, c.typed = max(0, min(len(c.vessels)-1, c.at+1)), ""
	case matches(p, keys.Back) && c.typed != "":
		c.typed = ""
	case matches(p, keys.Back):
		return c, back{}
	case matches(p, keys.Confirm) && !p.held:
		return c.confirm()
	}
	return c, nil
}

// confirm keeps what was found; the bench says it once it is kept.
func (c potCheck) confirm() (potCheck, action) {
	if c.typed == "" || len(c.vessels) == 0 {
		c.word = "Type the whole weight first, vessel included."
		return c, nil
	}
	m, err := quantity.ParseNumberMass(c.typed, quantity.Gram)
	if err != nil {
		c.word = sentence(err)
		return c, nil
	}
	found, err := c.plan.PotCheck(c.vessels[c.at].Vessel, m)
	if err != nil {
		c.word, c.typed = sentence(err), ""
		return c, nil
	}
	return c, keep{code: c.code, fact: found.Fact}
}

func (c potCheck) view(t Theme, w, h int) []string {
	lines := []string{" " + t.title.Render("Weigh the pot"), t.line.Render(rule(w)), ""}
	for _, l := range wrap("Put the vessel on its scale with all that is in it, untared, and type what it reads. The facts say what should be there.", w-2) {
		lines = append(lines, " "+t.quiet.Render(l))
	}
	lines = append(lines, "")
	for i, v := range c.vessels {
		sign, style := "  ", t.quiet
		if i == c.at {
			sign, style = signNow+" ", t.accent
		}
		name := fit(clean(v.Vessel), 22) + fit(clean(v.Holds), 26)
		lines = append(lines, " "+style.Render(sign+name)+t.quiet.Render("empty "+v.Tare.At(v.Reads)+" g"))
	}
	number := c.typed
	if number == "" {
		number = "––––"
	}
	lines = append(lines, "")
	for i, row := range big(number, 1) {
		unit := ""
		if i == 4 {
			unit = t.strong.Render("g") + t.quiet.Render("  vessel included")
		}
		lines = append(lines, "  "+t.strong.Render(row)+"  "+unit)
	}
	if c.word != "" {
		lines = append(append(lines, ""), warning(t, c.word, w)...)
	}
	return append(block(lines, w, h-1), helpLine(t, w, says(keys.Figures, "what it reads"), keys.Confirm, says(keys.Down, "other vessel"), keys.Back, keys.Aid))
}

// waysLine says quietly that something waits for a decision.
func (b bench) waysLine(t Theme, w int) []string {
	n := undecided(b.plan)
	if n == 0 || b.plan.Closed {
		return nil
	}
	words := ""
	if len(b.plan.Unread) > 0 {
		words = b.plan.Unread[0].Batter + ": the superfat band reaches below zero"
	} else {
		words, _, _ = strings.Cut(b.plan.Deviations[0].Words, ". ")
	}
	tail := "   d: how to go on"
	if n > 1 {
		tail = fmt.Sprintf(" (+%d)", n-1) + tail
	}
	room := w - 4 - width(tail)
	return []string{" " + t.off.Render(signOff+" "+cut(clean(words), room)) + t.quiet.Render(tail)}
}
