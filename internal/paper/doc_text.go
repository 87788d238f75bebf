package paper

import (
	"strings"
	"unicode/utf8"

	"bench/internal/recipe"
)

// Text writes a record for reading.
func (r Record) Text() string { return r.document().text() }

// text sets a document in plain characters. The last column of a table is not
// padded, so that long words cost no room.
func (d doc) text() string {
	var p page
	p.linef("%s", recipe.Capital(d.title))
	for _, s := range d.sections {
		p.linef("")
		if s.title != "" {
			p.linef("%s", strings.ToUpper(s.title))
		}
		for _, pair := range s.pairs {
			p.linef("%-18s %s", pair[0], pair[1])
		}
		for _, row := range s.table.padded() {
			p.linef("  %s", row)
		}
		p.sentences(s.lines)
	}
	return p.String()
}

func (p *page) sentences(lines []string) {
	for _, words := range lines {
		lead := "  "
		for _, line := range wrapped(words, 90) {
			p.linef("%s%s", lead, line)
			lead = "    "
		}
	}
}

// padded gives the head and the rows with columns of one width each.
func (t table) padded() []string {
	if len(t.rows) == 0 {
		return nil
	}
	all := append([][]string{t.head}, t.rows...)
	widths := make([]int, len(t.head))
	for _, row := range all {
		for i, cell := range row {
			widths[i] = max(widths[i], utf8.RuneCountInString(cell))
		}
	}
	lines := make([]string, len(all))
	for n, row := range all {
		cells := make([]string, len(row))
		for i, cell := range row {
			fill := strings.Repeat(" ", widths[i]-utf8.RuneCountInString(cell))
			switch {
			case t.number(i):
				cells[i] = fill + cell
			case i == len(row)-1:
				cells[i] = cell
			default:
				cells[i] = cell + fill
			}
		}
		lines[n] = strings.Join(cells, "  ")
	}
	return lines
}

// number says that a column holds numbers.
func (t table) number(column int) bool { return column < len(t.right) && t.right[column] }
