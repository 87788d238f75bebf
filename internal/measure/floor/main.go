// Command floor is the list on bare Bubble Tea, at its default settings.
package main

import (
	"fmt"
	"os"

	"bench/internal/measure/list"

	tea "github.com/charmbracelet/bubbletea"
)

func main() {
	if _, err := tea.NewProgram(list.Model{}, tea.WithAltScreen()).Run(); err != nil {
		fmt.Fprintln(os.Stderr, "floor:", err)
		os.Exit(1)
	}
}
