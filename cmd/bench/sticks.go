package main

import (
	"errors"

	"github.com/spf13/cobra"

	"bench/internal/paper"
	"bench/internal/sticks"
)

func (a *app) sticksCommand() *cobra.Command {
	var loaves int
	var asJSON bool
	c := &cobra.Command{
		Use:   "sticks FILE",
		Short: "print how embed sticks are cut and laid, and what a loaf yields",
		Long: `sticks plans the embed sticks of a recipe so that every join lies where the cutter
will pass: how each stick is cut, which piece goes where, the soap dough for
sticks still to be made, and the bars that a loaf yields. FILE is a path, or the
name of a built-in recipe. The sticks on hand, and how loaves are cut, are in
your workshop.`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) != 1 {
				return errors.New("sticks needs one recipe: bench sticks FILE")
			}
			return nil
		},
		RunE: func(c *cobra.Command, args []string) error {
			if c.Flags().Changed("loaves") && loaves < 1 {
				return errors.New("--loaves must be 1 or more")
			}
			control, err := a.resolve("sticks", args[0], loaves)
			if err != nil {
				return err
			}
			work := sticks.Of(control)
			return printAs(a, asJSON, work, paper.SticksText, paper.SticksJSON)
		},
	}
	c.Flags().IntVar(&loaves, "loaves", 0, "how many loaves (default: the recipe's)")
	c.Flags().BoolVar(&asJSON, "json", false, "print JSON")
	return c
}
