package main

import (
	"errors"
	"fmt"
	"io/fs"
	"time"

	"bench/internal/batch"
	"bench/internal/journal"
	"bench/internal/judge"
	"bench/internal/recipe"
	"bench/internal/recipe/check"
	"bench/internal/recipe/read"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/work"
	"bench/recipes"
)

const (
	code       = "260302A"
	recipeFile = "lighthouse-at-dusk.yaml"
)

// begin makes a data folder with a batch that has been worked up to a stage of
// that kind, just now, so that its timers are young and turn every second.
func begin(home string, until work.Kind) (batch.State, error) {
	control, err := controlRecipe()
	if err != nil {
		return batch.State{}, err
	}
	store, err := journal.Open(home, journal.Options{})
	if err != nil {
		return batch.State{}, err
	}
	state, err := workOn(store, control, until)
	return state, errors.Join(err, store.Close())
}

func controlRecipe() (recipe.Control, error) {
	text, err := fs.ReadFile(recipes.FS(), recipes.WorkshopFile)
	if err != nil {
		return recipe.Control{}, err
	}
	workshop, _, _ := read.Workshop(recipes.WorkshopFile, text) // Its own test reads it.
	if text, err = fs.ReadFile(recipes.FS(), recipeFile); err != nil {
		return recipe.Control{}, err
	}
	r, _, _ := read.CheckedRecipe(recipeFile, text, workshop) // So does this one's.
	control, problems := check.Resolve(r, string(text), workshop, 0)
	if control.Loaves == 0 {
		return control, fmt.Errorf("%s: %v", recipeFile, problems)
	}
	return control, nil
}

// workOn keeps one fact after the other, as asked, until that stage comes up.
func workOn(store *journal.Store, control recipe.Control, until work.Kind) (state batch.State, err error) {
	now := journal.Stamp{Wall: time.Now().Round(0)}
	writer, err := store.Hold(code, now)
	if err != nil {
		return state, err
	}
	defer func() { err = errors.Join(err, writer.Release()) }()
	for fact := batch.Fact(batch.Started{Control: control}); ; {
		kind, body, err := batch.Encode(fact)
		if err != nil {
			return state, err
		}
		if _, err := writer.Append(kind, body, nil, now); err != nil {
			return state, err
		}
		state = entered(state, fact)
		plan := steps.Of(state)
		task, stage, ok := next(plan)
		if !ok || stage.Kind == until {
			return state, nil
		}
		if _, fact, err = answer(plan, task); err != nil {
			return state, err
		}
	}
}

// entered gives the state after one more fact, said now.
func entered(s batch.State, f batch.Fact) batch.State {
	return s.With(f, moment())
}

func moment() timer.Moment { return timer.Moment{Wall: time.Now().Round(0)} }

// next gives the task that bench will have at hand.
func next(p steps.Plan) (work.Task, work.Stage, bool) {
	id, ok := p.Next(moment())
	if !ok {
		return work.Task{}, work.Stage{}, false
	}
	return p.Task(id)
}

// answer gives what is typed for a task that went as asked, "" where space says
// it all, and the fact that bench makes of it.
func answer(p steps.Plan, t work.Task) (text string, f batch.Fact, err error) {
	a := judge.Answer{How: batch.AtTarget}
	if t.MustType || t.Do == work.Portion || t.Do == work.Temperature {
		a = judge.Answer{How: batch.Typed, Text: asked(t)}
	}
	f, err = judge.Fact(p, t.ID, a)
	return a.Text, f, err
}

func asked(t work.Task) string {
	switch t.Do {
	case work.Portion:
		return t.StopAt.At(t.Reads)
	case work.Gross:
		return t.Target.At(t.Reads)
	case work.Temperature:
		return fmt.Sprintf("%.0f", t.Wanted.Celsius())
	case work.Weigh, work.Tick, work.Look, work.Confirm, work.Choose, work.Count, work.Bars, work.Aside, work.WeighIn, work.Measure:
	}
	return t.Remaining().At(t.Reads)
}

// kept counts the facts in the store, each of them read and verified.
func kept(home string) (n int, err error) {
	store, err := journal.Open(home, journal.Options{ReadOnly: true})
	if err != nil {
		return 0, err
	}
	records, err := store.Records(code)
	return len(records), errors.Join(err, store.Close())
}
