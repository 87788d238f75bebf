package ui

import (
	"fmt"
	"strings"
	"time"

	"bench/internal/batch"
	"bench/internal/steps"
	"bench/internal/timer"

	"github.com/charmbracelet/bubbles/key"
)

func rule(w int) string { return strings.Repeat("─", max(0, w)) }

func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// said is a fact with its time: "09:40  shea butter 152.4 g, asked 150.0".
func said(e batch.Entry, s batch.State, now timer.Moment, at *time.Location) string {
	return stamp(e.At, now, at) + "  " + clean(steps.Say(e, s))
}

// stamp gives the time of day, with the date when it is not today's.
func stamp(m, now timer.Moment, at *time.Location) string {
	then := m.Wall.In(at)
	if then.Format(time.DateOnly) == now.Wall.In(at).Format(time.DateOnly) {
		return then.Format("15:04")
	}
	return then.Format("2 Jan 15:04")
}

// helpLine shows keys with what they do, and for one that is off, why. Keys
// that find no room are on the page of keys.
func helpLine(t Theme, w int, bindings ...key.Binding) string {
	line := ""
	for _, b := range bindings {
		item := t.key.Render(b.Help().Key) + " " + b.Help().Desc
		if !b.Enabled() {
			item = t.quiet.Render("(" + b.Help().Key + " " + b.Help().Desc + ")")
		}
		if line != "" {
			item = "   " + item
		}
		if width(line)+width(item) > w-2 {
			break
		}
		line += item
	}
	return " " + line
}

// keysLines is the page of all keys.
func keysLines(t Theme, w, h int) []string {
	var lines []string
	for _, g := range allKeys() {
		lines = append(lines, " "+t.strong.Render(g.title))
		for _, b := range g.keys {
			lines = append(lines, "   "+t.key.Render(fit(b.Help().Key, 16))+cut(b.Help().Desc, w-20))
		}
	}
	return append(block(lines, w, h-1), cut(" "+t.key.Render("any key")+" back", w))
}
