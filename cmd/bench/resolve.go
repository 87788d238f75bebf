package main

import (
	"errors"
	"fmt"
	"io/fs"

	"bench/internal/batch"
	"bench/internal/documents"
	"bench/internal/ledger"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/recipe/read"
)

// resolve reads a recipe and gives its control recipe, for so many loaves and so much
// oil as there is at hand; zero leaves either to the recipe. What is wrong with it
// is reported already when that fails.
func (a *app) resolve(command, file string, loaves int, oils quantity.Mass) (recipe.Control, error) {
	control, warnings, err := a.control(command, file, loaves, oils)
	report(a.err, warnings)
	return control, err
}

// control is resolve that leaves the warnings of what can be made to be said.
func (a *app) control(command, file string, loaves int, oils quantity.Mass) (recipe.Control, []read.Problem, error) {
	home, err := a.home()
	if err != nil {
		return recipe.Control{}, nil, err
	}
	doc, err := documents.Open(home, file)
	if err != nil {
		return recipe.Control{}, nil, fmt.Errorf("%s: %w", command, err)
	}
	w, warnings := documents.Workshop(home)
	if read.Failed(warnings) { // Against another workshop, most of what would be said of the recipe is false.
		report(a.err, warnings)
		report(a.err, doc.Alone())
		return recipe.Control{}, nil, problemsError{}
	}
	if len(w.Sticks) > 0 {
		err := a.reading(func(l *ledger.Ledger) error {
			w.Used = l.SticksUsed(w)
			return nil
		})
		if err != nil {
			return recipe.Control{}, nil, failed(err)
		}
	}
	d := doc.Read(w)
	if warnings = append(warnings, d.Problems...); read.Failed(warnings) {
		report(a.err, warnings)
		return recipe.Control{}, nil, problemsError{}
	}
	control, problems := d.Resolve(w, loaves, oils)
	if read.Failed(problems) {
		report(a.err, append(warnings, problems...))
		return recipe.Control{}, nil, problemsError{}
	}
	return control, warnings, nil
}

// recipeOrBatch gives a state that holds the recipe of that name or, where there is
// none, the batch of that code.
func (a *app) recipeOrBatch(command, of string, loaves int) (code string, s batch.State, err error) {
	home, err := a.home()
	if err != nil {
		return "", s, err
	}
	if _, missing := documents.Open(home, of); missing != nil {
		s, err := a.batch(of)
		if err != nil || s.Begun() {
			return of, s, failed(err)
		}
		if errors.Is(missing, fs.ErrNotExist) {
			return "", s, fmt.Errorf("%s: %s is no batch, no file and no recipe: bench find lists the batches; %s", command, of, documents.BuiltIn())
		}
	}
	s.Control, err = a.resolve(command, of, loaves, 0)
	return "", s, err
}

// batch reads a batch; one that is not there has not begun.
func (a *app) batch(code string) (s batch.State, err error) {
	err = a.reading(func(l *ledger.Ledger) (err error) {
		s, err = l.State(code)
		return err
	})
	return s, err
}

func noBatch(code string) error {
	return fmt.Errorf("there is no batch %s: bench find lists them", code)
}
