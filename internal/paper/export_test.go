package paper

// LeastPrint is for the tests.
var LeastPrint = leastPrint

// Overhang gives by how many mm the widest table of a record stands beyond the margin.
func (r Record) Overhang() (most float64) {
	for _, s := range r.document().sections {
		if len(s.table.rows) == 0 {
			continue
		}
		wide := gutter * float64(len(s.table.head)-1)
		for _, w := range s.table.widths(paperWidth - 2*paperMargin) {
			wide += w
		}
		most = max(most, wide-(paperWidth-2*paperMargin))
	}
	return most
}
