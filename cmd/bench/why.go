package main

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"bench/internal/batch"
	"bench/internal/paper"
	"bench/internal/recipe"
	"bench/internal/why"
)

func (a *app) whyCommand() *cobra.Command {
	var loaves int
	var asJSON bool
	c := &cobra.Command{
		Use:   "why FILE [FIGURE]",
		Short: "say why a figure of the plan is what it is",
		Long: `why prints the formula of each figure of a recipe's plan with the numbers in it,
and where they come from. FIGURE is a part of the figure's name, such as "band",
"sea/sodium hydroxide" or "density"; without it, all are printed.`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) < 1 || len(args) > 2 {
				return errors.New("why needs a recipe and at most one figure: bench why FILE [FIGURE]")
			}
			return nil
		},
		RunE: func(_ *cobra.Command, args []string) error {
			control, err := a.resolve("why", args[0], loaves, 0)
			if err != nil {
				return err
			}
			reasons, err := reasonsOf(control, strings.Join(args[1:], ""))
			if err != nil {
				return err
			}
			return printAs(a, asJSON, reasons, paper.WhyText, paper.WhyJSON)
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print JSON")
	loavesFlag(c, &loaves)
	return c
}

// reasonsOf gives the reasons of the figures whose names hold the words.
func reasonsOf(c recipe.Control, words string) ([]why.Reason, error) {
	var found []why.Reason
	var names []string
	for _, r := range why.Of(batch.State{Control: c}) {
		names = append(names, r.Figure)
		if strings.Contains(recipe.Fold(r.Figure), recipe.Fold(words)) {
			found = append(found, r)
		}
	}
	if len(found) == 0 {
		return nil, fmt.Errorf("why: the plan has no figure %q; it has %s", words, strings.Join(names, ", "))
	}
	return found, nil
}
