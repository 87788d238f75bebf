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
		Use:   "why RECIPE|BATCH [FIGURE]",
		Short: "say why a figure of the plan is what it is",
		Long: `why prints the formula of each figure of a plan with the numbers in it, and where
they come from. RECIPE is a path, or the name of a recipe of yours or a built-in one; of a batch, the
figures are as its weighings have them. FIGURE is a part of the figure's name, such as "band",
"sea/sodium hydroxide" or "density"; without it, all are printed.`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) < 1 || len(args) > 2 {
				return errors.New("why needs a recipe or batch and at most one figure: bench why RECIPE|BATCH [FIGURE]")
			}
			return nil
		},
		RunE: func(_ *cobra.Command, args []string) error {
			_, s, err := a.recipeOrBatch("why", args[0], loaves)
			if err != nil {
				return err
			}
			reasons, err := reasonsOf(s, strings.Join(args[1:], ""))
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
func reasonsOf(s batch.State, words string) ([]why.Reason, error) {
	var found []why.Reason
	var names []string
	for _, r := range why.Of(s) {
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
