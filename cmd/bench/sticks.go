package main

import (
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
name of a recipe of yours or a built-in one. The sticks on hand, and how loaves are cut, are in
your workshop.`,
		Args: one("sticks needs one recipe: bench sticks FILE"),
		RunE: func(_ *cobra.Command, args []string) error {
			control, err := a.resolve("sticks", args[0], loaves, 0)
			if err != nil {
				return err
			}
			return printAs(a, asJSON, sticks.Of(control), paper.SticksText, paper.SticksJSON)
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print JSON")
	loavesFlag(c, &loaves)
	return c
}
