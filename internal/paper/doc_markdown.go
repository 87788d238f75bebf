package paper

import "strings"

// Markdown writes a record as Markdown with tables (the GFM
// specification, 4.10).
func (r Record) Markdown() string { return r.document().markdown() }

func (d doc) markdown() string {
	var p page
	p.linef("# %s", marked(d.title))
	for _, s := range d.sections {
		p.linef("")
		if s.title != "" {
			p.linef("## %s", marked(s.title))
			p.linef("")
		}
		for _, pair := range s.pairs {
			p.linef("- **%s:** %s", marked(pair[0]), marked(pair[1]))
		}
		p.table(s.table)
		if len(s.table.rows) > 0 && len(s.lines) > 0 {
			p.linef("")
		}
		for _, words := range s.lines {
			p.linef("- %s", marked(words))
		}
	}
	return p.String()
}

func (p *page) table(t table) {
	if len(t.rows) == 0 {
		return
	}
	rule := make([]string, len(t.head))
	for i := range rule {
		rule[i] = map[bool]string{true: "---:", false: "---"}[t.number(i)]
	}
	p.linef("%s", cells(t.head))
	p.linef("|%s|", strings.Join(rule, "|"))
	for _, row := range t.rows {
		p.linef("%s", cells(row))
	}
}

func cells(row []string) string {
	marks := make([]string, len(row))
	for i, cell := range row {
		marks[i] = marked(cell)
	}
	return "| " + strings.Join(marks, " | ") + " |"
}

// marked keeps words from being taken for marks.
func marked(words string) string {
	return strings.NewReplacer(
		`\`, `\\`, "`", "\\`", "*", `\*`, "_", `\_`, "|", `\|`, "<", `\<`, ">", `\>`, "[", `\[`, "]", `\]`, "#", `\#`, "~", `\~`, "!", `\!`, "&", `\&`,
		"\n", " ", "\r", " ",
	).Replace(words)
}
