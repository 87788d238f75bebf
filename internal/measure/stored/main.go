// Command stored opens the store in the folder that is its argument, says so, and
// waits for a line: what a program must cost at least that keeps what bench keeps.
package main

import (
	"bufio"
	"fmt"
	"os"

	"bench/internal/journal"
)

func main() {
	if err := run(os.Args[1]); err != nil {
		fmt.Fprintln(os.Stderr, "stored:", err)
		os.Exit(1)
	}
}

func run(folder string) error {
	store, err := journal.Open(folder, journal.Options{})
	if err != nil {
		return err
	}
	fmt.Println("open")
	bufio.NewScanner(os.Stdin).Scan() // Whatever it brings, it was waited for.
	return store.Close()
}
