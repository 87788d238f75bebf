package main

import (
	"errors"
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

// plainFlagError leaves out how a number was parsed.
func plainFlagError(err error) error {
	if words, _, ok := strings.Cut(err.Error(), ": strconv."); ok {
		return errors.New(words + ": a number is expected, such as 2")
	}
	return err
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
