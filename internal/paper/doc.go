package paper

// doc is a document without a layout: headings, pairs, tables and sentences.
// Text, Markdown and PDF are three ways to set it.
type doc struct {
	title    string
	sections []section
}

// section is a heading with what stands under it, in this order.
type section struct {
	title string
	pairs [][2]string
	table table
	lines []string
}

// table has a head and rows of as many cells.
type table struct {
	head  []string
	right []bool // right says which columns are numbers.
	rows  [][]string
}

// empty says that there is nothing under the heading.
func (s section) empty() bool { return len(s.pairs)+len(s.table.rows)+len(s.lines) == 0 }

// add puts a section in, unless it is empty.
func (d *doc) add(s section) {
	if !s.empty() {
		d.sections = append(d.sections, s)
	}
}
