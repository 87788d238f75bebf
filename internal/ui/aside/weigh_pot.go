package aside

import (
	"cmp"
	"strings"

	"bench/internal/phrase"
	"bench/internal/potcheck"
	"bench/internal/quantity"
	"bench/internal/reply"
	"bench/internal/steps"
	"bench/internal/ui/ink"
	"bench/internal/ui/intent"
	"bench/internal/ui/keys"
)

// Pot asks what a vessel weighs, all in all, and lets the plan say whether
// that fits the facts.
type Pot struct {
	code    string
	plan    steps.Plan
	vessels []potcheck.Content
	at      int
	typed   string
	anew    bool // anew says that typed was refused: the next figure begins another number.
	Word    string
}

// NewPot begins with the vessel of the task at hand.
func NewPot(code string, p steps.Plan, vessel string) Pot {
	c := Pot{code: code, plan: p, vessels: p.Vessels()}
	for i, v := range c.vessels {
		if v.Vessel == vessel {
			c.at = i
		}
	}
	return c
}

// Update takes a key: one that picks the vessel, or part of its weight.
func (c Pot) Update(p keys.Press) (Pot, intent.Action) {
	c.Word = ""
	r, isFigure := keys.Figure(p)
	if isFigure && c.anew {
		c.typed = ""
	}
	if isFigure || keys.Matches(p, keys.Erase) {
		c.anew = false
	}
	switch {
	case isFigure && len(c.typed) < keys.MaxFigures && (r != '.' || !strings.Contains(c.typed, ".")):
		c.typed += string(r)
	case isFigure:
		c.Word = "No more figures fit; backspace takes one away."
	case keys.Matches(p, keys.Erase) && c.typed != "":
		c.typed = c.typed[:len(c.typed)-1]
	case keys.Moves(p):
		c.at, c.typed = keys.Moved(p, c.at, len(c.vessels)), ""
	case keys.Matches(p, keys.Back) && c.typed != "":
		c.typed = ""
	case keys.Matches(p, keys.Back):
		return c, intent.Back{}
	case keys.Matches(p, keys.Confirm) && !p.Held:
		return c.confirm()
	}
	return c, nil
}

// confirm keeps what was found; the bench says it once it is kept.
func (c Pot) confirm() (Pot, intent.Action) {
	if c.typed == "" || len(c.vessels) == 0 {
		c.Word = "Type the whole weight first, vessel included."
		return c, nil
	}
	m, err := quantity.ParseNumberMass(c.typed, quantity.Gram)
	if err != nil {
		c.Word = phrase.Sentence(err)
		return c, nil
	}
	found, err := c.plan.PotCheck(c.vessels[c.at].Vessel, m)
	if err != nil {
		c.Word, c.anew = phrase.Sentence(err), true
		return c, nil
	}
	return c, intent.Of(reply.Keep{Code: c.code, Fact: found.Fact})
}

// View shows the vessel, what it should weigh and what the weight says.
func (c Pot) View(t ink.Theme, w, h int) []string {
	lines := []string{" " + t.Title.Render("Weigh the pot"), t.Line.Render(ink.Rule(w)), ""}
	for _, l := range ink.Wrap("Put the vessel on its scale with all that is in it, untared, and type what it reads. The facts say what should be there.", w-2) {
		lines = append(lines, " "+t.Quiet.Render(l))
	}
	lines = append(lines, "")
	for i, v := range c.vessels {
		sign, style := "  ", t.Quiet
		if i == c.at {
			sign, style = ink.SignNow+" ", t.Accent
		}
		name := ink.Fit(ink.Clean(v.Vessel), 22) + ink.Fit(ink.Clean(v.Holds), 26)
		lines = append(lines, " "+style.Render(sign+name)+t.Quiet.Render("empty "+v.Tare.Reading(v.Reads)))
	}
	lines = append(lines, "")
	if ink.Roomy(w, h) && c.at < len(c.vessels) {
		lines = append(lines, ink.Headline(t.Accent, ink.Clean(c.vessels[c.at].Vessel), w, h, 1)...)
	}
	lines = append(lines, ink.Figured(t.Strong, cmp.Or(c.typed, "––––"), ink.Weight, t.Strong.Render("g"), t.Quiet.Render("  vessel included"), w, h)...)
	if c.Word != "" {
		lines = append(append(lines, ""), ink.Warning(t, c.Word, w)...)
	}
	return append(ink.Block(lines, w, h-1), keys.HelpLine(t, w, keys.Says(keys.Figures, "what it reads"), keys.Confirm, keys.Says(keys.Down, "other vessel"), keys.Back, keys.Aid))
}
