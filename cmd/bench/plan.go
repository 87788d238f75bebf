package main

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"bench/internal/batch"
	"bench/internal/paper"
	"bench/internal/quantity"
	"bench/internal/recipe/read"
	"bench/internal/steps"
	"bench/internal/why"
)

func (a *app) planCommand() *cobra.Command {
	var p planning
	var oils string
	c := &cobra.Command{
		Use:   "plan FILE",
		Short: "print the worked plan of a recipe, or of a batch under way",
		Long: `plan works a recipe out for its loaves and prints the weights and the order of
the work. FILE is a path, or the name of a recipe of yours or a built-in one. With --batch it is
the plan of a batch as its weighings have it, with what was off and each way to go
on.`,
		Args: func(c *cobra.Command, args []string) error {
			switch {
			case p.batch != "" && len(args) > 0:
				return errors.New("plan takes a recipe or --batch, not both")
			case p.batch != "" && (c.Flags().Changed("loaves") || oils != ""):
				return errors.New("loaves and oils of a batch are settled: leave --loaves and --oils out")
			case p.batch == "" && len(args) != 1:
				return errors.New("plan needs one recipe: bench plan FILE")
			}
			return nil
		},
		RunE: func(_ *cobra.Command, args []string) error {
			if oils != "" {
				var err error
				if p.oils, err = quantity.ParseMass(oils); err != nil || p.oils == 0 {
					return fmt.Errorf("--oils: %w", cmp.Or(err, errors.New("the weight must be above zero")))
				}
			}
			p.file = strings.Join(args, "")
			return a.plan(p)
		},
	}
	c.Flags().StringVar(&oils, "oils", "", "oils at hand, such as \"2.9 kg\": the height of the loaves follows")
	c.Flags().StringVar(&p.batch, "batch", "", "the plan of this batch, as its facts have it")
	c.Flags().BoolVar(&p.why, "why", false, "add the reason of every figure: formula, numbers, sources")
	c.Flags().BoolVar(&p.json, "json", false, "print JSON")
	loavesFlag(c, &p.loaves)
	return c
}

// planning is what plan was asked for.
type planning struct {
	file, batch string
	loaves      int
	oils        quantity.Mass // oils are at hand; zero leaves them to the recipe.
	why, json   bool
}

func (a *app) plan(p planning) error {
	state, err := a.planned(p)
	if err != nil {
		return err
	}
	plan := steps.Of(state)
	var reasons []why.Reason
	if p.why {
		reasons = why.Of(state)
	}
	return printAs(a, p.json, plan, func(plan steps.Plan) string {
		if !p.why {
			return paper.PlanText(plan)
		}
		return paper.PlanText(plan) + "\nWHY\n" + paper.WhyText(reasons)
	}, func(plan steps.Plan) ([]byte, error) { return paper.PlanJSON(plan, reasons) })
}

// planned gives the state that a plan is asked of: a batch, or a recipe that has
// not begun.
func (a *app) planned(p planning) (batch.State, error) {
	if p.batch == "" {
		control, warnings, err := a.control("plan", p.file, p.loaves, p.oils)
		report(a.err, slices.DeleteFunc(warnings, func(w read.Problem) bool { return slices.Contains(control.Warnings, w.Text) })) // Those stand in the plan.
		return batch.State{Control: control}, err
	}
	state, err := a.batch(p.batch)
	if err == nil && !state.Begun() {
		err = noBatch(p.batch)
	}
	return state, failed(err)
}
