// Command drawn is the list under bench's own drawer: what a program must cost
// at least that draws as bench does.
package main

import (
	"fmt"
	"os"

	"bench/internal/draw"
	"bench/internal/measure/list"
)

func main() {
	if _, err := draw.Run(list.Model{}, draw.Options{}); err != nil {
		fmt.Fprintln(os.Stderr, "drawn:", err)
		os.Exit(1)
	}
}
