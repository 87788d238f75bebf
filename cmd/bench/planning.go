package main

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"github.com/spf13/cobra"

	"bench/internal/batch"
	"bench/internal/paper"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/recipe/read"
	"bench/internal/steps"
	"bench/recipes"
)

func (a *app) planCommand() *cobra.Command {
	var loaves int
	var oils string
	var asJSON bool
	c := &cobra.Command{
		Use:   "plan FILE",
		Short: "print the worked plan of a recipe",
		Long: `plan works a recipe out for its loaves and prints the weights and the order of
the work. FILE is a path, or the name of a built-in recipe.`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) != 1 {
				return errors.New("plan needs one recipe: bench plan FILE")
			}
			return nil
		},
		RunE: func(c *cobra.Command, args []string) error {
			if c.Flags().Changed("loaves") && loaves < 1 {
				return errors.New("--loaves must be 1 or more")
			}
			var onHand quantity.Mass
			if oils != "" {
				var err error
				if onHand, err = quantity.ParseMass(oils); err != nil || onHand == 0 {
					return fmt.Errorf("--oils: %w", cmp.Or(err, errors.New("the weight must be above zero")))
				}
			}
			return a.plan(args[0], loaves, onHand, asJSON)
		},
	}
	c.Flags().IntVar(&loaves, "loaves", 0, "how many loaves (default: the recipe's)")
	c.Flags().StringVar(&oils, "oils", "", "oils at hand, such as \"2.9 kg\": the height of the loaves follows")
	c.Flags().BoolVar(&asJSON, "json", false, "print JSON")
	return c
}

func (a *app) plan(file string, loaves int, oils quantity.Mass, asJSON bool) error {
	control, err := a.resolveOils("plan", file, loaves, oils)
	if err != nil {
		return err
	}
	plan := steps.Of(batch.State{Control: control})
	if !asJSON {
		_, err = fmt.Fprint(a.out, paper.PlanText(plan))
		return failed(err)
	}
	out, err := paper.PlanJSON(plan)
	if err != nil {
		return failed(err)
	}
	_, err = a.out.Write(out)
	return failed(err)
}

// resolve reads a recipe and gives its control recipe. What is wrong with it is
// reported already when that fails.
func (a *app) resolve(command, file string, loaves int) (recipe.Control, error) {
	return a.resolveOils(command, file, loaves, 0)
}

// resolveOils is resolve for so much oil as there is at hand; zero leaves it to
// the recipe.
func (a *app) resolveOils(command, file string, loaves int, oils quantity.Mass) (recipe.Control, error) {
	home, err := a.home()
	if err != nil {
		return recipe.Control{}, err
	}
	data, beside, err := recipeData(file)
	if err != nil {
		return recipe.Control{}, fmt.Errorf("%s: %w", command, err)
	}
	w, problems := workshop(home)
	d := readRecipe(file, data, beside, w)
	if report(a.err, append(problems, d.problems...)) {
		return recipe.Control{}, problemsError{}
	}
	control, found := recipe.ResolveOils(d.recipe, d.text, w, loaves, oils)
	if placed := d.source.Place(found); read.Failed(placed) {
		report(a.err, placed)
		return recipe.Control{}, problemsError{}
	}
	return control, nil
}

// recipeData reads a recipe from a path or, when there is no such file, from
// the built-in ones, and gives the folder that its drawings lie in.
func recipeData(file string) ([]byte, fs.FS, error) {
	data, err := readDocument(file)
	if !errors.Is(err, fs.ErrNotExist) {
		return data, os.DirFS(filepath.Dir(file)), err
	}
	for _, name := range []string{file, file + ".yaml"} {
		if slices.Contains(recipes.Files(), name) {
			data, err = fs.ReadFile(recipes.FS(), name)
			return data, recipes.FS(), err
		}
	}
	return nil, nil, &fs.PathError{Op: "open", Path: file, Err: os.ErrNotExist}
}
