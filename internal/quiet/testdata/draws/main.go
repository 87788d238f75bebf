// Command draws imports what the program imports, and draws nothing.
package main

import (
	"fmt"

	"github.com/charmbracelet/lipgloss"

	_ "bench/internal/draw"
)

func main() {
	fmt.Println("started", lipgloss.ColorProfile(), lipgloss.HasDarkBackground())
}
