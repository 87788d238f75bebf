package main

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"text/tabwriter"
)

// row is one line of the report.
type row struct {
	what   measured
	at     string // at names the quantile, "" where there is one figure a round.
	part   float64
	target string
}

func report() []row {
	const median, p99 = 0.5, 0.99
	var list []row
	add := func(target string, times ...measured) {
		for _, what := range times {
			list = append(list, row{what, "median", median, target}, row{what, "p99", p99, target})
		}
	}
	add("0.5", startUp)
	add("0.1", moveTime, figureTime, digitTime, tickTime)
	return append(list,
		row{moveBytes, "median", median, "1"}, row{figBytes, "median", median, "1"},
		row{digitBytes, "median", median, "0.5"}, row{tickBytes, "median", median, "1"},
		row{peakMemory, "", median, "3"}, row{idleCPU, "", median, "0.1"},
		row{idleBytes, "", median, "1"}, row{idleWakes, "", median, "drawn's"},
	)
}

// table writes one with a column for each program; ratios are those of the
// first to the second, which is the floor.
func table(out io.Writer, programs []program, all []figures, markdown bool) error {
	w := tabwriter.NewWriter(out, 0, 0, 2, ' ', tabwriter.AlignRight)
	before, between, after := "", "\t", "\t"
	if markdown {
		before, between, after = "| ", " | ", " |"
	}
	line := func(cells []string) { _, _ = fmt.Fprintln(w, before+strings.Join(cells, between)+after) } // Flush tells.
	head := []string{"figure", "at", programs[0].name(), programs[1].name(), "ratio", "target"}
	for _, beside := range programs[2:] {
		head = append(head, beside.name())
	}
	line(head)
	if markdown {
		line(slices.Repeat([]string{"---"}, len(head)))
	}
	for _, r := range report() {
		of := func(i int) float64 { return quantile(all[i][r.what], r.part) }
		floor := quantile(all[1][likened(r.what)], r.part)
		cells := []string{string(r.what), r.at, number(of(0)), number(floor), number(of(0) / floor), r.target}
		if target, err := strconv.ParseFloat(r.target, 64); markdown && err == nil && of(0)/floor <= target {
			cells[4] = "**" + cells[4] + "**"
		}
		for i := range programs[2:] {
			cells = append(cells, number(of(2+i)))
		}
		line(cells)
	}
	return w.Flush()
}

// likened gives what of the floor a figure is held against: there is nothing to
// type into there.
func likened(what measured) measured {
	switch what { //nolint:exhaustive // The others are likened to themselves.
	case figureTime, digitTime:
		return moveTime
	case figBytes, digitBytes:
		return moveBytes
	}
	return what
}

// number shows three figures or more, and what was not measured as a dash.
func number(v float64) string {
	switch {
	case math.IsNaN(v):
		return "-"
	case v < 10:
		return fmt.Sprintf("%.2f", v)
	case v < 100:
		return fmt.Sprintf("%.1f", v)
	}
	return fmt.Sprintf("%.0f", v)
}
