// Command asks shows what Bubble Tea does at start when nothing stops it.
package main

import (
	"fmt"

	_ "github.com/charmbracelet/bubbletea"
)

func main() { fmt.Println("started") }
