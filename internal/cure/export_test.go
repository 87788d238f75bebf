package cure

// Student lets the table be compared with a library.
func Student(free int) float64 { return student(free) }
