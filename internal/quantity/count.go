package quantity

import "strconv"

// Count says how many of something there are: "1 bar", "12 bars".
func Count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}
