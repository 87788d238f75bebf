package main

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"
)

// one asks for one argument; words say which, and how the command is called.
func one(words string) cobra.PositionalArgs {
	return func(_ *cobra.Command, args []string) error {
		if len(args) != 1 {
			return errors.New(words)
		}
		return nil
	}
}

// plainFlagError says what a flag takes that was given something else, and leaves out
// how that was parsed.
func plainFlagError(err error) error {
	words, parsed, ok := strings.Cut(err.Error(), ": strconv.")
	var value, flag string
	if n, _ := fmt.Sscanf(words, "invalid argument %q for %q flag", &value, &flag); !ok || n != 2 {
		return err
	}
	switch {
	case strings.HasPrefix(parsed, "ParseBool"):
		return fmt.Errorf("%s stands alone, without %q", flag, value)
	case strings.HasPrefix(parsed, "ParseFloat"):
		return fmt.Errorf("%s %q is not a number: write it like 2 or 0.5", flag, value)
	}
	return fmt.Errorf("%s %q is not a whole number: write it like 2", flag, value)
}

// loavesFlag adds --loaves; zero is the recipe's own number.
func loavesFlag(c *cobra.Command, loaves *int) {
	c.Flags().IntVar(loaves, "loaves", 0, "how many loaves (default: the recipe's)")
	c.PreRunE = func(*cobra.Command, []string) error {
		if c.Flags().Changed("loaves") && *loaves < 1 {
			return errors.New("--loaves must be 1 or more")
		}
		return nil
	}
}

// replaceFlag adds --replace: without it, no command writes over a file.
func replaceFlag(c *cobra.Command, replace *bool) {
	c.Flags().BoolVar(replace, "replace", false, "replace the file if it is there")
}

// suffix says what kind of file a name asks for.
func suffix(file string) string { return strings.ToLower(filepath.Ext(file)) }
